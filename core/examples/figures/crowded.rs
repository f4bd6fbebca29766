//! A house with more drops than its plan has.

use borewright_core::plan::edit::Edit;
use borewright_core::plan::{DropKind, Place, Plan, Side};
use borewright_core::units::Mm;

/// How high outlets are, millimetres to their centre: 16 in.
const HEIGHT: Mm = Mm(406);

/// How far from outlet to outlet along a wall, millimetres.
const APART: i32 = 1_900;

/// The plan with outlets along its walls, lowest level first, until it has so many drops.
pub fn crowded(mut plan: Plan, drops: usize) -> Plan {
    for (level, wall, long) in walls(&plan) {
        for offset in (900..long).step_by(APART as usize) {
            if plan.drops.len() >= drops {
                return plan;
            }
            let place = Place::Wall {
                wall,
                offset: Mm(offset),
                side: Side::Right,
                height: HEIGHT,
            };
            let kind = DropKind::Data;
            let outlet = Edit::AddDrop { kind, level, place };
            // In a door there is no place for one.
            plan = plan.apply(&outlet).unwrap_or(plan);
        }
    }
    plan
}

/// Level, identity and length of every wall.
fn walls(
    plan: &Plan,
) -> Vec<(
    borewright_core::plan::LevelId,
    borewright_core::plan::WallId,
    i32,
)> {
    let levels = plan.levels.iter();
    let walls = levels.flat_map(|level| level.walls.iter().map(move |wall| (level.id, wall)));
    walls
        .map(|(level, wall)| (level, wall.id, wall.from.distance(wall.to).0))
        .collect()
}
