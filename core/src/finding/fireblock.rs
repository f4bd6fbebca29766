//! Findings about walls so tall that their bays are blocked half way up, where cable that rises passes
//! the blocks.

use std::collections::BTreeSet;

use super::{Finding, Severity, Subject};
use crate::framing::{Framing, LevelFraming, WallFraming};
use crate::plan::{CableId, Plan};
use crate::route::{Move, MoveKind, Ways};
use crate::rules::trade::{FIREBLOCK, FIREBLOCK_SOURCE};
use crate::units::Mm;

pub(super) fn check(plan: &Plan, framing: &Framing, ways: &Ways) -> Vec<Finding> {
    let levels = framing.levels.iter();
    let walls = levels.flat_map(|level| level.walls.iter().map(move |wall| (level, wall)));
    walls
        .filter_map(|(level, wall)| blocked(plan, ways, level, wall))
        .collect()
}

fn blocked(plan: &Plan, ways: &Ways, level: &LevelFraming, wall: &WallFraming) -> Option<Finding> {
    // A block at a height: the plates stand for those at floor and ceiling.
    if wall.height <= FIREBLOCK {
        return None;
    }
    let passes = |step: &Move| {
        let (from, to) = (step.from.z - level.floor, step.to.z - level.floor);
        let up = (
            from.min(to) / FIREBLOCK,
            from.max(to).min(wall.top) / FIREBLOCK,
        );
        is_in(step.kind, wall) && up.1.floor() > up.0.floor()
    };
    let through = ways.ways.iter().filter(|way| way.moves.iter().any(passes));
    let cables: BTreeSet<CableId> = through.map(|way| way.cable).collect();
    let count = match cables.len() {
        0 => return None,
        1 => String::from("1 cable passes"),
        count => format!("{count} cables pass"),
    };
    let (id, units) = (wall.wall, plan.units);
    let finding = Finding::new(
        format!("fireblock:W{}", id.0),
        Severity::Warn,
        Subject::Wall(id),
    );
    let middle = wall.line.at(wall.line.length / 2.0, 0.0);
    let what = format!(
        "W{} is {} tall, so its bays are blocked half way up; {count} a block there, which the drill list \
         leaves out.",
        id.0,
        units.path(Mm::rounded(wall.height))
    );
    let todo = "Bore each block it passes, and seal the hole; look on site where the blocks are.";
    Some(
        finding
            .at(level.level, middle)
            .says(what, todo)
            .by(FIREBLOCK_SOURCE),
    )
}

/// Whether a move is made up or down in the bays of a wall.
fn is_in(kind: MoveKind, wall: &WallFraming) -> bool {
    match kind {
        MoveKind::InBay { wall: on, .. }
        | MoveKind::ThroughTopPlates { wall: on, .. }
        | MoveKind::ThroughBottomPlates { wall: on, .. } => on == wall.wall,
        _ => false,
    }
}
