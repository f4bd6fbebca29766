//! Where cables are pinned: a small pin over each place, those of the chosen cable in the signal
//! colour.

use borewright_core::desk::Session;
use borewright_core::plan::{CableId, LevelId, Pin, PinTo, Plan};
use borewright_core::shape::Pos;
use yew::prelude::*;

/// One pin on the level shown.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    at: Pos,
    chosen: bool,
}

/// What a [`PinLayer`] draws.
#[derive(Properties, PartialEq)]
pub struct PinLayerProps {
    /// The pins.
    pub marks: Vec<Mark>,
    /// Millimetres to a pixel.
    pub scale: f64,
}

/// The pins of a level.
#[component]
pub fn PinLayer(props: &PinLayerProps) -> Html {
    let draw = |mark: &Mark| {
        let transform = format!(
            "translate({:.1} {:.1}) scale({:.4})",
            mark.at.x, mark.at.y, props.scale
        );
        html! {
            <path class="PinMark" data-chosen={mark.chosen.to_string()} {transform}
                d="M0 0V-7M-4.5 -7H4.5L3 -11V-15H-3V-11Z" />
        }
    };
    html! { <g class="PinLayer">{ for props.marks.iter().map(draw) }</g> }
}

/// The pins on the level shown, each place once; chosen ones last, so that they lie on top.
pub fn marks(session: &Session) -> Vec<Mark> {
    let plan = session.shown_plan();
    let chosen = session.chosen_cables();
    let mut marks: Vec<Mark> = Vec::new();
    for (cable, to) in plan.pins.iter().filter_map(of_cable) {
        let at = to
            .position(plan)
            .filter(|_| level(plan, cable, to) == Some(session.level));
        let Some(at) = at else { continue };
        let chosen = chosen.contains(&cable);
        match marks.iter_mut().find(|mark| mark.at == at) {
            Some(mark) => mark.chosen |= chosen,
            None => marks.push(Mark { at, chosen }),
        }
    }
    marks.sort_by_key(|mark| mark.chosen);
    marks
}

fn of_cable(pin: &Pin) -> Option<(CableId, PinTo)> {
    match *pin {
        Pin::Cable { cable, to } => Some((cable, to)),
        Pin::Lane { .. } => None,
    }
}

/// The level a pin is shown on: its wall's, or that of the cable's drop.
fn level(plan: &Plan, cable: CableId, to: PinTo) -> Option<LevelId> {
    match to {
        PinTo::Bay { wall, .. } => Some(plan.wall(wall)?.0.id),
        PinTo::Overhead { .. } => Some(plan.cable(cable)?.0.level),
    }
}
