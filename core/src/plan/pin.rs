//! What a person overruled about ways. Pins survive edits.

use serde::{Deserialize, Serialize};

use super::{CableId, Plan, WallId};
use crate::shape::{Point, Pos};
use crate::units::Mm;

/// One decision about ways that the engine must keep.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Pin {
    /// This cable must pass here.
    Cable {
        /// The cable.
        cable: CableId,
        /// Where it must pass.
        to: PinTo,
    },
    /// The lane of this wall is at this height, whatever the engine would choose.
    Lane {
        /// The wall.
        wall: WallId,
        /// Height of the lane above the finished floor.
        height: Mm,
    },
}

/// Where a pinned cable must pass.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum PinTo {
    /// Through the bay of a wall that holds this offset.
    Bay {
        /// The wall.
        wall: WallId,
        /// Offset from the wall's first end.
        offset: Mm,
    },
    /// Through the overhead space at this point of the plan.
    Overhead {
        /// The point.
        at: Point,
    },
}

impl Pin {
    /// The wall it names, if it names one.
    pub fn on_wall(&self) -> Option<WallId> {
        match self {
            Self::Cable {
                to: PinTo::Bay { wall, .. },
                ..
            }
            | Self::Lane { wall, .. } => Some(*wall),
            Self::Cable { .. } => None,
        }
    }

    /// Whether another pin decides the same thing and so is replaced by this one.
    pub fn same_place(&self, other: &Pin) -> bool {
        match (self, other) {
            (Self::Lane { wall, .. }, Self::Lane { wall: of, .. }) => wall == of,
            (
                Self::Cable { cable, to },
                Self::Cable {
                    cable: of,
                    to: there,
                },
            ) => cable == of && to == there,
            _ => false,
        }
    }
}

impl PinTo {
    /// Where it is on the plan; `None` for a wall that is gone or has no length.
    pub fn position(&self, plan: &Plan) -> Option<Pos> {
        match *self {
            Self::Bay { wall, offset } => Some(plan.wall(wall)?.1.line()?.at(offset.f64(), 0.0)),
            Self::Overhead { at } => Some(at.pos()),
        }
    }
}
