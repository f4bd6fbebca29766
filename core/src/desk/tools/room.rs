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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::trial::Trial;
    use crate::desk::{Intent, Tool};

    #[test]
    fn a_room_is_tapped_then_named_then_moved() {
        let trial = Trial::with_house().take(Tool::Room).tap(2000, 2000);
        assert!(trial.plan().levels[0].rooms.is_empty());
        let trial = trial.types("Den");
        assert_eq!(trial.done(), "named Den");
        let trial = trial.drag((2050, 2000), (3050, 2500));
        assert_eq!(trial.plan().levels[0].rooms[0].at, Point::new(3000, 2500));
        assert_eq!(trial.done(), "moved the name of Den");
        let chosen = trial.tap(3100, 2500).session.chosen;
        assert_eq!(chosen, Some(Choice::Room(RoomId(1))));
    }

    #[test]
    fn a_room_without_a_name_is_let_go_of() {
        let trial = Trial::new().take(Tool::Room).tap(0, 0).types("  ");
        assert!(trial.session.draft.is_none() && trial.told().is_empty());
        let escaped = Trial::new()
            .take(Tool::Room)
            .tap(0, 0)
            .intent(&Intent::LetGo);
        assert_eq!(escaped.session.draft, None);
        assert!(
            Trial::new()
                .take(Tool::Room)
                .types("Den")
                .told()
                .contains("Tap where")
        );
    }
}
