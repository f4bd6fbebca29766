//! Choosing: a tap chooses, a drag moves.

use super::moving;
use crate::desk::answer::Answer;
use crate::desk::choice::under;
use crate::desk::{Gesture, Reach, Session};
use crate::shape::Point;

pub(super) fn answer(session: &Session, gesture: &Gesture<Point>, reach: Reach) -> Answer {
    match gesture {
        Gesture::Tap(at) => Answer::default().choosing(under(session, *at, reach)),
        _ => moving::answer(session, gesture, reach),
    }
}
