//! What is chosen.

use crate::plan::{
    CableId, DropId, KeepOutId, LevelId, OpeningId, Plan, PowerRunId, RoomId, WallId,
};

/// Something the slip can be about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Choice {
    /// A drop.
    Drop(DropId),
    /// The closet.
    Closet,
    /// A door, window or cased opening.
    Opening(OpeningId),
    /// A wall.
    Wall(WallId),
    /// A room.
    Room(RoomId),
    /// A keep-out.
    KeepOut(KeepOutId),
    /// A power run.
    PowerRun(PowerRunId),
    /// One cable with its way.
    Cable(CableId),
    /// A level: its height, what is over and under it, its joists.
    Level(LevelId),
    /// The drawing under a level: its known dimensions and their residuals.
    Drawing(LevelId),
}

impl Choice {
    /// Whether the plan still has it.
    pub fn stands(self, plan: &Plan) -> bool {
        let on_a_level = |has: &dyn Fn(&crate::plan::Level) -> bool| plan.levels.iter().any(has);
        match self {
            Self::Drop(id) => plan.drop(id).is_some(),
            Self::Closet => plan.closet.is_some(),
            Self::Opening(id) => plan.opening(id).is_some(),
            Self::Wall(id) => plan.wall(id).is_some(),
            Self::Room(id) => on_a_level(&|level| level.room(id).is_some()),
            Self::KeepOut(id) => on_a_level(&|level| level.keep_out(id).is_some()),
            Self::PowerRun(id) => on_a_level(&|level| level.power_run(id).is_some()),
            Self::Cable(id) => plan.cable(id).is_some(),
            Self::Level(id) => plan.level(id).is_some(),
            Self::Drawing(id) => plan
                .level(id)
                .is_some_and(|level| level.sheet.scan.is_some()),
        }
    }
}
