//! The way of one cable in words, with its length.

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

/// The way of a cable: in words, then path, slack, waste and the length to cut.
#[component]
pub fn WayWords(props: &WayWordsProps) -> Html {
    let desk = use_desk();
    let Some(words) = words(&desk, props.cable) else {
        return html! {};
    };
    let plan = desk.session.shown_plan();
    let cut = desk.session.shown_design().cut_list.cut(props.cable);
    html! {
        <div class="WayWords">
            <p><Figures text={words} /></p>
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
