//! Two points on the sheet, by one drag or by two taps: what several tools begin with.

use crate::desk::{Draft, Gesture, Session};
use crate::shape::Point;

/// How far two points have come.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Stretch {
    /// Nothing yet, or as it was.
    AsItWas,
    /// The first stands, the second follows the pointer.
    Begun(Point, Point),
    /// Both stand.
    Done(Point, Point),
}

/// Takes a gesture. `straighten` may move the second point.
pub(super) fn stretch(
    session: &Session,
    gesture: &Gesture<Point>,
    straighten: impl Fn(Point, Point) -> Point,
) -> Stretch {
    let begun = match &session.draft {
        Some(Draft::Stretch {
            from, done: false, ..
        }) => Some(*from),
        _ => None,
    };
    match (*gesture, begun) {
        (Gesture::Tap(at), None) => Stretch::Begun(at, at),
        (Gesture::Tap(at), Some(from)) => Stretch::Done(from, straighten(from, at)),
        (Gesture::Hover(at), Some(from)) => Stretch::Begun(from, straighten(from, at)),
        (Gesture::DragBegan { from, to } | Gesture::DragMoved { from, to }, _) => {
            Stretch::Begun(from, straighten(from, to))
        }
        (Gesture::DragEnded { from, to }, _) => Stretch::Done(from, straighten(from, to)),
        _ => Stretch::AsItWas,
    }
}
