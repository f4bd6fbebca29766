//! Walls without wood: what is drawn of a plan while its framing is not worked out.

use super::wall::BOARD;
use super::{Framing, LevelFraming, Outline, WallFraming};
use crate::plan::{Level, Plan, Wall};

impl Framing {
    /// The walls of a plan as lines, without studs, bays, joints or spaces: what is drawn of a plan while
    /// its framing is not worked out. Takes little time for any plan.
    pub fn bare(plan: &Plan) -> Self {
        let level = |level: &Level| LevelFraming {
            level: level.id,
            floor: 0.0,
            ceiling: level.ceiling.f64(),
            outline: Outline::of(level),
            walls: level
                .walls
                .iter()
                .filter_map(|wall| WallFraming::bare(level, wall))
                .collect(),
            above: None,
            below: None,
            beside: None,
            rafters: None,
            bare: None,
        };
        Self {
            levels: plan.levels.iter().map(level).collect(),
            spaces: Vec::new(),
        }
    }
}

impl WallFraming {
    /// A wall as it is drawn, without anything in it; `None` for one without a length.
    pub(super) fn bare(level: &Level, wall: &Wall) -> Option<Self> {
        let (line, height) = (wall.line()?, level.ceiling.f64());
        Some(Self {
            wall: wall.id,
            line,
            start: 0.0,
            end: line.length,
            bottom: f64::from(wall.bottom_plates) * BOARD,
            top: height - f64::from(wall.top_plates) * BOARD,
            height,
            studs: Vec::new(),
            headers: Vec::new(),
            bays: Vec::new(),
            joints: Vec::new(),
        })
    }
}
