//! Keeping a place clear: a rectangle from corner to corner, or a stretch along one wall.

use super::dropped;
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
        return dropped(session, text, at);
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::Tool;
    use crate::desk::trial::Trial;

    fn shapes(trial: &Trial) -> Vec<KeepOutShape> {
        let keep_outs = trial.plan().levels[0].keep_outs.iter();
        keep_outs.map(|keep_out| keep_out.shape.clone()).collect()
    }

    #[test]
    fn a_drag_across_the_floor_keeps_a_rectangle_clear() {
        let trial = Trial::with_house().take(Tool::KeepOut);
        let trial = trial.drag((2010, 2010), (2990, 3010));
        let corners = [(2000, 2000), (3000, 2000), (3000, 3000), (2000, 3000)];
        let region = corners.map(|(x, y)| Point::new(x, y)).to_vec();
        assert_eq!(shapes(&trial), [KeepOutShape::Region(region)]);
        let duct = &trial.plan().levels[0].keep_outs[0];
        assert_eq!(duct.top, Mm(2743 + 1000));
        assert_eq!(trial.done(), "kept a place clear: duct");
        let trial = trial.tap(2500, 2500);
        assert_eq!(trial.session.chosen, Some(Choice::KeepOut(KeepOutId(1))));
    }

    #[test]
    fn a_drag_along_a_wall_keeps_a_stretch_of_it_clear() {
        let trial = Trial::with_house().take(Tool::KeepOut);
        let trial = trial.drag((5000, 20), (2000, -30));
        let stretch = KeepOutShape::Stretch {
            wall: WallId(1),
            from: Mm(2000),
            to: Mm(5000),
        };
        assert_eq!(shapes(&trial), [stretch]);
    }

    #[test]
    fn too_small_a_place_and_a_mere_tap_say_what_to_do() {
        let trial = Trial::with_house().take(Tool::KeepOut);
        let trial = trial.drag((2000, 2000), (2010, 3000));
        assert!(trial.told().contains("too small"));
        assert!(trial.tap(4000, 3000).told().contains("corner to corner"));
    }
}
