//! A known dimension: a stretch of the drawing, then its true length.

use super::stretch::{Stretch, stretch};
use super::{NO_DRAWING, has_drawing};
use crate::desk::answer::Answer;
use crate::desk::{Choice, Draft, Gesture, Hand, Session};
use crate::plan::KnownDimension;
use crate::plan::edit::Edit;
use crate::shape::{Point, Pos};
use crate::units::read_length;

/// A stretch of fewer pixels of the drawing than this cannot be measured.
const SHORTEST_PIXELS: f64 = 8.0;

pub(super) fn answer(session: &Session, gesture: &Gesture<Point>) -> Answer {
    let stretch = stretch(session, gesture, |_, to| to);
    match stretch {
        Stretch::AsItWas => Answer::unmoved(session),
        Stretch::Begun(Draft::Stretch { from, .. }) if !has_drawing(session) => Answer {
            draft: None,
            ..Answer::declined(session, NO_DRAWING, from)
        },
        Stretch::Begun(draft) => Answer::begun(draft, None),
        Stretch::Done(from, to) => done(session, from, to),
    }
}

fn done(session: &Session, from: Point, to: Point) -> Answer {
    if !has_drawing(session) {
        return Answer {
            draft: None,
            ..Answer::declined(session, NO_DRAWING, to)
        };
    }
    let (one, other) = pixels(session, from, to);
    if one.distance(other) < SHORTEST_PIXELS {
        let text = "Both ends are at the same place. Draw along something longer.";
        return Answer {
            draft: None,
            ..Answer::declined(session, text, to)
        };
    }
    let done = true;
    Answer::begun(Draft::Stretch { from, to, done }, None)
}

/// The length was typed: the drawing is laid to scale.
pub(super) fn typed(session: &Session, from: Point, to: Point, text: &str) -> Answer {
    let middle = ((from.pos() + to.pos()) * 0.5).point();
    let length = match read_length(text, session.plan.units) {
        Ok(length) => length,
        Err(error) => return Answer::declined(session, error.to_string(), middle),
    };
    let (one, other) = pixels(session, from, to);
    let known = KnownDimension {
        from: (one.x, one.y),
        to: (other.x, other.y),
        length,
    };
    Answer {
        hand: Some(Hand {
            known_text: text.trim().to_string(),
            ..session.hand.clone()
        }),
        ..Answer::edit(Edit::AddKnown(session.level, known), middle)
    }
    .choosing(Choice::Drawing(session.level))
}

/// Both ends in pixels of the drawing.
fn pixels(session: &Session, from: Point, to: Point) -> (Pos, Pos) {
    let placing = session
        .shown_level()
        .map(|level| level.sheet.placing)
        .unwrap_or_default();
    let pixel = |at: Point| {
        let (x, y) = placing.to_pixel(at.pos());
        Pos::new(x, y)
    };
    (pixel(from), pixel(to))
}
