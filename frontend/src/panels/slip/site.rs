//! What others put into the house: keep-outs and power runs.

use borewright_core::plan::edit::Edit;
use borewright_core::plan::{KeepOut, KeepOutId, KeepOutReason, PowerPlace, PowerRun, PowerRunId};
use borewright_core::units::Mm;
use yew::prelude::*;

use super::{Head, Remove, use_edit};
use crate::hooks::use_desk;
use crate::panels::length_field::LengthField;
use crate::panels::words::capital;
use crate::parts::{Field, FieldKind, Pick, Tick};

/// Which keep-out.
#[derive(Properties, PartialEq)]
pub struct KeepOutSlipProps {
    /// Its identity.
    pub id: KeepOutId,
}

/// The slip of a keep-out.
#[component]
pub fn KeepOutSlip(props: &KeepOutSlipProps) -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let plan = desk.session.shown_plan();
    let Some(keep_out) = plan
        .levels
        .iter()
        .find_map(|level| level.keep_out(props.id))
    else {
        return html! {};
    };
    let reasons = KeepOutReason::ALL
        .map(|reason| AttrValue::from(capital(reason.name())))
        .to_vec();
    let onreason = set_keep_out(keep_out, &edit, |keep_out, place: usize| KeepOut {
        reason: KeepOutReason::ALL
            .get(place)
            .copied()
            .unwrap_or(keep_out.reason),
        ..keep_out
    });
    html! {
        <>
            <Head title="Keep clear" line={keep_out.reason.name()} />
            <Pick label="Why" options={reasons} onpick={onreason}
                chosen={KeepOutReason::ALL.iter().position(|reason| *reason == keep_out.reason)} />
            <div class="SlipRow">
                <LengthField label="From height" value={keep_out.bottom} height=true
                    onset={set_keep_out(keep_out, &edit, |keep_out, bottom: Mm| KeepOut { bottom, ..keep_out })} />
                <LengthField label="To height" value={keep_out.top} height=true
                    onset={set_keep_out(keep_out, &edit, |keep_out, top: Mm| KeepOut { top, ..keep_out })} />
            </div>
            if keep_out.reason.is_cut() {
                <p class="Quiet">{ "State how high it sits. Bores keep the spacing of the rule set beside it; other trades\u{2019} cuts that are not drawn are not known here." }</p>
            }
            <Remove label="Remove this keep-out" />
        </>
    }
}

fn set_keep_out<T: 'static>(
    keep_out: &KeepOut,
    edit: &Callback<Edit>,
    make: impl Fn(KeepOut, T) -> KeepOut + 'static,
) -> Callback<T> {
    let keep_out = keep_out.clone();
    edit.reform(move |given| Edit::SetKeepOut(make(keep_out.clone(), given)))
}

/// Which power run.
#[derive(Properties, PartialEq)]
pub struct PowerRunSlipProps {
    /// Its identity.
    pub id: PowerRunId,
}

/// The slip of a power run.
#[component]
pub fn PowerRunSlip(props: &PowerRunSlipProps) -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let plan = desk.session.shown_plan();
    let Some(run) = plan
        .levels
        .iter()
        .find_map(|level| level.power_run(props.id))
    else {
        return html! {};
    };
    let line = match &run.place {
        PowerPlace::Wall { wall, .. } => format!("in W{}, by others", wall.0),
        PowerPlace::Overhead(_) => String::from("overhead, by others"),
    };
    html! {
        <>
            <Head title="Power run" {line} />
            { power_fields(run, &edit) }
            <Remove label="Remove this power run" />
        </>
    }
}

fn power_fields(run: &PowerRun, edit: &Callback<Edit>) -> Html {
    let oncircuits = set_run(run, edit, |run, text: String| PowerRun {
        circuits: text.trim().parse().unwrap_or(run.circuits),
        ..run
    });
    let onpanel = set_run(run, edit, |run, panel| PowerRun { panel, ..run });
    let onheight = set_run(run, edit, |run, height: Mm| match run.place {
        PowerPlace::Wall { wall, from, to, .. } => PowerRun {
            place: PowerPlace::Wall {
                wall,
                from,
                to,
                height,
            },
            ..run
        },
        PowerPlace::Overhead(_) => run,
    });
    html! {
        <>
            <div class="SlipRow">
                <Field label="Circuits" kind={FieldKind::Figure} value={run.circuits.to_string()} onset={oncircuits} />
                if let PowerPlace::Wall { height, .. } = &run.place {
                    <LengthField label="Height" value={*height} height=true onset={onheight} />
                }
            </div>
            <Tick label="This is the service panel" ticked={run.panel} onset={onpanel} />
        </>
    }
}

fn set_run<T: 'static>(
    run: &PowerRun,
    edit: &Callback<Edit>,
    make: impl Fn(PowerRun, T) -> PowerRun + 'static,
) -> Callback<T> {
    let run = run.clone();
    edit.reform(move |given| Edit::SetPowerRun(make(run.clone(), given)))
}
