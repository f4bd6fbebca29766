//! Where cable runs beside power, told once a wall, and where power stops a lane.

use std::collections::{BTreeMap, BTreeSet};

use super::lane::lane_height;
use super::obstacle::Obstacles;
use super::way::{Move, MoveKind, Way, Ways};
use crate::framing::Framing;
use crate::plan::{CableId, LevelId, Pin, Plan, WallId};
use crate::rules::RuleId;
use crate::shape::Pos;
use crate::units::Mm;

/// Cables beside power in one wall or overhead.
#[derive(Clone, Debug, PartialEq)]
pub struct Beside {
    /// Where: a wall's name, or "the attic".
    pub name: String,
    /// Nearer than the rules warn of; otherwise merely parallel for long.
    pub near: bool,
    /// How many: "3 cables".
    pub cables: String,
    /// The first of them.
    pub cable: CableId,
    /// The level it is seen from.
    pub level: LevelId,
    /// Where on the plan.
    pub at: Pos,
}

/// A lane that power cable stops.
#[derive(Clone, Debug, PartialEq)]
pub struct StoppedLane {
    /// "power cable at 24 in stops the lane of W3, which is pinned at 24 in".
    pub words: String,
    /// How far along the wall the power is from the place asked about, millimetres; 0 beside it.
    pub away: f64,
}

/// The power cable that stops the lane of a wall, the nearest to an offset along it; `None` where
/// none comes as near as that.
pub fn stopped_lane(
    plan: &Plan,
    framing: &Framing,
    wall: WallId,
    offset: f64,
) -> Option<StoppedLane> {
    let (level, drawn) = plan.wall(wall)?;
    let framed = framing.wall(wall)?;
    let obstacles = Obstacles::of(level, &plan.rules);
    let lane = lane_height(plan, level, framed, &obstacles);
    let stop = obstacles.power_that_stops(wall, lane, offset)?;
    let is_pin = |pin: &Pin| matches!(pin, Pin::Lane { wall: on, .. } if *on == wall);
    let pinned = plan.pins.iter().any(is_pin);
    let height = |height: f64| plan.units.height(Mm::rounded(height));
    let lies = if pinned { "which is pinned at" } else { "at" };
    Some(StoppedLane {
        words: format!(
            "power cable at {} stops the lane of {}, {lies} {}",
            height(stop.height),
            drawn.label(),
            height(lane)
        ),
        away: stop.away,
    })
}

/// Every wall, and the space over every level, where cable runs beside power nearer than the rules
/// warn of, or parallel for longer than they note. Square crossings are free.
pub fn beside_power(plan: &Plan, framing: &Framing, ways: &Ways) -> Vec<Beside> {
    let mut walls: BTreeMap<WallId, Stretch> = BTreeMap::new();
    let mut open: BTreeMap<LevelId, Stretch> = BTreeMap::new();
    for (place, level) in plan.levels.iter().enumerate() {
        if level.power_runs.is_empty() {
            continue;
        }
        let obstacles = Obstacles::of(level, &plan.rules);
        let here = &framing.levels[place];
        for (way, step) in ways.ways.iter().flat_map(steps) {
            let (found, length, near) = match step.kind {
                MoveKind::AlongWall { wall } if level.wall(wall).is_some() => {
                    let height = step.crossing.map_or(0.0, |c| ways.crossings[c].height);
                    match beside_lane(framing, &obstacles, wall, step, height) {
                        (length, near) if near || length > 0.0 => {
                            (walls.entry(wall).or_default(), length, near)
                        }
                        _ => continue,
                    }
                }
                MoveKind::AlongStrip { space } | MoveKind::AcrossStrips { space }
                    if here.is_under(space) =>
                {
                    match obstacles.power_along(step.from.at, step.to.at) {
                        Some(power) => {
                            let found = open.entry(level.id).or_default();
                            (found, power.length, power.near > 0)
                        }
                        None => continue,
                    }
                }
                _ => continue,
            };
            found.add(way.cable, step, length, near);
        }
    }
    tell(plan, walls, open)
}

fn steps(way: &Way) -> impl Iterator<Item = (&Way, &Move)> {
    way.moves.iter().map(move |step| (way, step))
}

/// How far a move along a wall runs along power, and whether it is nearer than is warned of.
fn beside_lane(
    framing: &Framing,
    obstacles: &Obstacles,
    wall: WallId,
    step: &Move,
    height: f64,
) -> (f64, bool) {
    let Some(line) = framing.wall(wall).map(|wall| wall.line) else {
        return (0.0, false);
    };
    let (a, b) = (line.offset_of(step.from.at), line.offset_of(step.to.at));
    let (from, to) = (a.min(b), a.max(b));
    (
        obstacles.power_along_lane(wall, from, to, height),
        obstacles.power_beside(wall, from, to, height) > 0,
    )
}

/// Where cable runs beside power in one wall, or over one level.
#[derive(Default)]
struct Stretch {
    /// Cables nearer than is warned of, for however short.
    near: BTreeSet<CableId>,
    /// How far each cable runs along, near or not.
    along: BTreeMap<CableId, f64>,
    at: Pos,
}

impl Stretch {
    fn add(&mut self, cable: CableId, step: &Move, length: f64, near: bool) {
        *self.along.entry(cable).or_default() += length;
        if near || self.near.is_empty() {
            self.at = (step.from.at + step.to.at) * 0.5;
        }
        if near {
            self.near.insert(cable);
        }
    }
}

fn tell(
    plan: &Plan,
    walls: BTreeMap<WallId, Stretch>,
    open: BTreeMap<LevelId, Stretch>,
) -> Vec<Beside> {
    let longest = plan.rules.value(RuleId::PowerParallelRun);
    let in_walls = walls.into_iter().filter_map(|(id, stretch)| {
        let (level, wall) = plan.wall(id)?;
        beside(wall.label(), level.id, stretch, longest)
    });
    let overhead = open.into_iter().filter_map(|(id, stretch)| {
        let name = format!("the space over {}", plan.level(id)?.name);
        beside(name, id, stretch, longest)
    });
    in_walls.chain(overhead).collect()
}

/// What is told of a stretch: the cables that are too near, or else those that run along it for
/// longer than is noted.
fn beside(name: String, level: LevelId, stretch: Stretch, longest: f64) -> Option<Beside> {
    let near = !stretch.near.is_empty();
    let long = stretch
        .along
        .iter()
        .filter(|(_, length)| **length > longest);
    let told: Vec<CableId> = match near {
        true => stretch.near.into_iter().collect(),
        false => long.map(|(cable, _)| *cable).collect(),
    };
    let cable = *told.first()?;
    let cables = match told.len() {
        1 => String::from("1 cable"),
        count => format!("{count} cables"),
    };
    let at = stretch.at;
    Some(Beside {
        name,
        near,
        cables,
        cable,
        level,
        at,
    })
}
