//! The height at which a wall is bored from bay to bay: its lane.

use super::obstacle::Obstacles;
use crate::framing::WallFraming;
use crate::plan::{Level, OpeningKind, Pin, Place, Plan};
use crate::rules::RuleId;
use crate::rules::trade::{REACH, UNDER_SILL};

/// Lanes are tried this far apart, millimetres: 2 in.
const STEP: f64 = 50.8;
/// A box takes up this much above and below its centre, with room for the drill, millimetres.
const BOX: f64 = 90.0;

/// The height of a wall's lane above its level's finished floor, millimetres.
///
/// A pinned lane holds. Otherwise it is the nearest height to the default that has the fewest
/// obstacles: windows it would meet, boxes, keep-outs, power along the wall.
pub(super) fn lane_height(
    plan: &Plan,
    level: &Level,
    wall: &WallFraming,
    obstacles: &Obstacles,
) -> f64 {
    let pinned = plan.pins.iter().find_map(|pin| match pin {
        Pin::Lane { wall: on, height } if *on == wall.wall => Some(height.f64()),
        _ => None,
    });
    let usual = plan.rules.value(RuleId::LaneHeight);
    let (low, high) = (wall.bottom + UNDER_SILL, wall.top - UNDER_SILL);
    if let Some(height) = pinned {
        return height.clamp(low, high.max(low));
    }
    let mut least: Option<(u32, f64)> = None;
    for height in heights(plan, wall) {
        let troubles = troubles(plan, level, wall, obstacles, height);
        if least.is_none_or(|(known, _)| troubles < known) {
            least = Some((troubles, height));
        }
        if troubles == 0 {
            break;
        }
    }
    least.map_or_else(|| usual.clamp(low, high.max(low)), |(_, height)| height)
}

/// The height of a second lane, nearest to the usual one, at which the fewest of the places that stop
/// the first are stopped; `None` where as many are at every height.
pub(super) fn second_height(
    plan: &Plan,
    wall: &WallFraming,
    broken: usize,
    stops: impl Fn(f64) -> usize,
) -> Option<f64> {
    let mut least: Option<(usize, f64)> = None;
    for height in heights(plan, wall).into_iter().take_while(|_| broken > 0) {
        let stopped = stops(height);
        if stopped < least.map_or(broken, |(known, _)| known) {
            least = Some((stopped, height));
        }
        if stopped == 0 {
            break;
        }
    }
    least.map(|(_, height)| height)
}

/// Heights a lane may lie at, the nearest to the usual one first.
fn heights(plan: &Plan, wall: &WallFraming) -> Vec<f64> {
    let usual = plan.rules.value(RuleId::LaneHeight);
    let (low, high) = (wall.bottom + UNDER_SILL, wall.top - UNDER_SILL);
    let steps = ((high - low) / STEP).max(0.0) as i64;
    let heights = (-steps..=steps).map(|step| usual + step as f64 * STEP);
    let possible = heights.filter(|height| (low..=high).contains(height) && (*height <= REACH));
    let mut nearest_first: Vec<f64> = possible.collect();
    nearest_first.sort_by(|a, b| (a - usual).abs().total_cmp(&(b - usual).abs()));
    nearest_first
}

fn troubles(
    plan: &Plan,
    level: &Level,
    wall: &WallFraming,
    obstacles: &Obstacles,
    height: f64,
) -> u32 {
    let openings = level.openings_of(wall.wall);
    let windows = openings.iter().filter(|opening| {
        let cut = opening.sill.f64() - UNDER_SILL < height;
        opening.kind == OpeningKind::Window && cut
    });
    let boxes = plan.drops.iter().filter(|drop| match drop.place {
        Place::Wall {
            wall: on,
            height: at,
            ..
        } => on == wall.wall && (at.f64() - height).abs() < BOX,
        _ => false,
    });
    let bays = wall.bays.iter().filter(|bay| bay.reaches(height));
    let closed = bays.filter(|bay| {
        let places = (wall.line.at(bay.from, 0.0), wall.line.at(bay.to, 0.0));
        obstacles.closes(wall.wall, (bay.from, bay.to), places, (height, height))
    });
    let power = obstacles.power_beside(wall.wall, wall.start, wall.end, height);
    let along = obstacles.power_along_lane(wall.wall, wall.start, wall.end, height);
    let long = along > plan.rules.value(RuleId::PowerParallelRun);
    windows.count() as u32 * 4
        + boxes.count() as u32
        + closed.count() as u32 * 2
        + u32::from(power) * 3
        + u32::from(long) * 2
}
