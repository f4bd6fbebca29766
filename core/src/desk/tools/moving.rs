//! Moving by a drag what is already in the plan. The plan changes when the drag ends.

use std::rc::Rc;

use super::{NO_WALL, closet, drop};
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
        return Answer::begun(None, None);
    };
    let Some(grip) = grip(session, from, reach) else {
        return Answer::begun(None, None);
    };
    let ended = matches!(gesture, Gesture::DragEnded { .. });
    match (moved(session, grip, from, to, reach), ended) {
        (Some((edit, _)), true) => Answer {
            choose: chosen(grip),
            ..Answer::edit(edit, to)
        },
        (None, true) => Answer {
            draft: None,
            ..Answer::declined(session, NO_WALL, to)
        },
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

/// The plan as it would be; where it would be refused, as it was a moment ago.
fn dragging(session: &Session, grip: Grip, edit: &Edit, snap: Option<Snap>) -> Answer {
    let Ok(plan) = session.plan.apply(edit) else {
        return Answer::unmoved(session);
    };
    let what = match grip {
        Grip::Thing(choice) => Some(choice),
        Grip::Corner(_) => None,
    };
    let design = match what {
        Some(Choice::Room(_)) => Rc::clone(&session.design),
        _ => Rc::new(Design::of(&plan)),
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
            let (place, snap) = drop::place(session, known.kind, known.height(), to, reach)?;
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
