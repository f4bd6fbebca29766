//! Moving the drawing under the plan.

use std::rc::Rc;

use super::{drawing, no_drawing};
use crate::desk::answer::Answer;
use crate::desk::{Draft, Gesture, Session};
use crate::plan::edit::Edit;
use crate::shape::Point;

pub(super) fn answer(session: &Session, gesture: &Gesture<Point>) -> Answer {
    let Some((from, to)) = gesture.stretch() else {
        return Answer::unmoved(session);
    };
    let Some(sheet) = drawing(session) else {
        return no_drawing(session, from);
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

#[cfg(test)]
mod tests {
    use crate::desk::trial::Trial;
    use crate::desk::{Gesture, Tool};

    #[test]
    fn a_drag_moves_the_drawing_and_a_cancelled_one_does_not() {
        let trial = Trial::with_drawing().take(Tool::MoveDrawing);
        let pulled = trial.pull((0, 0), (300, -200));
        let shown = pulled.session.shown_plan().levels[0].sheet.placing.origin;
        assert_eq!(shown, (300.0, -200.0));
        let cancelled = pulled.gesture(Gesture::DragCancelled);
        assert_eq!(cancelled.plan().levels[0].sheet.placing.origin, (0.0, 0.0));
        let moved = cancelled.drag((0, 0), (300, -200));
        assert_eq!(moved.plan().levels[0].sheet.placing.origin, (300.0, -200.0));
    }
}
