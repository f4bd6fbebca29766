//! Tracing walls by a chain of taps, by drags, and by typed lengths.

use crate::desk::answer::Answer;
use crate::desk::gestures::BeforeDrag;
use crate::desk::snap::Aim;
use crate::desk::{Draft, Gesture, Hold, Notice, Reach, Session, Snap};
use crate::plan::edit::Edit;
use crate::plan::{Role, Wall};
use crate::shape::{Point, Segment};
use crate::units::{Mm, read_length};

pub(super) fn answer(session: &Session, gesture: &Gesture<Point>, reach: Reach) -> Answer {
    let chain = chain(session.draft.as_ref());
    match *gesture {
        Gesture::Hover(at) => aiming(session, chain, at, reach),
        Gesture::Tap(at) => tap(session, chain, at, reach),
        Gesture::DragBegan { from, to } | Gesture::DragMoved { from, to } => {
            aiming(session, &dragged(session, from, reach), to, reach)
        }
        Gesture::DragEnded { from, to } => tap(session, &dragged(session, from, reach), to, reach),
        _ => Answer::unmoved(session),
    }
}

fn chain(draft: Option<&Draft>) -> &[Point] {
    match draft {
        Some(Draft::Walls { points, .. }) => points,
        _ => &[],
    }
}

/// A drag goes on from the chain begun before it, or begins one where it was pressed.
fn dragged(session: &Session, from: Point, reach: Reach) -> Vec<Point> {
    let before = match &session.before_drag {
        Some(BeforeDrag(draft)) => chain(draft.as_ref()),
        None => &[],
    };
    match before.is_empty() {
        false => before.to_vec(),
        true => {
            let snap = aim(session, &[], reach, None).and_then(|aim| aim.snap(from));
            vec![snap.map_or(from, |snap| snap.at)]
        }
    }
}

fn aim<'a>(
    session: &'a Session,
    chain: &'a [Point],
    reach: Reach,
    length: Option<Mm>,
) -> Option<Aim<'a>> {
    Some(Aim {
        level: session.shown_level()?,
        chain,
        length,
        moving: None,
        reach,
        units: session.plan.units,
    })
}

/// The free end follows the pointer.
fn aiming(session: &Session, chain: &[Point], at: Point, reach: Reach) -> Answer {
    let typed = read_length(&session.typing, session.plan.units).ok();
    let snap = aim(session, chain, reach, typed).and_then(|aim| aim.snap(at));
    let to = Some(snap.as_ref().map_or(at, |snap| snap.at));
    let points = chain.to_vec();
    let draft = (!points.is_empty()).then_some(Draft::Walls { points, to });
    Answer::begun(draft, snap)
}

/// The first tap begins a chain; each further one draws a wall; one at the last point lets go.
fn tap(session: &Session, chain: &[Point], at: Point, reach: Reach) -> Answer {
    let typed = read_length(&session.typing, session.plan.units).ok();
    let snap = aim(session, chain, reach, typed).and_then(|aim| aim.snap(at));
    match chain.is_empty() {
        true => {
            let points = vec![snap.as_ref().map_or(at, |snap| snap.at)];
            Answer::begun(Draft::Walls { points, to: None }, snap).choosing(None)
        }
        false => match snap {
            Some(snap) if snap.holds(&Hold::Last) => Answer::begun(None, None),
            Some(snap) => segment(session, chain, snap.at, Some(&snap)),
            None => segment(session, chain, at, None),
        },
    }
}

/// A wall from the last point; the chain goes on from its end, unless it is closed.
fn segment(session: &Session, chain: &[Point], to: Point, snap: Option<&Snap>) -> Answer {
    let Some(last) = chain.last() else {
        return Answer::unmoved(session);
    };
    let edit = Edit::AddWall {
        level: session.level,
        from: *last,
        to,
        lumber: session.hand.lumber,
        role: session.hand.role,
    };
    let answer = Answer::edit(edit, to).choosing(None);
    if snap.is_some_and(|snap| snap.holds(&Hold::First)) {
        return closed(session, answer);
    }
    let points = chain.iter().copied().chain([to]).collect();
    Answer {
        draft: Some(Draft::Walls { points, to: None }),
        ..answer
    }
}

/// After an outline is closed the next walls are inside ones.
fn closed(session: &Session, answer: Answer) -> Answer {
    if session.hand.role != Role::Exterior {
        return answer;
    }
    Answer {
        hand: Some(session.hand.clone().with_role(Role::Partition)),
        notice: Some(Notice::done(
            "The outline is closed. The next walls are 2x4 partitions.",
        )),
        ..answer
    }
}

/// The free end moves to the typed length while it is being typed.
pub(super) fn typing(session: &Session, chain: &[Point], to: Point) -> Answer {
    aiming(session, chain, to, exact())
}

/// A typed length draws the next wall where a pointer shows its direction; else it is the length
/// of the wall just drawn.
pub(super) fn typed(session: &Session, chain: &[Point], to: Option<Point>, text: &str) -> Answer {
    let told_at = to.or(chain.last().copied()).unwrap_or_default();
    let length = match read_length(text, session.plan.units) {
        Ok(length) => length,
        Err(error) => return Answer::declined(session, error.to_string(), told_at),
    };
    let direction = to.filter(|to| chain.last() != Some(to));
    match direction {
        Some(to) => {
            let snap = aim(session, chain, exact(), Some(length)).and_then(|aim| aim.snap(to));
            segment(session, chain, snap.map_or(to, |snap| snap.at), None)
        }
        None => lengthened(session, chain, length, told_at),
    }
}

/// A direction shown by a free end that already holds on to something is taken as it is.
fn exact() -> Reach {
    Reach {
        around: Mm(1),
        free: false,
    }
}

fn lengthened(session: &Session, chain: &[Point], length: Mm, told_at: Point) -> Answer {
    let text = "Show which way the wall goes, then type its length.";
    let declined = Answer::declined(session, text, told_at);
    let [before @ .., from, to] = chain else {
        return declined;
    };
    let (Some(wall), Some(line)) = (
        wall_between(session, *from, *to),
        Segment::between(from.pos(), to.pos()),
    ) else {
        return declined;
    };
    let end = line.at(length.f64(), 0.0).point();
    let changed = match wall.to == *to {
        true => Wall { to: end, ..wall },
        false => Wall { from: end, ..wall },
    };
    let points = before.iter().copied().chain([*from, end]).collect();
    Answer {
        draft: Some(Draft::Walls { points, to: None }),
        ..Answer::edit(Edit::SetWall(changed), end)
    }
}

fn wall_between(session: &Session, from: Point, to: Point) -> Option<Wall> {
    let walls = session.shown_level()?.walls.iter();
    walls
        .filter(|wall| (wall.from, wall.to) == (from, to) || (wall.from, wall.to) == (to, from))
        .copied()
        .last()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::trial::Trial;
    use crate::desk::{Intent, Tool};
    use crate::plan::Lumber;

    fn drawing() -> Trial {
        Trial::new().take(Tool::Wall)
    }

    #[test]
    fn taps_chain_walls_and_the_first_point_closes_them() {
        let trial = Trial::with_house();
        let square = [
            [0, 0, 8000, 0],
            [8000, 0, 8000, 6000],
            [8000, 6000, 0, 6000],
            [0, 6000, 0, 0],
        ];
        assert_eq!(trial.walls(), square);
        assert_eq!(trial.session.draft, None);
        assert_eq!(trial.session.hand.role, Role::Partition);
        assert_eq!(trial.session.hand.lumber, Lumber::TwoByFour);
        assert!(trial.told().contains("outline is closed"));
        assert_eq!(trial.done(), "drew W4");
    }

    #[test]
    fn a_second_tap_on_the_last_point_lets_go_without_a_wall() {
        let trial = drawing().tap(0, 0).tap(4000, 10).tap(4020, 30);
        assert_eq!(trial.walls(), [[0, 0, 4000, 0]]);
        assert_eq!(trial.session.draft, None);
        let begun = drawing().tap(0, 0).tap(20, 20);
        assert!(begun.walls().is_empty() && begun.session.draft.is_none());
    }

    #[test]
    fn a_typed_length_runs_the_way_the_pointer_shows() {
        let trial = drawing().tap(0, 0).hover(3000, 40).types("12' 6");
        assert_eq!(trial.walls(), [[0, 0, 3810, 0]]);
        let trial = trial.hover(3850, 900).types("2.5 m");
        assert_eq!(trial.walls()[1], [3810, 0, 3810, 2500]);
    }

    #[test]
    fn a_length_shows_while_it_is_typed_and_holds_for_the_next_tap() {
        let typing = Intent::Typing("2 m".into());
        let trial = drawing().tap(0, 0).hover(3000, 40).intent(&typing);
        let free_end = match &trial.session.draft {
            Some(Draft::Walls { to, .. }) => *to,
            other => panic!("{other:?}"),
        };
        assert_eq!(free_end, Some(Point::new(2000, 0)));
        let trial = trial.tap(40, 3000);
        assert_eq!(trial.walls(), [[0, 0, 0, 2000]]);
        assert_eq!(trial.session.typing, "");
    }

    #[test]
    fn without_a_direction_a_typed_length_is_that_of_the_last_wall() {
        let trial = drawing().tap(0, 0).tap(3000, 0).types("2750");
        assert_eq!(trial.walls(), [[0, 0, 2750, 0]]);
        let trial = trial.tap(2750, 3000);
        assert_eq!(trial.walls()[1], [2750, 0, 2750, 3000]);
        let none = drawing().tap(0, 0).types("2750");
        assert!(none.told().contains("which way") && none.walls().is_empty());
    }

    #[test]
    fn an_unreadable_length_says_so_and_keeps_the_chain() {
        for (text, words) in [("abc", "not a length"), ("0", "zero"), ("-3", "below zero")] {
            let trial = drawing().tap(0, 0).hover(900, 0).types(text);
            assert!(trial.told().contains(words), "{}", trial.told());
            assert!(trial.session.notice.as_ref().unwrap().at.is_some());
            assert!(matches!(trial.session.draft, Some(Draft::Walls { .. })));
        }
    }

    #[test]
    fn a_drag_draws_one_wall_and_the_chain_goes_on() {
        let trial = drawing().drag((10, 10), (4000, 30)).tap(4000, 3000);
        assert_eq!(trial.walls(), [[0, 0, 4000, 0], [4000, 0, 4000, 3000]]);
    }

    #[test]
    fn a_refused_wall_leaves_the_chain_where_it_was() {
        let trial = drawing().tap(0, 0).tap(4000, 0).tap(0, 0);
        assert!(trial.told().contains("already stands"), "{}", trial.told());
        assert_eq!(trial.walls().len(), 1);
        let points = vec![Point::new(0, 0), Point::new(4000, 0)];
        assert!(matches!(
            &trial.session.draft,
            Some(Draft::Walls { points: kept, .. }) if *kept == points
        ));
    }

    #[test]
    fn undo_takes_the_chain_back_wall_by_wall() {
        let trial = drawing().tap(0, 0).tap(4000, 0).tap(4000, 3000);
        let trial = trial.intent(&Intent::Undo);
        assert_eq!(trial.told(), "Undid: drew W2.");
        let trial = trial.tap(4000, 2000);
        assert_eq!(trial.walls()[1], [4000, 0, 4000, 2000]);
        let trial = trial.intent(&Intent::Undo).intent(&Intent::Undo);
        assert!(trial.walls().is_empty() && trial.session.draft.is_some());
        let trial = trial.intent(&Intent::Undo);
        assert_eq!(trial.told(), "Let go of what was begun.");
        assert_eq!(trial.session.draft, None);
    }
}
