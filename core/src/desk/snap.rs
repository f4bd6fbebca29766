//! What the pointer holds on to, by name.

use crate::plan::WallId;
use crate::shape::Point;

/// A place the pointer was drawn to, and why.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Snap {
    /// The place.
    pub at: Point,
    /// What it holds on to, strongest first; never empty.
    pub holds: Vec<Hold>,
}

impl Snap {
    /// The words beside the pointer: "end of W3", "square, in line with W7".
    pub fn words(&self) -> String {
        let words: Vec<String> = self.holds.iter().map(Hold::words).collect();
        words.join(", ")
    }
}

/// One thing a pointer can hold on to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hold {
    /// An end of a wall.
    EndOf(WallId),
    /// The first point of the chain being drawn.
    Start,
    /// The centre line of a wall.
    Along(WallId),
    /// Straight across or down the sheet from an end of a wall.
    InLine(WallId),
    /// At a right angle to the last segment, or along the sheet.
    Square,
    /// At 45 degrees to the last segment or to the sheet.
    Diagonal,
    /// In the direction of a wall.
    Parallel(WallId),
    /// A typed length.
    Typed,
    /// A face of a wall.
    FaceOf(WallId),
    /// The outside face of a wall.
    OutsideOf(WallId),
    /// A stud of a wall, counted from the end its studs are laid out from.
    Stud(u32),
    /// Whole steps of 1 in or 25 mm.
    Grid,
}

impl Hold {
    /// The words for it.
    pub fn words(&self) -> String {
        match self {
            Self::EndOf(wall) => format!("end of W{}", wall.0),
            Self::Start => String::from("first point"),
            Self::Along(wall) => format!("on W{}", wall.0),
            Self::InLine(wall) => format!("in line with W{}", wall.0),
            Self::Square => String::from("square"),
            Self::Diagonal => String::from("45°"),
            Self::Parallel(wall) => format!("along W{}", wall.0),
            Self::Typed => String::from("typed length"),
            Self::FaceOf(wall) => format!("face of W{}", wall.0),
            Self::OutsideOf(wall) => format!("outside of W{}", wall.0),
            Self::Stud(number) => format!("stud {number}"),
            Self::Grid => String::from("whole steps"),
        }
    }
}
