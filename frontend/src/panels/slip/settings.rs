//! Title, note, date, units, and every figure of the rule set with its source.

use borewright_core::plan::edit::Edit;
use borewright_core::plan::{CableKindId, CableSpec, Plan};
use borewright_core::rules::{RuleId, Trust, Unit};
use borewright_core::units::{Size, Units, read_size};
use yew::prelude::*;

use super::{Head, use_edit};
use crate::hooks::use_desk;
use crate::panels::words::capital;
use crate::parts::{Field, FieldKind, Press, PressKind, Segments};

/// The slip of settings.
#[component]
pub fn SettingsSlip() -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let plan = &desk.session.plan;
    html! {
        <>
            <Head title="Settings" line={format!("Rule set: {}", plan.rules.book.name())} />
            { job_fields(plan, &edit) }
            { bits(plan, &edit) }
            { cables(plan, &edit) }
            <h3>{ "Limits and defaults" }</h3>
            <p class="Quiet">{ "Change a figure to make it your own. The local code, the builder and the licensed trades decide." }</p>
            <ul class="Rules">{ for RuleId::ALL.iter().map(|id| rule(plan, *id, &edit)) }</ul>
        </>
    }
}

fn job_fields(plan: &Plan, edit: &Callback<Edit>) -> Html {
    let onunits = edit.reform(|place: usize| {
        Edit::SetUnits(if place == 0 {
            Units::Imperial
        } else {
            Units::Metric
        })
    });
    let options = ["Feet and inches", "Metric"].map(AttrValue::from).to_vec();
    html! {
        <>
            <Field label="Job title" value={plan.title.clone()} onset={edit.reform(Edit::SetTitle)} />
            <Field label="Note" kind={FieldKind::Lines} value={plan.note.clone()} onset={edit.reform(Edit::SetNote)} />
            <Field label="Date on the sheets" value={plan.date.clone()} onset={edit.reform(Edit::SetDate)} />
            <Segments label="Units" {options} chosen={Some(usize::from(plan.units == Units::Metric))} onpick={onunits} />
            <div class="SlipLine">
                <span>{ format!("Revision {}", plan.revision) }</span>
                <Press label="Next revision" onpress={edit.reform(|()| Edit::NextRevision)} />
            </div>
        </>
    }
}

/// The bits in the van, as a list between commas.
fn bits(plan: &Plan, edit: &Callback<Edit>) -> Html {
    let units = plan.units;
    let value = plan
        .catalogue
        .bits
        .iter()
        .map(|bit| units.size(*bit))
        .collect::<Vec<_>>()
        .join(", ");
    let set = edit.clone();
    let onset = Callback::from(move |text: String| {
        let sizes: Vec<Size> = text
            .split([',', ';'])
            .filter_map(|part| read_size(part.trim(), units).ok())
            .collect();
        set.emit(Edit::SetBits(sizes));
    });
    html! { <Field label="Bits in the van" kind={FieldKind::Lines} {value} {onset} /> }
}

fn cables(plan: &Plan, edit: &Callback<Edit>) -> Html {
    let units = plan.units;
    let line = |(place, spec): (usize, &CableSpec)| {
        let id = CableKindId(place as u16);
        let named = spec.clone();
        let onname = edit.reform(move |name| {
            Edit::SetCableKind(
                id,
                CableSpec {
                    name,
                    ..named.clone()
                },
            )
        });
        let (sized, set) = (spec.clone(), edit.clone());
        let ondiameter = Callback::from(move |text: String| {
            if let Ok(diameter) = read_size(&text, Units::Metric) {
                set.emit(Edit::SetCableKind(
                    id,
                    CableSpec {
                        diameter,
                        ..sized.clone()
                    },
                ));
            }
        });
        html! {
            <li key={place} class="SlipRow">
                <Field label={format!("Cable {}, letter {}", place + 1, spec.letter)} value={spec.name.clone()} onset={onname} />
                <Field label="Diameter, mm" kind={FieldKind::Figure} value={format!("{:.1} mm", spec.diameter.0)} onset={ondiameter} />
            </li>
        }
    };
    let next = CableKindId(plan.catalogue.cables.len() as u16);
    let blank = plan.catalogue.cables.first().cloned();
    let onadd = edit.reform(move |()| {
        let spec = blank.clone().map(|spec| CableSpec {
            name: String::from("Another cable"),
            part_reels: Vec::new(),
            ..spec
        });
        Edit::Together(
            spec.map(|spec| Edit::SetCableKind(next, spec))
                .into_iter()
                .collect(),
        )
    });
    html! {
        <section aria-label="Cables">
            <h3>{ format!("Cables, reels of {}", units.total(plan.catalogue.cables.first().map(|spec| spec.reel).unwrap_or_default())) }</h3>
            <ul class="List">{ for plan.catalogue.cables.iter().enumerate().map(line) }</ul>
            <Press label="Add a kind of cable" kind={PressKind::Quiet} onpress={onadd} />
        </section>
    }
}

fn rule(plan: &Plan, id: RuleId, edit: &Callback<Edit>) -> Html {
    let rule = plan.rules.rule(id);
    let own = rule.source.trust == Trust::Own;
    let (units, unit, set) = (plan.units, rule.unit, edit.clone());
    let onset = Callback::from(move |text: String| {
        if let Some(value) = read(&text, unit, units) {
            set.emit(Edit::SetRule(id, value));
        }
    });
    html! {
        <li key={id.key()} class="Rule" data-own={own.to_string()}>
            <Field label={capital(rule.name)} kind={FieldKind::Figure} value={show(rule.value, unit, units)} {onset} />
            <p class="Quiet">{ rule.source.words() }</p>
            if own {
                <Press label="Take the published figure" kind={PressKind::Quiet} onpress={edit.reform(move |()| Edit::ResetRule(id))} />
            }
        </li>
    }
}

fn show(value: f64, unit: Unit, units: Units) -> String {
    match unit {
        Unit::Millimetre => units.size(Size(value)),
        Unit::Percent => format!("{value} %"),
        Unit::Minute => format!("{value} min"),
        Unit::Money | Unit::Count => format!("{value}"),
    }
}

fn read(text: &str, unit: Unit, units: Units) -> Option<f64> {
    match unit {
        Unit::Millimetre => read_size(text, units).ok().map(|size| size.0),
        _ => text
            .trim()
            .trim_end_matches(['%', ' '])
            .trim_end_matches("min")
            .trim()
            .parse()
            .ok(),
    }
}
