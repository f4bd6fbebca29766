//! Doors, windows and cased openings.

use super::{OpeningId, WallId};
use crate::units::Mm;

/// An opening in a wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Opening {
    /// Its identity.
    pub id: OpeningId,
    /// The wall it is in.
    pub wall: WallId,
    /// From the wall's first end to the near side of the opening.
    pub offset: Mm,
    /// Width of the opening, between its jack studs.
    pub width: Mm,
    /// Height of the sill above the finished floor; zero for a door.
    pub sill: Mm,
    /// Height of the head above the finished floor.
    pub head: Mm,
    /// What it is.
    pub kind: OpeningKind,
}

/// What an opening is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum OpeningKind {
    /// A door, down to the floor.
    Door,
    /// A window over a sill.
    Window,
    /// A cased opening without a door.
    Cased,
}

impl OpeningKind {
    /// The word for it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Door => "door",
            Self::Window => "window",
            Self::Cased => "cased opening",
        }
    }
}
