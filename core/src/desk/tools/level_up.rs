//! Levelling the drawing: a line drawn along what should be level or plumb.

use super::stretch::{Stretch, stretch};
use super::{NO_DRAWING, has_drawing};
use crate::desk::answer::Answer;
use crate::desk::{Gesture, Session};
use crate::plan::edit::Edit;
use crate::shape::Point;
use crate::units::Mm;

/// A shorter line would turn the drawing by the unsteadiness of the hand.
const SHORTEST: Mm = Mm(100);

pub(super) fn answer(session: &Session, gesture: &Gesture<Point>) -> Answer {
    match stretch(session, gesture, |_, to| to) {
        Stretch::AsItWas => Answer::unmoved(session),
        Stretch::Begun(draft) if has_drawing(session) => Answer::begun(draft, None),
        Stretch::Begun(_) => Answer {
            notice: Some(crate::desk::Notice::refused(NO_DRAWING, None)),
            ..Answer::default()
        },
        Stretch::Done(from, to) => done(session, from, to),
    }
}

fn done(session: &Session, from: Point, to: Point) -> Answer {
    let sheet = session.shown_level().map(|level| &level.sheet);
    let Some(sheet) = sheet.filter(|sheet| sheet.scan.is_some()) else {
        return Answer {
            draft: None,
            ..Answer::declined(session, NO_DRAWING, to)
        };
    };
    if from.distance(to) < SHORTEST {
        let text = "That line is too short to level by. Draw along the longest wall.";
        return Answer {
            draft: None,
            ..Answer::declined(session, text, to)
        };
    }
    let placing = sheet.placing;
    let along = (placing.to_pixel(from.pos()), placing.to_pixel(to.pos()));
    Answer::edit(Edit::SetPlacing(session.level, placing.levelled(along)), to)
}
