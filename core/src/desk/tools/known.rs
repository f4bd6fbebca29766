//! A known dimension: a stretch of the drawing, then its true length.

use super::stretch::{Stretch, stretch};
use super::{drawing, dropped, no_drawing};
use crate::desk::answer::Answer;
use crate::desk::{Choice, Draft, Gesture, Hand, Session};
use crate::plan::KnownDimension;
use crate::plan::edit::Edit;
use crate::shape::{Point, Pos};
use crate::units::read_length;

/// A stretch of fewer pixels of the drawing than this cannot be measured.
const SHORTEST_PIXELS: f64 = 8.0;
const TOO_SHORT: &str = "Both ends are at the same place. Draw along something longer.";

pub(super) fn answer(session: &Session, gesture: &Gesture<Point>) -> Answer {
    match stretch(session, gesture, |_, to| to) {
        Stretch::AsItWas => Answer::unmoved(session),
        Stretch::Begun(from, _) | Stretch::Done(from, _) if drawing(session).is_none() => {
            no_drawing(session, from)
        }
        Stretch::Begun(from, to) => begun(from, to, false),
        Stretch::Done(from, to) => {
            let (one, other) = pixels(session, from, to);
            match one.distance(other) < SHORTEST_PIXELS {
                true => dropped(session, TOO_SHORT, to),
                false => begun(from, to, true),
            }
        }
    }
}

fn begun(from: Point, to: Point, done: bool) -> Answer {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::trial::Trial;
    use crate::desk::{Intent, Step, Tool};

    fn scale(trial: &Trial) -> f64 {
        trial.plan().levels[0].sheet.placing.scale
    }

    #[test]
    fn a_drag_and_a_typed_length_set_the_scale() {
        let trial = Trial::with_drawing().take(Tool::KnownDimension);
        let trial = trial.drag((1000, 1000), (6000, 1000));
        assert!(matches!(
            trial.session.draft,
            Some(Draft::Stretch { done: true, .. })
        ));
        let trial = trial.types("14' 1-1/4\"");
        assert!((scale(&trial) - 4299.0 / 500.0).abs() < 1e-6);
        let level = trial.session.level;
        assert_eq!(trial.session.chosen, Some(Choice::Drawing(level)));
        assert_eq!(trial.session.hand.known_text, "14' 1-1/4\"");
        assert_eq!(trial.session.lacks(Step::Drawing).words, "scaled");
    }

    #[test]
    fn two_taps_do_as_well_and_a_second_length_shows_how_far_they_disagree() {
        let trial = Trial::with_drawing().take(Tool::KnownDimension);
        let trial = trial.tap(0, 0).hover(400, 0).tap(5000, 0).types("5 m");
        let trial = trial.tap(0, 0).tap(0, 5000).types("5.01 m");
        assert_eq!(
            trial.session.lacks(Step::Drawing).words,
            "scaled, 0.1 % off"
        );
        let trial = trial.drag((0, 0), (5000, 0)).types("8 m");
        assert!(
            trial
                .session
                .lacks(Step::Drawing)
                .words
                .contains("disagree")
        );
    }

    #[test]
    fn impossible_lengths_are_told_beside_the_line_which_stays() {
        let drawn = || {
            let trial = Trial::with_drawing().take(Tool::KnownDimension);
            trial.drag((1000, 1000), (6000, 1000))
        };
        for text in ["0", "-4", "four", "1 mm"] {
            let trial = drawn().types(text);
            let notice = trial.session.notice.as_ref().unwrap();
            assert_eq!(notice.at, Some(Point::new(3500, 1000)), "{text}");
            assert!(trial.session.draft.is_some(), "{text}");
            assert_eq!(scale(&trial), 10.0);
        }
        let trial = drawn().types("four").types("4 m");
        assert_eq!(scale(&trial), 8.0);
    }

    #[test]
    fn two_ends_at_one_place_and_a_missing_drawing_are_told() {
        let trial = Trial::with_drawing().take(Tool::KnownDimension);
        let trial = trial.tap(1000, 1000).tap(1000, 1000);
        assert!(trial.told().contains("same place") && trial.session.draft.is_none());
        let trial = Trial::new().take(Tool::KnownDimension).tap(0, 0);
        assert!(trial.told().contains("no drawing"));
        assert!(trial.types("4 m").told().contains("Draw along"));
    }

    #[test]
    fn undo_brings_the_scale_back() {
        let trial = Trial::with_drawing().take(Tool::KnownDimension);
        let trial = trial.drag((0, 0), (5000, 0)).types("4 m");
        assert_eq!(trial.done(), "set a known length of 4000 mm");
        assert_eq!(scale(&trial.intent(&Intent::Undo)), 10.0);
    }
}
