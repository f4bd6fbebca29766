//! The walls of the level beneath, faint: where cable comes up from, and what stacks.

use std::rc::Rc;

use borewright_core::plan::{LevelId, Plan, Wall};
use yew::prelude::*;

use super::ink::chain;

/// What a [`BeneathLayer`] draws.
#[derive(Properties)]
pub struct BeneathLayerProps {
    /// The plan.
    pub plan: Rc<Plan>,
    /// The level shown; the one under it is drawn.
    pub level: LevelId,
}

impl PartialEq for BeneathLayerProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.plan, &other.plan) && self.level == other.level
    }
}

/// The outlines of the walls beneath; nothing under the lowest level.
#[component]
pub fn BeneathLayer(props: &BeneathLayerProps) -> Html {
    let levels = &props.plan.levels;
    let shown = levels.iter().position(|level| level.id == props.level);
    let beneath = shown.and_then(|shown| levels.get(shown.checked_sub(1)?));
    let Some(level) = beneath else {
        return html! {};
    };
    let lines: String = level.walls.iter().filter_map(outline).collect();
    html! {
        <path class="Beneath" role="img" aria-label={format!("Walls of {}, beneath", level.name)} d={lines} />
    }
}

/// Both faces and both ends of a wall.
fn outline(wall: &Wall) -> Option<String> {
    let line = wall.line()?;
    let half = wall.width().0 / 2.0;
    let corners = [
        line.at(0.0, -half),
        line.at(line.length, -half),
        line.at(line.length, half),
        line.at(0.0, half),
    ];
    Some(format!("{}Z", chain(&corners)))
}
