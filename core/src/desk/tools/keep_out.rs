//! Keeping a place clear: a rectangle from corner to corner, or a stretch along one wall.

use crate::desk::answer::Answer;
use crate::desk::choice::{under, wall_under};
use crate::desk::snap::stepped;
use crate::desk::{Choice, Draft, Gesture, Reach, Session};
use crate::plan::edit::Edit;
use crate::plan::{KeepOut, KeepOutId, KeepOutReason, KeepOutShape, Level, WallId};
use crate::shape::Point;
use crate::units::Mm;

/// Something smaller than this needs no keep-out.
const SMALLEST: Mm = Mm(50);
/// A duct or a chimney goes on through the space overhead this far.
const OVERHEAD: Mm = Mm(1000);

pub(super) fn answer(session: &Session, gesture: &Gesture<Point>, reach: Reach) -> Answer {
    match *gesture {
        Gesture::Tap(at) => match under(session, at, reach) {
            Some(choice @ Choice::KeepOut(_)) => Answer::default().choosing(choice),
            _ => {
                let text = "Drag from corner to corner of what stays clear, or along a wall.";
                Answer::declined(session, text, at)
            }
        },
        Gesture::DragBegan { from, to } | Gesture::DragMoved { from, to } => {
            Answer::begun(drawn(session, from, to, reach), None)
        }
        Gesture::DragEnded { from, to } => done(session, drawn(session, from, to, reach), to),
        _ => Answer::unmoved(session),
    }
}

/// Along a wall where both ends are on the same one, else a rectangle.
fn drawn(session: &Session, from: Point, to: Point, reach: Reach) -> Draft {
    along_wall(session, from, to, reach).unwrap_or_else(|| {
        let corner = |at| match reach.free {
            true => at,
            false => stepped(at, session.plan.units),
        };
        Draft::Region {
            from: corner(from),
            to: corner(to),
        }
    })
}

/// A stretch of the wall that both places are on.
pub(super) fn along_wall(session: &Session, from: Point, to: Point, reach: Reach) -> Option<Draft> {
    let wall = wall_under(session, from, reach)?;
    if wall_under(session, to, reach) != Some(wall) {
        return None;
    }
    Some(Draft::AlongWall {
        wall,
        from: offset_on(session, wall, from)?,
        to: offset_on(session, wall, to)?,
    })
}

/// The offset of a place on a wall, within the wall.
pub(super) fn offset_on(session: &Session, wall: WallId, at: Point) -> Option<Mm> {
    let wall = session.shown_level()?.wall(wall)?;
    let offset = Mm::rounded(wall.line()?.offset_of(at.pos()));
    Some(offset.max(Mm(0)).min(wall.from.distance(wall.to)))
}

fn done(session: &Session, draft: Draft, at: Point) -> Answer {
    let (Some(shape), Some(level)) = (shape(&draft), session.shown_level()) else {
        let text = "That is too small to keep clear. Drag across all of it.";
        return Answer {
            draft: None,
            ..Answer::declined(session, text, at)
        };
    };
    let reason = session.hand.keep_out;
    let keep_out = KeepOut {
        id: KeepOutId(0),
        shape,
        bottom: Mm(0),
        top: top(level, reason),
        reason,
    };
    let new = Choice::KeepOut(KeepOutId(session.plan.next.keep_out));
    Answer::edit(Edit::AddKeepOut(session.level, keep_out), at).choosing(new)
}

fn shape(draft: &Draft) -> Option<KeepOutShape> {
    match *draft {
        Draft::Region { from, to } => {
            let (wide, high) = (Mm((from.x - to.x).abs()), Mm((from.y - to.y).abs()));
            (wide >= SMALLEST && high >= SMALLEST).then(|| {
                let corners = [from, Point::new(to.x, from.y), to, Point::new(from.x, to.y)];
                KeepOutShape::Region(corners.to_vec())
            })
        }
        Draft::AlongWall { wall, from, to } => {
            let (from, to) = (from.min(to), from.max(to));
            (to - from >= SMALLEST).then_some(KeepOutShape::Stretch { wall, from, to })
        }
        _ => None,
    }
}

/// Ducts and chimneys go on through what is overhead; the rest ends at the ceiling.
fn top(level: &Level, reason: KeepOutReason) -> Mm {
    match reason {
        KeepOutReason::Duct | KeepOutReason::Chimney => level.ceiling + OVERHEAD,
        _ => level.ceiling,
    }
}
