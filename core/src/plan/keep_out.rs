//! Places nothing may be drilled or run through.

use super::{KeepOutId, WallId};
use crate::shape::Point;
use crate::units::Mm;

/// A region or a stretch of wall that stays clear.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeepOut {
    /// Its identity.
    pub id: KeepOutId,
    /// Where it is.
    pub shape: KeepOutShape,
    /// Lower edge above the finished floor.
    pub bottom: Mm,
    /// Upper edge above the finished floor. Above the ceiling it also closes the space overhead.
    pub top: Mm,
    /// Why.
    pub reason: KeepOutReason,
}

/// Where a keep-out is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum KeepOutShape {
    /// A region of the plan, at least three corners.
    Region(Vec<Point>),
    /// A stretch of one wall between two offsets from its first end.
    Stretch {
        /// The wall.
        wall: WallId,
        /// Nearer offset.
        from: Mm,
        /// Farther offset.
        to: Mm,
    },
}

/// Why a place stays clear.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum KeepOutReason {
    /// Air duct or its chase.
    Duct,
    /// Chimney or flue.
    Chimney,
    /// Stairs and their well.
    Stair,
    /// A beam or post.
    Beam,
    /// Cabinets: their screws find cable.
    Cabinets,
    /// Shower or tub: waterproofed.
    Shower,
    /// Anything else.
    Other,
}

impl KeepOutReason {
    /// Every reason, in the order a list shows them.
    pub const ALL: [KeepOutReason; 7] = [
        Self::Duct,
        Self::Chimney,
        Self::Stair,
        Self::Beam,
        Self::Cabinets,
        Self::Shower,
        Self::Other,
    ];

    /// The word for it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Duct => "duct",
            Self::Chimney => "chimney",
            Self::Stair => "stair",
            Self::Beam => "beam",
            Self::Cabinets => "cabinets",
            Self::Shower => "shower",
            Self::Other => "keep-out",
        }
    }
}

impl KeepOut {
    /// The wall it is a stretch of, if it is one.
    pub fn on_wall(&self) -> Option<WallId> {
        match self.shape {
            KeepOutShape::Stretch { wall, .. } => Some(wall),
            KeepOutShape::Region(_) => None,
        }
    }
}
