//! What the pointer holds on to, by name.
//!
//! One file a kind of thing that is placed; each gives the same answer for the same plan, place
//! and reach. Nothing here changes a plan.

mod face;
mod guide;
mod opening;
#[cfg(test)]
mod properties;
mod wall;

pub(super) use face::{boxed, nearest_wall};
pub(super) use opening::fit_opening;
pub(super) use wall::Aim;

use crate::plan::WallId;
use crate::shape::Point;
use crate::units::{Mm, Units};

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

    /// Whether it holds on to this.
    pub fn holds(&self, hold: &Hold) -> bool {
        self.holds.contains(hold)
    }
}

/// One thing a pointer can hold on to.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hold {
    /// The first point of the chain being drawn.
    First,
    /// The last point of the chain being drawn; a tap there lets go.
    Last,
    /// An end of a wall.
    EndOf(WallId),
    /// The centre line of a wall.
    On(WallId),
    /// At a right angle to the last segment, or straight along or down the sheet.
    Square,
    /// In the direction of a wall.
    Parallel(WallId),
    /// At a right angle to a wall.
    SquareTo(WallId),
    /// At 45 degrees to the last segment or to the sheet.
    Diagonal,
    /// Straight across or down the sheet from an end of a wall.
    InLine(WallId),
    /// A typed length.
    Typed,
    /// A face of a wall.
    FaceOf(WallId),
    /// The outside face of a wall.
    OutsideOf(WallId),
    /// A full-height stud, counted from the wall's first end.
    Stud(u32),
    /// What a box is nailed to, in words.
    Hung(String),
    /// On the ceiling.
    Ceiling,
    /// In the space overhead.
    Overhead,
    /// On the floor, away from any wall.
    Standing,
    /// Whole steps of 1 in or 25 mm.
    Steps,
}

impl Hold {
    /// The words for it.
    pub fn words(&self) -> String {
        match self {
            Self::First => String::from("first point"),
            Self::Last => String::from("last point, tap to let go"),
            Self::EndOf(wall) => format!("end of W{}", wall.0),
            Self::On(wall) => format!("on W{}", wall.0),
            Self::Square => String::from("square"),
            Self::Parallel(wall) => format!("along W{}", wall.0),
            Self::SquareTo(wall) => format!("square to W{}", wall.0),
            Self::Diagonal => String::from("45°"),
            Self::InLine(wall) => format!("in line with W{}", wall.0),
            Self::Typed => String::from("typed length"),
            Self::FaceOf(wall) => format!("on W{}", wall.0),
            Self::OutsideOf(wall) => format!("outside of W{}", wall.0),
            Self::Stud(number) => format!("stud {number}"),
            Self::Hung(words) => words.clone(),
            Self::Ceiling => String::from("ceiling"),
            Self::Overhead => String::from("overhead"),
            Self::Standing => String::from("standing free"),
            Self::Steps => String::from("whole steps"),
        }
    }
}

/// The nearest whole step of 1 in or 25 mm to a length in millimetres.
pub(super) fn step(length: f64, units: Units) -> f64 {
    let step = step_size(units).0;
    (length / step).round() * step
}

/// The nearest point of whole steps from the plan's origin.
pub(super) fn stepped(at: Point, units: Units) -> Point {
    let step = |part: i32| Mm::rounded(step(f64::from(part), units)).0;
    Point::new(step(at.x), step(at.y))
}

/// The step of a coordinate where nothing else holds: 1 in or 25 mm.
pub(super) fn step_size(units: Units) -> crate::units::Size {
    match units {
        Units::Imperial => crate::units::Size::inches(1.0),
        Units::Metric => crate::units::Size(25.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn holds_are_named_strongest_first() {
        let snap = Snap {
            at: Point::new(0, 0),
            holds: vec![Hold::Square, Hold::InLine(WallId(7))],
        };
        assert_eq!(snap.words(), "square, in line with W7");
    }

    #[test]
    fn steps_are_inches_or_quarter_decimetres() {
        assert_eq!(
            stepped(Point::new(40, -40), Units::Imperial),
            Point::new(51, -51)
        );
        assert_eq!(
            stepped(Point::new(40, -40), Units::Metric),
            Point::new(50, -50)
        );
    }
}
