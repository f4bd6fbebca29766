//! The way of one cable in words, with its length.

use std::rc::Rc;

use borewright_core::design::Load;
use borewright_core::plan::{CableId, Plan};
use borewright_core::route;
use borewright_core::schedule::Cut;
use yew::prelude::*;

use crate::hooks::use_desk;
use crate::parts::{Fact, Facts, Figures};
use crate::state::Desk;

/// What a [`WayWords`] tells.
#[derive(Properties, PartialEq)]
pub struct WayWordsProps {
    /// The cable.
    pub cable: CableId,
}

/// The way of a cable: in words, with what another would cost, then path, slack, waste and the length
/// to cut.
#[component]
pub fn WayWords(props: &WayWordsProps) -> Html {
    let desk = use_desk();
    let (plan, design) = (desk.session.shown_plan(), desk.session.shown_design());
    // It takes as long as a frame or two, so that a drag goes without it, and so does a large plan.
    let settled = desk.session.draft.is_none() && Load::of(plan).is_light_for_a_frame();
    let about = (Rc::as_ptr(plan), Rc::as_ptr(design), props.cable, settled);
    let why = use_memo(about, |_| {
        let why = || route::why(plan, &design.framing, &design.ways, props.cable);
        settled.then(why).flatten()
    });
    let Some(words) = words(&desk, props.cable) else {
        return html! {};
    };
    let cut = design.cut_list.cut(props.cable);
    html! {
        <div class="WayWords">
            <p><Figures text={words} /></p>
            if let Some(why) = (*why).clone() { <p class="Quiet"><Figures text={why} /></p> }
            if let Some(cut) = cut { { lengths(plan, cut) } }
        </div>
    }
}

fn words(desk: &Desk, cable: CableId) -> Option<String> {
    let (plan, design) = (desk.session.shown_plan(), desk.session.shown_design());
    let way = design.ways.way(cable)?;
    Some(route::words(plan, &design.framing, &design.ways, way))
}

fn lengths(plan: &Plan, cut: &Cut) -> Html {
    let units = plan.units;
    html! {
        <Facts>
            <Fact name="Along the framing" value={units.path(cut.path)} />
            <Fact name="Slack, both ends" value={units.path(cut.slack)} />
            <Fact name="Waste" value={units.path(cut.waste)} />
            <Fact name="Length to cut" value={units.total(cut.length)} />
        </Facts>
    }
}
