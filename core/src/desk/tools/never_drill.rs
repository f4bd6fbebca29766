//! Marking a wall nobody drills: a tap turns it on and off.

use super::NO_WALL;
use crate::desk::answer::Answer;
use crate::desk::choice::wall_under;
use crate::desk::{Gesture, Reach, Session};
use crate::plan::Wall;
use crate::plan::edit::Edit;
use crate::shape::Point;

pub(super) fn answer(session: &Session, gesture: &Gesture<Point>, reach: Reach) -> Answer {
    let Gesture::Tap(at) = *gesture else {
        return Answer::unmoved(session);
    };
    let wall = wall_under(session, at, reach).and_then(|id| session.plan.wall(id));
    match wall {
        Some((_, wall)) => {
            let never_drill = !wall.never_drill;
            Answer::edit(
                Edit::SetWall(Wall {
                    never_drill,
                    ..*wall
                }),
                at,
            )
        }
        None => Answer::declined(session, NO_WALL, at),
    }
}
