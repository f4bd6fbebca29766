//! Drawing power cable by others: along a wall, or overhead from tap to tap.

use super::keep_out::{along_wall, offset_on};
use crate::desk::answer::Answer;
use crate::desk::choice::{under, wall_under};
use crate::desk::{Choice, Draft, Gesture, Reach, Session};
use crate::plan::edit::Edit;
use crate::plan::{PowerPlace, PowerRun, PowerRunId, WallId};
use crate::shape::Point;
use crate::units::{Mm, read_length};

pub(super) fn answer(session: &Session, gesture: &Gesture<Point>, reach: Reach) -> Answer {
    match (*gesture, &session.draft) {
        (Gesture::Tap(at), Some(Draft::Chain { points, .. })) => {
            chained(session, points, at, reach)
        }
        (Gesture::Tap(at), Some(Draft::AlongWall { wall, from, .. })) => {
            let to = offset_on(session, *wall, at).unwrap_or(*from);
            in_wall(session, (*wall, *from, to), at)
        }
        (Gesture::Tap(at), _) => begun(session, at, reach),
        (Gesture::Hover(at), Some(Draft::Chain { points, .. })) => {
            let (points, to) = (points.clone(), Some(at));
            Answer::begun(Draft::Chain { points, to }, None)
        }
        (Gesture::Hover(at), Some(Draft::AlongWall { wall, from, .. })) => {
            let (wall, from) = (*wall, *from);
            let to = offset_on(session, wall, at).unwrap_or(from);
            Answer::begun(Draft::AlongWall { wall, from, to }, None)
        }
        (Gesture::DragBegan { from, to } | Gesture::DragMoved { from, to }, _) => {
            Answer::begun(drawn(session, from, to, reach), None)
        }
        (Gesture::DragEnded { from, to }, _) => match drawn(session, from, to, reach) {
            Draft::AlongWall {
                wall,
                from,
                to: end,
            } => in_wall(session, (wall, from, end), to),
            _ => overhead(session, vec![from, to], to),
        },
        _ => Answer::unmoved(session),
    }
}

/// A typed length runs that far along the wall, the way the pointer shows.
pub(super) fn typed(session: &Session, wall: WallId, from: Mm, to: Mm, text: &str) -> Answer {
    let at = session.plan.wall(wall).and_then(|(_, wall)| wall.line());
    let at = at
        .map(|line| line.at(from.f64(), 0.0).point())
        .unwrap_or_default();
    match read_length(text, session.plan.units) {
        Ok(length) => {
            let end = match to < from {
                true => from - length,
                false => from + length,
            };
            in_wall(session, (wall, from, end), at)
        }
        Err(error) => Answer::declined(session, error.to_string(), at),
    }
}

/// The first tap: on a known run it chooses that, on a wall the run goes along it, else overhead.
fn begun(session: &Session, at: Point, reach: Reach) -> Answer {
    if let Some(choice @ Choice::PowerRun(_)) = under(session, at, reach) {
        return Answer::default().choosing(choice);
    }
    let wall = wall_under(session, at, reach);
    let draft = match wall.and_then(|wall| Some((wall, offset_on(session, wall, at)?))) {
        Some((wall, from)) => {
            let to = from;
            Draft::AlongWall { wall, from, to }
        }
        None => {
            let points = vec![at];
            Draft::Chain { points, to: None }
        }
    };
    Answer::begun(draft, None).choosing(None)
}

fn drawn(session: &Session, from: Point, to: Point, reach: Reach) -> Draft {
    along_wall(session, from, to, reach).unwrap_or_else(|| Draft::Chain {
        points: vec![from],
        to: Some(to),
    })
}

/// A further tap overhead; one at the last point ends the run.
fn chained(session: &Session, points: &[Point], at: Point, reach: Reach) -> Answer {
    let ends = points
        .last()
        .is_some_and(|last| last.pos().distance(at.pos()) <= reach.around.f64());
    match (ends, points.len()) {
        (true, 0 | 1) => Answer::begun(None, None),
        (true, _) => overhead(session, points.to_vec(), at),
        (false, _) => {
            let points = points.iter().copied().chain([at]).collect();
            Answer::begun(Draft::Chain { points, to: None }, None)
        }
    }
}

/// An overhead run let go of on purpose is kept if it goes anywhere.
pub(super) fn finishing(session: &Session, points: &[Point]) -> Option<Answer> {
    let last = *points.last()?;
    (points.len() > 1).then(|| overhead(session, points.to_vec(), last))
}

fn overhead(session: &Session, points: Vec<Point>, at: Point) -> Answer {
    add(session, PowerPlace::Overhead(points), at)
}

/// Along a wall; both taps at one place make a riser.
fn in_wall(session: &Session, (wall, from, to): (WallId, Mm, Mm), at: Point) -> Answer {
    let (from, to) = (from.min(to), from.max(to));
    let place = PowerPlace::Wall {
        wall,
        from,
        to,
        height: session.hand.power_height,
    };
    add(session, place, at)
}

fn add(session: &Session, place: PowerPlace, at: Point) -> Answer {
    let run = PowerRun {
        id: PowerRunId(0),
        place,
        circuits: 1,
        panel: false,
    };
    let new = Choice::PowerRun(PowerRunId(session.plan.next.power_run));
    Answer::edit(Edit::AddPowerRun(session.level, run), at).choosing(new)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::trial::Trial;
    use crate::desk::{Intent, Tool};

    fn house() -> Trial {
        Trial::with_house().take(Tool::PowerRun)
    }

    fn places(trial: &Trial) -> Vec<PowerPlace> {
        let runs = trial.plan().levels[0].power_runs.iter();
        runs.map(|run| run.place.clone()).collect()
    }

    fn along(from: i32, to: i32) -> PowerPlace {
        PowerPlace::Wall {
            wall: WallId(1),
            from: Mm(from),
            to: Mm(to),
            height: Mm(457),
        }
    }

    fn overhead(points: &[(i32, i32)]) -> PowerPlace {
        PowerPlace::Overhead(points.iter().map(|(x, y)| Point::new(*x, *y)).collect())
    }

    #[test]
    fn two_taps_or_a_drag_run_along_a_wall() {
        let trial = house().tap(5000, 20).hover(3000, 10).tap(2000, 20);
        assert_eq!(places(&trial), [along(2000, 5000)]);
        let trial = house().drag((2000, 20), (5000, -20));
        assert_eq!(places(&trial), [along(2000, 5000)]);
        let typed = house().tap(5000, 20).hover(4000, 10).types("1.2 m");
        assert_eq!(places(&typed), [along(3800, 5000)]);
        let long = house().tap(5000, 20).hover(6000, 10).types("9 m");
        assert!(long.told().contains("past the ends of W1"));
        assert!(long.session.draft.is_some() && places(&long).is_empty());
        let riser = house().tap(3000, 0).tap(3000, 0);
        assert_eq!(places(&riser), [along(3000, 3000)]);
    }

    #[test]
    fn taps_overhead_chain_until_the_last_point_or_escape() {
        let points = [(1000, 1000), (4000, 1000), (4000, 4000)];
        let chain = || {
            let start = house().tap(points[0].0, points[0].1);
            points[1..].iter().fold(start, |t, (x, y)| t.tap(*x, *y))
        };
        assert!(places(&chain()).is_empty());
        assert_eq!(places(&chain().tap(4000, 4000)), [overhead(&points)]);
        assert_eq!(places(&chain().intent(&Intent::LetGo)), [overhead(&points)]);
        let shorter = chain().intent(&Intent::Undo).intent(&Intent::LetGo);
        assert_eq!(places(&shorter), [overhead(&points[..2])]);
        let lone = house().tap(1000, 1000).intent(&Intent::LetGo);
        assert!(places(&lone).is_empty() && lone.session.draft.is_none());
    }
}
