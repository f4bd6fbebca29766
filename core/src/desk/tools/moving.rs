//! Moving by a drag what is already in the plan. The plan changes when the drag ends.

use std::rc::Rc;

use super::{NO_WALL, closet, drop, dropped};
use crate::design::Design;
use crate::desk::answer::Answer;
use crate::desk::choice::under;
use crate::desk::snap::{Aim, fit_opening, stepped};
use crate::desk::{Choice, Draft, Gesture, Reach, Session, Snap, Tool};
use crate::plan::edit::Edit;
use crate::plan::{KeepOutShape, Opening, Plan, PowerPlace};
use crate::shape::{Point, Pos};

/// What a drag took hold of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Grip {
    /// Something that can be chosen.
    Thing(Choice),
    /// Where walls end.
    Corner(Point),
}

/// What a drag that is pressed here would move with the tool in hand.
pub(super) fn grip(session: &Session, from: Point, reach: Reach) -> Option<Grip> {
    let found = under(session, from, reach);
    let chooses = session.tool == Tool::Select;
    match found {
        Some(Choice::Drop(_)) if chooses || session.tool == Tool::Drop => {}
        Some(Choice::Closet) if chooses || session.tool == Tool::Closet => {}
        Some(Choice::Opening(_)) if chooses || session.tool == Tool::Opening => {}
        Some(Choice::Room(_)) if chooses || session.tool == Tool::Room => {}
        Some(Choice::KeepOut(_) | Choice::PowerRun(_)) if chooses => {}
        Some(Choice::Wall(_)) if chooses => return corner(session, from, reach).map(Grip::Corner),
        _ => return None,
    }
    found.map(Grip::Thing)
}

/// The end of a wall nearest to a place; ends of the chosen wall go first.
fn corner(session: &Session, from: Point, reach: Reach) -> Option<Point> {
    let walls = session.shown_level()?.walls.iter();
    let ends = walls.flat_map(|wall| {
        let other = session.chosen != Some(Choice::Wall(wall.id));
        [(other, wall.from), (other, wall.to)]
    });
    let near = ends
        .map(|(other, end)| (other, end.pos().distance(from.pos()), end))
        .filter(|(_, off, _)| *off <= reach.around.f64());
    near.min_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)))
        .map(|(.., end)| end)
}

/// The answer of a drag, and of nothing else: other gestures leave everything as it is.
pub(super) fn answer(session: &Session, gesture: &Gesture<Point>, reach: Reach) -> Answer {
    let Some((from, to)) = gesture.stretch() else {
        return Answer::unmoved(session);
    };
    let Some(grip) = grip(session, from, reach) else {
        return Answer::unmoved(session);
    };
    let ended = matches!(gesture, Gesture::DragEnded { .. });
    match (moved(session, grip, from, to, reach), ended) {
        (Some((edit, _)), true) => Answer {
            choose: chosen(grip),
            ..Answer::edit(edit, to)
        },
        (None, true) => dropped(session, NO_WALL, to),
        (Some((edit, snap)), false) => dragging(session, grip, &edit, snap),
        (None, false) => Answer::unmoved(session),
    }
}

/// What is moved is chosen; a corner leaves the choice as it is.
fn chosen(grip: Grip) -> Option<Option<Choice>> {
    match grip {
        Grip::Thing(choice) => Some(Some(choice)),
        Grip::Corner(_) => None,
    }
}

/// The plan as it would be, with ways that start from those before the drag; all are improved when it
/// ends. Where it would be refused, as it was a moment ago.
fn dragging(session: &Session, grip: Grip, edit: &Edit, snap: Option<Snap>) -> Answer {
    let Ok(plan) = session.plan.apply(edit) else {
        return Answer::unmoved(session);
    };
    let what = match grip {
        Grip::Thing(choice) => Some(choice),
        Grip::Corner(_) => None,
    };
    if let Some(draft @ Draft::Move { plan: shown, .. }) = &session.draft
        && **shown == plan
    {
        return Answer::begun(draft.clone(), snap);
    }
    let design = match what {
        Some(Choice::Room(_)) => Rc::clone(&session.design),
        _ => Rc::new(Design::again_at_once(&session.design, &session.plan, &plan)),
    };
    let plan = Rc::new(plan);
    Answer::begun(Draft::Move { what, plan, design }, snap)
}

/// The edit that moves what is held to where the pointer is.
fn moved(
    session: &Session,
    grip: Grip,
    from: Point,
    to: Point,
    reach: Reach,
) -> Option<(Edit, Option<Snap>)> {
    let level = session.shown_level()?;
    match grip {
        Grip::Corner(corner) => {
            let aim = Aim {
                level,
                chain: &[],
                length: None,
                moving: Some(corner),
                reach,
                units: session.plan.units,
            };
            let snap = aim.snap(to);
            let edit = Edit::MoveCorner {
                level: level.id,
                from: corner,
                to: snap.as_ref().map_or(to, |snap| snap.at),
            };
            Some((edit, snap))
        }
        Grip::Thing(Choice::Drop(id)) => {
            let known = Plan::drop(&session.plan, id)?;
            let (place, snap) = drop::place(session, drop::Landing::Moved(known), to, reach)?;
            Some((Edit::MoveDrop(id, place), Some(snap)))
        }
        Grip::Thing(Choice::Closet) => {
            let (closet, snap) = closet::place(session, to, reach)?;
            Some((Edit::SetCloset(Some(closet)), Some(snap)))
        }
        Grip::Thing(Choice::Opening(id)) => {
            let opening = moved_opening(session, id, to, reach)?;
            Some((Edit::SetOpening(opening), None))
        }
        Grip::Thing(choice) => moved_site(session, choice, from, to, reach),
    }
}

/// An opening stays in its wall and slides along it.
fn moved_opening(
    session: &Session,
    id: crate::plan::OpeningId,
    to: Point,
    reach: Reach,
) -> Option<Opening> {
    let level = session.shown_level()?;
    let opening = *level.opening(id)?;
    let wall = level.wall(opening.wall)?;
    let centre = wall.line()?.offset_of(to.pos());
    let units = (!reach.free).then_some(session.plan.units);
    let offset = fit_opening(level, wall, Some(id), centre, opening.width, units)?;
    Some(Opening { offset, ..opening })
}

fn moved_site(
    session: &Session,
    choice: Choice,
    from: Point,
    to: Point,
    reach: Reach,
) -> Option<(Edit, Option<Snap>)> {
    let level = session.shown_level()?;
    let by = to.pos() - from.pos();
    let edit = match choice {
        Choice::Room(id) => {
            let room = level.room(id)?;
            Edit::SetRoom {
                room: id,
                name: room.name.clone(),
                at: (room.at.pos() + by).point(),
            }
        }
        Choice::KeepOut(id) => {
            let mut keep_out = level.keep_out(id)?.clone();
            let KeepOutShape::Region(corners) = &mut keep_out.shape else {
                return None;
            };
            shift(corners, by, session, reach)?;
            Edit::SetKeepOut(keep_out)
        }
        Choice::PowerRun(id) => {
            let mut run = level.power_run(id)?.clone();
            let PowerPlace::Overhead(points) = &mut run.place else {
                return None;
            };
            shift(points, by, session, reach)?;
            Edit::SetPowerRun(run)
        }
        _ => return None,
    };
    Some((edit, None))
}

/// Moves all points alike, the first one in whole steps.
fn shift(points: &mut [Point], by: Pos, session: &Session, reach: Reach) -> Option<()> {
    let first = points.first()?.pos();
    let wanted = (first + by).point();
    let wanted = match reach.free {
        true => wanted,
        false => stepped(wanted, session.plan.units),
    };
    let by = wanted.pos() - first;
    for point in points {
        *point = (point.pos() + by).point();
    }
    Some(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::Intent;
    use crate::desk::trial::{REACH, Trial};
    use crate::plan::WallId;

    fn house() -> Trial {
        Trial::with_house().take(Tool::Select)
    }

    #[test]
    fn a_corner_takes_its_walls_along_in_one_step() {
        let trial = house().drag((7990, 10), (9000, 40));
        assert_eq!(trial.walls()[0], [0, 0, 9000, 0]);
        assert_eq!(trial.walls()[1], [9000, 0, 8000, 6000]);
        assert_eq!(trial.done(), "moved a corner");
        assert_eq!(trial.intent(&Intent::Undo).walls()[0], [0, 0, 8000, 0]);
    }

    #[test]
    fn a_wall_away_from_its_ends_and_bare_paper_are_not_taken() {
        let trial = house();
        let takes = |x, y| trial.session.takes_drag(Point::new(x, y), REACH);
        assert!(takes(8000, 0));
        assert!(!takes(4000, 0) && !takes(4000, 3000));
        let plan = Rc::clone(&trial.session.plan);
        let dragged = trial.drag((4000, 3000), (5000, 4000));
        assert!(Rc::ptr_eq(&plan, &dragged.session.plan));
    }

    #[test]
    fn a_corner_is_not_pulled_off_a_door() {
        let trial = Trial::with_house().take(Tool::Opening).tap(7000, 0);
        let trial = trial.take(Tool::Select).drag((8000, 0), (3000, 0));
        assert!(trial.told().contains("too short"), "{}", trial.told());
        assert_eq!(trial.walls()[0], [0, 0, 8000, 0]);
        assert_eq!(trial.session.draft, None);
    }

    #[test]
    fn a_region_and_an_overhead_run_move_as_they_are() {
        let trial = Trial::with_house().take(Tool::KeepOut);
        let trial = trial.drag((2000, 2000), (3000, 3000));
        let trial = trial.take(Tool::Select).drag((2500, 2500), (3500, 2500));
        match &trial.plan().levels[0].keep_outs[0].shape {
            KeepOutShape::Region(corners) => assert_eq!(corners[0], Point::new(3000, 2000)),
            other => panic!("{other:?}"),
        }
        let trial = trial.take(Tool::PowerRun).drag((1000, 4000), (6000, 4000));
        let trial = trial.take(Tool::Select).drag((2000, 4000), (2000, 4500));
        match &trial.plan().levels[0].power_runs[0].place {
            PowerPlace::Overhead(points) => assert_eq!(points[1], Point::new(6000, 4500)),
            other => panic!("{other:?}"),
        }
        assert_eq!(trial.done(), "changed a power run");
    }

    #[test]
    fn a_drag_back_to_where_it_began_is_no_step() {
        let trial = house();
        let steps = trial.session.history.len();
        let trial = trial.drag((8000, 0), (8000, 0));
        assert_eq!(trial.session.history.len(), steps);
        assert!(trial.plan().wall(WallId(1)).is_some());
    }
}
