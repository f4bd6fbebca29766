//! Power cable by others, as far as the person knows it.

use super::{PowerRunId, WallId};
use crate::shape::Point;
use crate::units::Mm;

/// A run of power cable to keep clear of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PowerRun {
    /// Its identity.
    pub id: PowerRunId,
    /// Where it runs.
    pub place: PowerPlace,
    /// Circuits in it, at least one.
    pub circuits: u8,
    /// It is the service panel rather than a run.
    pub panel: bool,
}

/// Where power cable runs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PowerPlace {
    /// Along a wall through its studs at one height.
    Wall {
        /// The wall.
        wall: WallId,
        /// Nearer offset from the wall's first end.
        from: Mm,
        /// Farther offset; equal to `from` for a riser in one bay.
        to: Mm,
        /// Height above the finished floor.
        height: Mm,
    },
    /// Overhead, in the space above the level, along a chain of at least two points.
    Overhead(Vec<Point>),
}

impl PowerRun {
    /// The wall it runs in, if it runs in one.
    pub fn on_wall(&self) -> Option<WallId> {
        match self.place {
            PowerPlace::Wall { wall, .. } => Some(wall),
            PowerPlace::Overhead(_) => None,
        }
    }
}
