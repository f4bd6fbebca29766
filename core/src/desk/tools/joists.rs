//! Stating which way joists or trusses run: a line along one of them.

use super::stretch::{Stretch, stretch};
use crate::desk::answer::Answer;
use crate::desk::{Choice, Gesture, Session};
use crate::plan::edit::Edit;
use crate::plan::{Above, Below, Floor, Level};
use crate::shape::{Direction, Point, Pos};
use crate::units::Mm;

/// A shorter line says nothing about a direction.
const SHORTEST: Mm = Mm(100);
/// A line within about 5 degrees of the sheet's or a wall's direction means that direction.
const MEANT: f64 = 0.09;

pub(super) fn answer(session: &Session, gesture: &Gesture<Point>) -> Answer {
    let straight = |from, to| straightened(session, from, to);
    match stretch(session, gesture, straight) {
        Stretch::AsItWas => Answer::unmoved(session),
        Stretch::Begun(draft) => Answer::begun(draft, None),
        Stretch::Done(from, to) => done(session, from, to),
    }
}

/// The far end, moved onto the direction that is meant.
fn straightened(session: &Session, from: Point, to: Point) -> Point {
    let line = to.pos() - from.pos();
    let walls = session
        .shown_level()
        .into_iter()
        .flat_map(|level| &level.walls);
    let slanted = walls.filter_map(|wall| Some(wall.line()?.along));
    let sheet = [Pos::new(1.0, 0.0), Pos::new(0.0, 1.0)];
    let meant = sheet
        .into_iter()
        .chain(slanted.flat_map(|along| [along, along.quarter_turn()]))
        .find(|along| along.cross(line).abs() <= MEANT * line.length());
    match meant {
        Some(along) => (from.pos() + along * along.dot(line)).point(),
        None => to,
    }
}

fn done(session: &Session, from: Point, to: Point) -> Answer {
    let direction = Direction::towards(from, to).filter(|_| from.distance(to) >= SHORTEST);
    let Some(direction) = direction else {
        let text = "That line is too short. Draw it along a joist or a truss.";
        return Answer {
            draft: None,
            ..Answer::declined(session, text, to)
        };
    };
    match stated(session, simple(direction)) {
        Some(edit) => Answer::edit(edit, to).choosing(Choice::Level(session.level)),
        None => {
            let text =
                "Nothing over or under this level has joists. State in the slip what is there.";
            Answer {
                draft: None,
                ..Answer::declined(session, text, to)
            }
            .choosing(Choice::Level(session.level))
        }
    }
}

/// A direction along the sheet is kept as (1, 0) or (0, 1).
fn simple(direction: Direction) -> Direction {
    match (direction.dx, direction.dy) {
        (_, 0) => Direction::ALONG_X,
        (0, _) => Direction::ALONG_Y,
        _ => direction,
    }
}

/// The direction is that of what is overhead, or, under a closed roof, of the floor.
fn stated(session: &Session, direction: Direction) -> Option<Edit> {
    let levels = &session.plan.levels;
    let place = levels.iter().position(|level| level.id == session.level)?;
    let level = levels.get(place)?;
    match level.above {
        Above::AtticTrusses { spacing, .. } => Some(Edit::SetAbove(
            level.id,
            Above::AtticTrusses { spacing, direction },
        )),
        Above::AtticJoists(floor) => {
            let floor = Floor { direction, ..floor };
            Some(Edit::SetAbove(level.id, Above::AtticJoists(floor)))
        }
        Above::Level => floor_of(levels.get(place + 1)?, direction),
        Above::ClosedRoof => floor_of(level, direction),
    }
}

fn floor_of(level: &Level, direction: Direction) -> Option<Edit> {
    let below = match level.below {
        Below::Crawl(floor) => Below::Crawl(Floor { direction, ..floor }),
        Below::Level(floor) => Below::Level(Floor { direction, ..floor }),
        Below::Slab => return None,
    };
    Some(Edit::SetBelow(level.id, below))
}
