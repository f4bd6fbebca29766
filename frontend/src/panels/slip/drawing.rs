//! The drawing under a level: known dimensions with their residuals, turning, fading, taking away.

use borewright_core::plan::edit::Edit;
use borewright_core::plan::{LevelId, Plan, Sheet};
use borewright_core::scan::{Residual, residuals};
use yew::prelude::*;

use super::{Head, use_edit};
use crate::hooks::use_desk;
use crate::panels::fade::Fade;
use crate::panels::icons;
use crate::parts::{Figures, Icon, Press};

/// Which level's drawing.
#[derive(Properties, PartialEq)]
pub struct DrawingSlipProps {
    /// The level's identity.
    pub id: LevelId,
}

/// The slip of a drawing.
#[component]
pub fn DrawingSlip(props: &DrawingSlipProps) -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let plan = desk.session.shown_plan();
    let Some(level) = plan.level(props.id) else {
        return html! {};
    };
    let Some(scan) = &level.sheet.scan else {
        return html! {};
    };
    let id = props.id;
    let line = format!(
        "{} by {} pixels, {} kB",
        scan.width,
        scan.height,
        scan.bytes.len() / 1024
    );
    html! {
        <>
            <Head title={format!("Drawing of {}", level.name)} {line} />
            <Fade />
            { known(plan, id, &level.sheet, &edit) }
            <Press label="Remove the drawing" icon={icons::REMOVE} onpress={edit.reform(move |()| Edit::RemoveScan(id))} />
        </>
    }
}

/// The known dimensions, each with how far the drawing is off once there are two.
fn known(plan: &Plan, level: LevelId, sheet: &Sheet, edit: &Callback<Edit>) -> Html {
    if sheet.known.is_empty() {
        return html! { <p class="Quiet">{ "No scale yet. Draw along something whose length is known, then type the length." }</p> };
    }
    let residuals = residuals(&sheet.placing, &sheet.known);
    let compare = residuals.len() > 1;
    let line = |(place, residual): (usize, &Residual)| {
        let length = sheet
            .known
            .get(place)
            .map(|known| plan.units.position(known.length))
            .unwrap_or_default();
        let onremove = edit.reform(move |_: MouseEvent| Edit::RemoveKnown(level, place));
        html! {
            <li key={place} class="KnownLine" data-off={residual.suspicious.to_string()}>
                <b><Figures text={length.clone()} /></b>
                <span><Figures text={if compare { off(plan, *residual) } else { "sets the scale".to_string() }} /></span>
                <button type="button" class="Small" aria-label={format!("Remove {length}")} onclick={onremove}>
                    <Icon lines={icons::CLOSE} />
                </button>
            </li>
        }
    };
    html! {
        <section aria-label="Known dimensions">
            <h3>{ "Known dimensions" }</h3>
            <ul class="List">{ for residuals.iter().enumerate().map(line) }</ul>
        </section>
    }
}

fn off(plan: &Plan, residual: Residual) -> String {
    use borewright_core::units::Mm;
    let by = plan.units.position(Mm::rounded(residual.off.abs()));
    let way = if residual.off > 0.0 { "long" } else { "short" };
    match (residual.off.abs() < 1.0, residual.suspicious) {
        (true, _) => String::from("agrees"),
        (_, false) => format!("drawn {by} {way}"),
        (_, true) => format!("drawn {by} {way}: check it"),
    }
}
