//! Moving the drawing under the plan.

use std::rc::Rc;

use super::NO_DRAWING;
use crate::desk::answer::Answer;
use crate::desk::{Draft, Gesture, Session};
use crate::plan::edit::Edit;
use crate::shape::Point;

pub(super) fn answer(session: &Session, gesture: &Gesture<Point>) -> Answer {
    let Some((from, to)) = gesture.stretch() else {
        return Answer::unmoved(session);
    };
    let sheet = session.shown_level().map(|level| &level.sheet);
    let Some(sheet) = sheet.filter(|sheet| sheet.scan.is_some()) else {
        return Answer {
            draft: None,
            ..Answer::declined(session, NO_DRAWING, from)
        };
    };
    let placing = sheet.placing.shifted(to.pos() - from.pos());
    let edit = Edit::SetPlacing(session.level, placing);
    match gesture {
        Gesture::DragEnded { .. } => Answer::edit(edit, to),
        _ => dragging(session, &edit),
    }
}

/// Nothing that follows from the plan depends on where its drawing lies.
fn dragging(session: &Session, edit: &Edit) -> Answer {
    match session.plan.apply(edit) {
        Ok(plan) => {
            let (plan, design) = (Rc::new(plan), Rc::clone(&session.design));
            let what = None;
            Answer::begun(Draft::Move { what, plan, design }, None)
        }
        Err(_) => Answer::unmoved(session),
    }
}
