//! Naming rooms: a tap for the place, then the name.

use super::moving;
use crate::desk::answer::Answer;
use crate::desk::choice::under;
use crate::desk::{Choice, Draft, Gesture, Reach, Session};
use crate::plan::RoomId;
use crate::plan::edit::Edit;
use crate::shape::Point;

pub(super) fn answer(session: &Session, gesture: &Gesture<Point>, reach: Reach) -> Answer {
    match *gesture {
        Gesture::Tap(at) => match under(session, at, reach) {
            Some(choice @ Choice::Room(_)) => Answer::default().choosing(choice),
            _ => Answer::begun(Draft::Room { at }, None).choosing(None),
        },
        Gesture::Hover(_) => Answer::unmoved(session),
        _ => moving::answer(session, gesture, reach),
    }
}

/// The name was typed.
pub(super) fn typed(session: &Session, at: Point, name: &str) -> Answer {
    let edit = Edit::AddRoom {
        level: session.level,
        name: name.to_string(),
        at,
    };
    let new = Choice::Room(RoomId(session.plan.next.room));
    Answer::edit(edit, at).choosing(new)
}
