//! Levelling the drawing: a line drawn along what should be level or plumb.

use super::stretch::{Stretch, stretch};
use super::{drawing, dropped, no_drawing};
use crate::desk::answer::Answer;
use crate::desk::{Draft, Gesture, Session};
use crate::plan::edit::Edit;
use crate::shape::Point;
use crate::units::Mm;

/// A shorter line would turn the drawing by the unsteadiness of the hand.
const SHORTEST: Mm = Mm(100);
const TOO_SHORT: &str = "That line is too short to level by. Draw along the longest wall.";

pub(super) fn answer(session: &Session, gesture: &Gesture<Point>) -> Answer {
    match (stretch(session, gesture, |_, to| to), drawing(session)) {
        (Stretch::AsItWas, _) => Answer::unmoved(session),
        (Stretch::Begun(from, _) | Stretch::Done(from, _), None) => no_drawing(session, from),
        (Stretch::Begun(from, to), Some(_)) => {
            let done = false;
            Answer::begun(Draft::Stretch { from, to, done }, None)
        }
        (Stretch::Done(from, to), Some(_)) if from.distance(to) < SHORTEST => {
            dropped(session, TOO_SHORT, to)
        }
        (Stretch::Done(from, to), Some(sheet)) => {
            let placing = sheet.placing;
            let along = (placing.to_pixel(from.pos()), placing.to_pixel(to.pos()));
            Answer::edit(Edit::SetPlacing(session.level, placing.levelled(along)), to)
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::desk::trial::Trial;
    use crate::desk::{Intent, Tool};

    #[test]
    fn a_crooked_line_becomes_level() {
        let trial = Trial::with_drawing().take(Tool::LevelUp);
        let trial = trial.drag((1000, 1000), (6000, 1200));
        let placing = trial.plan().levels[0].sheet.placing;
        let end = placing.to_plan((600.0, 120.0));
        assert!((end.y - 1000.0).abs() < 1e-6, "{end:?}");
        assert_eq!(trial.done(), "turned the drawing");
        let back = trial.intent(&Intent::Undo);
        assert_eq!(back.plan().levels[0].sheet.placing.turn, (1.0, 0.0));
    }

    #[test]
    fn a_short_line_and_a_missing_drawing_are_told() {
        let short = Trial::with_drawing()
            .take(Tool::LevelUp)
            .drag((0, 0), (50, 0));
        assert!(short.told().contains("too short"));
        let none = Trial::new().take(Tool::LevelUp).drag((0, 0), (5000, 0));
        assert!(none.told().contains("no drawing"));
    }

    #[test]
    fn a_quarter_turn_keeps_the_middle() {
        let trial = Trial::with_drawing();
        let middle = (500.0, 400.0);
        let before = trial.plan().levels[0].sheet.placing.to_plan(middle);
        let trial = trial.intent(&Intent::QuarterTurn);
        let placing = trial.plan().levels[0].sheet.placing;
        assert!(placing.to_plan(middle).distance(before) < 1e-6);
        assert_eq!(placing.turn, (0.0, 1.0));
        assert!(
            Trial::new()
                .intent(&Intent::QuarterTurn)
                .told()
                .contains("no drawing")
        );
    }
}
