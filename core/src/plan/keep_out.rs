//! Places nothing may be drilled or run through.

use strum::VariantArray;

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
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, VariantArray)]
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
    /// A notch that another trade cut, or will.
    Notch,
    /// A bore that another trade made, or will.
    BoreByOthers,
    /// Anything else.
    Other,
}

impl KeepOutReason {
    /// Every reason, in the order a list shows them.
    pub const ALL: [Self; Self::VARIANTS.len()] = every!(KeepOutReason);

    /// Whether wood is taken out there, so that our bores leave wood beside it.
    pub fn is_cut(self) -> bool {
        matches!(self, Self::Notch | Self::BoreByOthers)
    }

    /// The word for it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Duct => "duct",
            Self::Chimney => "chimney",
            Self::Stair => "stair",
            Self::Beam => "beam",
            Self::Cabinets => "cabinets",
            Self::Shower => "shower",
            Self::Notch => "notch",
            Self::BoreByOthers => "bore by others",
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
