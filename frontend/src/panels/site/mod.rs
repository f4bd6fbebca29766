//! The step Site: what is done on site, part by part and room by room, ticked off with one thumb.
//!
//! What is left of each part, the four counts and what is far off come from the core; here they are
//! only shown.

mod card;
mod counts;
mod handover;
mod marks;
mod notes;
mod punch;
mod rooms;
mod test;

use borewright_core::plan::Plan;
use borewright_core::schedule::Phase;
use yew::prelude::*;

use crate::hooks::{use_act, use_desk};
use crate::parts::Segments;
use crate::state::{Act, SiteLook};
use counts::FourCounts;
use handover::{Handover, OwnSheet};
use marks::Inspection;
pub use notes::{RecordOf, summary};
use punch::PunchList;
use rooms::Rooms;

/// The step Site.
#[component]
pub fn SitePage() -> Html {
    let desk = use_desk();
    let phase = desk.site.phase;
    let plan: &Plan = &desk.session.plan;
    if plan.drops.is_empty() {
        return html! {
            <section class="SitePage" aria-label="Site" tabindex="-1">
                <p>{ "There is nothing to tick off yet. Place drops first; each of them is listed here with its cables." }</p>
            </section>
        };
    }
    let content = match phase {
        Phase::PunchList => html! { <PunchList /> },
        Phase::Handover => html! { <Handover /> },
        Phase::Protection => html! { <><Rooms key={phase.name()} {phase} /><Inspection /></> },
        phase => html! { <Rooms key={phase.name()} {phase} /> },
    };
    html! {
        <section class="SitePage" aria-label="Site" tabindex="-1">
            <Phases />
            <FourCounts open={phase == Phase::Handover} />
            { content }
            if phase != Phase::Handover { <OwnSheet {phase} /> }
            <p class="Quiet">
                { "What is ticked here is kept on this device and in the plan's file. A link does not carry it." }
            </p>
        </section>
    }
}

/// The parts of the work, each with what is left of it.
#[component]
fn Phases() -> Html {
    let desk = use_desk();
    let onlook = use_act(Act::Look);
    let look = desk.site;
    let part = |phase: Phase| {
        let progress = phase.progress(&desk.session.plan);
        let left = match (progress.of, progress.left()) {
            (0, _) => String::from("nothing yet"),
            (_, 0) => String::from("done"),
            (_, left) => format!("{left} left"),
        };
        let onclick = onlook.reform(move |_: MouseEvent| SiteLook { phase, ..look });
        html! {
            <button key={phase.name()} type="button" class="SitePhase" aria-label={phase.name()}
                aria-description={left.clone()} aria-pressed={(look.phase == phase).to_string()}
                data-done={progress.is_done().to_string()} {onclick}>
                <b>{ phase.name() }</b><span>{ left }</span>
            </button>
        }
    };
    html! {
        <div class="SitePhases" role="group" aria-label="Parts of the work">
            { for Phase::ALL.into_iter().map(part) }
        </div>
    }
}

/// The list or the drawing, where a phone has room for one of them.
#[component]
pub fn SiteSides() -> Html {
    let desk = use_desk();
    let look = desk.site;
    let onpick = use_act(move |place: usize| {
        Act::Look(SiteLook {
            drawing: place == 1,
            ..look
        })
    });
    let options = ["The list", "The drawing"].map(AttrValue::from).to_vec();
    html! {
        <div class="SiteSides">
            <Segments label="Show" {options} chosen={Some(usize::from(look.drawing))} {onpick} />
        </div>
    }
}
