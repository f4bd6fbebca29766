//! The way of the chosen cable, in the signal colour over everything else.

use borewright_core::desk::Choice;
use borewright_core::shape::Pos;
use yew::prelude::*;

use super::ink::chain;
use crate::state::Desk;

/// The way of the chosen cable, or of every cable of the chosen drop, on the shown level.
pub fn chosen_ways(desk: &Desk) -> Html {
    let (plan, design) = (desk.session.shown_plan(), desk.session.shown_design());
    let is_meant = |cable, drop| match desk.session.chosen {
        Some(Choice::Cable(chosen)) => chosen == cable,
        Some(Choice::Drop(chosen)) => chosen == drop,
        _ => false,
    };
    let Some(level) = plan.level(desk.session.level) else {
        return html! {};
    };
    let ways = design
        .ways
        .ways
        .iter()
        .filter(|way| is_meant(way.cable, way.drop));
    let lines: Vec<String> = ways
        .filter(|_| !level.walls.is_empty())
        .map(|way| {
            let start = way.moves.first().map(|step| step.from.at);
            let points: Vec<Pos> = start
                .into_iter()
                .chain(way.moves.iter().map(|step| step.to.at))
                .collect();
            chain(&points)
        })
        .collect();
    html! { <path class="ChosenWay" d={lines.concat()} /> }
}
