//! What is begun and not yet part of the plan.

use std::rc::Rc;

use super::Choice;
use crate::design::Design;
use crate::plan::{Closet, DropKind, Opening, Place, Plan, WallId};
use crate::scan::Squaring;
use crate::shape::Point;
use crate::units::Mm;

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
    /// Corners of something rectangular on a photo, to square it up by.
    Corners {
        /// Corners tapped, one to four.
        points: Vec<Point>,
        /// How the picture is to be squared, once its size was typed. Whoever holds the pixels
        /// answers; until then the drawing stays as it is.
        asked: Option<Box<Squaring>>,
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
        wall: WallId,
        /// Where it begins along the wall.
        from: Mm,
        /// Where it ends along the wall; may lie before `from`.
        to: Mm,
    },
    /// A place for a room's name; its name is awaited.
    Room {
        /// The place.
        at: Point,
    },
    /// Something of the plan being moved.
    Move {
        /// What is moved; `None` for a corner of walls and for the drawing.
        what: Option<Choice>,
        /// The plan as it would be, to be drawn meanwhile.
        plan: Rc<Plan>,
        /// What would follow from it.
        design: Rc<Design>,
    },
}

impl Draft {
    /// Whether a person has begun it by a tap, rather than it only being under the pointer.
    pub fn is_begun(&self) -> bool {
        !matches!(self, Self::Drop { .. } | Self::Closet(_) | Self::Opening(_))
    }

    /// Itself before its last point was tapped, and what such a point is called; `None` for what has
    /// not more than one, and for walls, whose points are in the plan already.
    pub(super) fn before_its_last(&self) -> Option<(Draft, &'static str)> {
        let fewer = |points: &[Point]| {
            let (_, rest) = points.split_last()?;
            (!rest.is_empty()).then(|| rest.to_vec())
        };
        match self {
            Self::Chain { points, .. } => {
                let points = fewer(points)?;
                Some((Self::Chain { points, to: None }, "point"))
            }
            Self::Corners { points, .. } => {
                let (points, asked) = (fewer(points)?, None);
                Some((Self::Corners { points, asked }, "corner"))
            }
            _ => None,
        }
    }

    /// What stays when the pointer leaves the sheet: what is begun, without its free end.
    pub(super) fn resting(self) -> Option<Draft> {
        match self {
            Self::Walls { points, .. } => Some(Self::Walls { points, to: None }),
            Self::Chain { points, .. } => Some(Self::Chain { points, to: None }),
            draft => draft.is_begun().then_some(draft),
        }
    }
}
