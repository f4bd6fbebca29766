//! Where cable runs beside power, told once a wall.

use std::collections::BTreeMap;

use super::obstacle::Obstacles;
use super::way::{MoveKind, Ways};
use crate::framing::Framing;
use crate::plan::{CableId, LevelId, Plan, WallId};
use crate::rules::RuleId;
use crate::shape::Pos;

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
        let above = framing.levels[place].above;
        for way in &ways.ways {
            for step in &way.moves {
                let middle = (step.from.at + step.to.at) * 0.5;
                match step.kind {
                    MoveKind::AlongWall { wall } if level.wall(wall).is_some() => {
                        let height = step.crossing.map_or(0.0, |c| ways.crossings[c].height);
                        let Some(line) = framing.wall(wall).map(|w| w.line) else {
                            continue;
                        };
                        let (a, b) = (line.offset_of(step.from.at), line.offset_of(step.to.at));
                        if obstacles.power_beside(wall, a.min(b), a.max(b), height) > 0 {
                            walls.entry(wall).or_default().add(
                                way.cable,
                                step.length,
                                middle,
                                true,
                            );
                        }
                    }
                    MoveKind::AlongStrip { space } | MoveKind::AcrossStrips { space }
                        if above == Some(space)
                            && obstacles.power_along(step.from.at, step.to.at) =>
                    {
                        open.entry(level.id).or_default().add(
                            way.cable,
                            step.length,
                            middle,
                            false,
                        );
                    }
                    _ => {}
                }
            }
        }
    }
    tell(plan, walls, open)
}

#[derive(Default)]
struct Stretch {
    cables: BTreeMap<CableId, f64>,
    at: Pos,
    near: bool,
}

impl Stretch {
    fn add(&mut self, cable: CableId, length: f64, at: Pos, near: bool) {
        *self.cables.entry(cable).or_default() += length;
        self.at = at;
        self.near |= near;
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
        beside(wall.label(), level.id, stretch)
    });
    let overhead = open.into_iter().filter_map(|(id, mut stretch)| {
        stretch.cables.retain(|_, length| *length > longest);
        let name = format!("the space over {}", plan.level(id)?.name);
        beside(name, id, stretch)
    });
    in_walls.chain(overhead).collect()
}

fn beside(name: String, level: LevelId, stretch: Stretch) -> Option<Beside> {
    let cable = *stretch.cables.keys().next()?;
    let count = stretch.cables.len();
    let cables = if count == 1 {
        String::from("1 cable")
    } else {
        format!("{count} cables")
    };
    Some(Beside {
        name,
        near: stretch.near,
        cables,
        cable,
        level,
        at: stretch.at,
    })
}
