//! Putting doors, windows and cased openings in walls.

use super::{NO_WALL, moving};
use crate::desk::answer::Answer;
use crate::desk::choice::under;
use crate::desk::snap::{fit_opening, nearest_wall};
use crate::desk::{Choice, Draft, Gesture, Hand, Hold, Reach, Session, Snap};
use crate::plan::edit::Edit;
use crate::plan::{Opening, OpeningId};
use crate::shape::Point;
use crate::units::{Mm, read_length};

pub(super) fn answer(session: &Session, gesture: &Gesture<Point>, reach: Reach) -> Answer {
    match *gesture {
        Gesture::Hover(at) => match under(session, at, reach) {
            Some(Choice::Opening(_)) => Answer::default(),
            _ => shown(session, at, reach),
        },
        Gesture::Tap(at) => match under(session, at, reach) {
            Some(choice @ Choice::Opening(_)) => Answer::default().choosing(choice),
            _ => tap(session, at, reach),
        },
        _ => moving::answer(session, gesture, reach),
    }
}

fn shown(session: &Session, at: Point, reach: Reach) -> Answer {
    match place(session, at, reach) {
        Some((opening, snap)) => Answer::begun(Draft::Opening(opening), snap),
        None => Answer::default(),
    }
}

fn tap(session: &Session, at: Point, reach: Reach) -> Answer {
    let Some((opening, _)) = place(session, at, reach) else {
        return Answer::declined(session, NO_WALL, at);
    };
    let new = Choice::Opening(OpeningId(session.plan.next.opening));
    Answer::edit(Edit::AddOpening(opening), at).choosing(new)
}

/// The opening in hand, in the wall under the pointer. Where no gap is wide enough it is put at the
/// pointer all the same, and the plan says what is in the way.
fn place(session: &Session, at: Point, reach: Reach) -> Option<(Opening, Snap)> {
    let level = session.shown_level()?;
    let facing = nearest_wall(level, session.shown_framing(), at, reach)?;
    let (wall, hand) = (facing.wall, &session.hand);
    let width = hand.opening_width;
    let units = (!reach.free).then_some(session.plan.units);
    let fitted = fit_opening(level, wall, None, facing.offset, width, units);
    let centred = Mm::rounded(facing.offset - width.f64() / 2.0);
    let opening = Opening {
        id: OpeningId(0),
        wall: wall.id,
        offset: fitted.unwrap_or(centred),
        width,
        sill: hand.opening_sill,
        head: hand.opening_head,
        kind: hand.opening,
    };
    let middle = opening.offset.f64() + width.f64() / 2.0;
    let at = wall.line()?.at(middle, 0.0).point();
    let holds = vec![Hold::On(wall.id)];
    Some((opening, Snap { at, holds }))
}

/// A typed length is the width of the opening just placed, and of those that follow.
pub(super) fn typed(session: &Session, text: &str) -> Answer {
    let width = match read_length(text, session.plan.units) {
        Ok(width) => width,
        Err(error) => {
            let at = session.snap.as_ref().map(|snap| snap.at);
            return Answer {
                notice: Some(crate::desk::Notice::refused(error.to_string(), at)),
                ..Answer::unmoved(session)
            };
        }
    };
    let hand = Some(Hand {
        opening_width: width,
        ..session.hand.clone()
    });
    match session.chosen {
        Some(Choice::Opening(id)) => match widened(session, id, width) {
            Some((opening, at)) => Answer {
                hand,
                ..Answer::edit(Edit::SetOpening(opening), at)
            },
            None => Answer::unmoved(session),
        },
        _ => Answer {
            hand,
            ..Answer::default()
        },
    }
}

/// The same opening with another width about the same middle, if the wall has room.
fn widened(session: &Session, id: OpeningId, width: Mm) -> Option<(Opening, Point)> {
    let (level, opening) = session.plan.opening(id)?;
    let wall = level.wall(opening.wall)?;
    let middle = opening.offset.f64() + opening.width.f64() / 2.0;
    let centred = Mm::rounded(middle - width.f64() / 2.0);
    let fitted = fit_opening(level, wall, Some(id), middle, width, None);
    let at = wall.line()?.at(middle, 0.0).point();
    let opening = Opening {
        offset: fitted.unwrap_or(centred),
        width,
        ..*opening
    };
    Some((opening, at))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::Tool;
    use crate::desk::trial::Trial;
    use crate::plan::OpeningKind;

    fn offsets(trial: &Trial) -> Vec<(i32, i32)> {
        let openings = trial.plan().levels[0].openings.iter();
        openings.map(|o| (o.offset.0, o.width.0)).collect()
    }

    fn house() -> Trial {
        Trial::with_house().take(Tool::Opening)
    }

    #[test]
    fn a_tap_centres_the_opening_in_hand() {
        let trial = house().hand(|hand| Hand {
            opening_width: Mm(900),
            ..hand
        });
        let trial = trial.tap(3000, 100);
        assert_eq!(offsets(&trial), [(2550, 900)]);
        assert_eq!(trial.done(), "put a door in W1");
        assert_eq!(trial.session.chosen, Some(Choice::Opening(OpeningId(1))));
        let beside = trial.tap(3700, 0);
        assert_eq!(offsets(&beside)[1], (3526, 900));
    }

    #[test]
    fn a_window_has_a_sill_and_a_typed_width() {
        let window = |hand: Hand| hand.with_opening(OpeningKind::Window);
        let trial = house().hand(window).tap(3000, 0).types("1.2 m");
        let opening = trial.plan().levels[0].openings[0];
        assert_eq!((opening.sill, opening.width), (Mm(914), Mm(1200)));
        assert_eq!(trial.session.hand.opening_width, Mm(1200));
        assert!(trial.types("wide").told().contains("not a length"));
    }

    #[test]
    fn what_does_not_fit_is_refused_by_name_at_the_place() {
        let trial = house().hand(|hand| Hand {
            opening_width: Mm(9000),
            ..hand
        });
        let trial = trial.tap(3000, 0);
        assert!(trial.told().contains("wider than W1"), "{}", trial.told());
        assert_eq!(
            trial.session.notice.as_ref().unwrap().at,
            Some(Point::new(3000, 0))
        );
        let off = house().tap(4000, 3000);
        assert!(off.told().contains("no wall there"));
    }

    #[test]
    fn an_opening_is_tapped_to_choose_and_dragged_to_slide() {
        let trial = house().tap(3000, 0).tap(3100, 40);
        assert_eq!(offsets(&trial).len(), 1);
        let before = offsets(&trial)[0];
        let trial = trial.drag((3000, 0), (5000, 600));
        assert_eq!(offsets(&trial), [(before.0 + 2000, before.1)]);
        assert_eq!(trial.done(), "changed the door in W1");
    }
}
