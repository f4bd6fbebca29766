//! The walls a cable goes through, each seen from its face.

use borewright_core::design::Design;
use borewright_core::plan::{CableId, WallId};
use borewright_core::route::MoveKind;
use yew::prelude::*;

use crate::hooks::use_desk;
use crate::panels::elevation::Elevation;

/// Which cable.
#[derive(Properties, PartialEq)]
pub struct WallsPassedProps {
    /// Its identity.
    pub cable: CableId,
}

/// An elevation of each wall a cable goes through, in the order of its way; they open by a tap, the
/// first stands open.
#[component]
pub fn WallsPassed(props: &WallsPassedProps) -> Html {
    let desk = use_desk();
    let walls = walls(desk.session.shown_design(), props.cable);
    let wall = |(place, wall): (usize, &WallId)| {
        html! {
            <details class="WallPassed" key={wall.0} open={place == 0}>
                <summary>{ format!("W{} from its face", wall.0) }</summary>
                <Elevation wall={*wall} />
            </details>
        }
    };
    html! { <>{ for walls.iter().enumerate().map(wall) }</> }
}

/// The walls of a cable's way, each once, in order.
fn walls(design: &Design, cable: CableId) -> Vec<WallId> {
    let mut walls = Vec::new();
    let moves = design.ways.way(cable).map_or(&[][..], |way| &way.moves);
    for wall in moves.iter().flat_map(|step| named(step.kind)) {
        if !walls.contains(&wall) {
            walls.push(wall);
        }
    }
    walls
}

fn named(kind: MoveKind) -> Vec<WallId> {
    match kind {
        MoveKind::InBay { wall, .. }
        | MoveKind::AlongWall { wall }
        | MoveKind::ThroughTopPlates { wall, .. }
        | MoveKind::ThroughBottomPlates { wall, .. }
        | MoveKind::OnFace { wall }
        | MoveKind::Outside { wall, .. } => vec![wall],
        MoveKind::IntoWall { from, to } => vec![from, to],
        MoveKind::AlongStrip { .. }
        | MoveKind::AcrossStrips { .. }
        | MoveKind::ThroughCeiling { .. } => Vec::new(),
    }
}
