//! What is begun and not yet part of the plan.

use std::rc::Rc;

use super::Choice;
use crate::plan::{Closet, DropKind, Opening, Place, Plan};
use crate::shape::Point;

/// Something on the sheet that is not in the plan: under the pointer, half drawn, or being moved.
#[derive(Clone, Debug, PartialEq)]
pub enum Draft {
    /// A chain of walls: the points tapped so far, and where the next segment ends now.
    Walls {
        /// Points tapped, at least one.
        points: Vec<Point>,
        /// The free end, `None` until the pointer shows where to.
        to: Option<Point>,
    },
    /// A stretch being drawn with a tool that takes two points: known dimension, level up,
    /// joists.
    Stretch {
        /// Its first end.
        from: Point,
        /// Its second end.
        to: Point,
        /// Both ends stand; a length is awaited.
        done: bool,
    },
    /// A rectangle being dragged.
    Region {
        /// One corner.
        from: Point,
        /// The corner across from it.
        to: Point,
    },
    /// A chain of points of an overhead power run.
    Chain {
        /// Points tapped, at least one.
        points: Vec<Point>,
        /// The free end.
        to: Option<Point>,
    },
    /// A drop where it would land.
    Drop {
        /// Its kind.
        kind: DropKind,
        /// Its place.
        place: Place,
    },
    /// A closet where it would land.
    Closet(Closet),
    /// An opening where it would land.
    Opening(Opening),
    /// A stretch of a wall between two offsets, for a keep-out or a power run.
    AlongWall {
        /// The wall.
        wall: crate::plan::WallId,
        /// Where it begins along the wall.
        from: crate::units::Mm,
        /// Where it ends along the wall; may lie before `from`.
        to: crate::units::Mm,
    },
    /// A place for a room's name; its name is awaited.
    Room {
        /// The place.
        at: Point,
    },
    /// Something of the plan being moved.
    Move {
        /// What is moved; `None` for the drawing.
        what: Option<Choice>,
        /// The plan as it would be, to be drawn meanwhile.
        plan: Rc<Plan>,
    },
}
