//! Stating which way joists or trusses run: a line along one of them.

use super::dropped;
use super::stretch::{Stretch, stretch};
use crate::desk::answer::Answer;
use crate::desk::{Choice, Draft, Gesture, Session};
use crate::plan::edit::Edit;
use crate::plan::{Above, Below, Floor, Level, Rafters, Trusses};
use crate::shape::{Direction, Point, Pos};
use crate::units::Mm;

/// A shorter line says nothing about a direction.
const SHORTEST: Mm = Mm(100);
/// A line within about 5 degrees of the sheet's or a wall's direction means that direction.
const MEANT: f64 = 0.09;
const TOO_SHORT: &str = "That line is too short. Draw it along a joist or a truss.";
const NO_JOISTS: &str =
    "Nothing over or under this level has joists. State in the slip what is there.";

pub(super) fn answer(session: &Session, gesture: &Gesture<Point>) -> Answer {
    let straight = |from, to| straightened(session, from, to);
    match stretch(session, gesture, straight) {
        Stretch::AsItWas => Answer::unmoved(session),
        Stretch::Begun(from, to) => {
            let done = false;
            Answer::begun(Draft::Stretch { from, to, done }, None)
        }
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
        return dropped(session, TOO_SHORT, to);
    };
    let level = Choice::Level(session.level);
    match stated(session, simple(direction)) {
        Some(edit) => Answer::edit(edit, to).choosing(level),
        None => dropped(session, NO_JOISTS, to).choosing(level),
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

/// The direction is that of what is overhead, or, under a closed roof whose rafters are not stated, of the
/// floor.
fn stated(session: &Session, direction: Direction) -> Option<Edit> {
    let levels = &session.plan.levels;
    let place = levels.iter().position(|level| level.id == session.level)?;
    let level = levels.get(place)?;
    match level.above {
        Above::AtticTrusses(trusses) => {
            let trusses = Trusses {
                direction,
                ..trusses
            };
            Some(Edit::SetAbove(level.id, Above::AtticTrusses(trusses)))
        }
        Above::AtticJoists(floor) => {
            let floor = Floor { direction, ..floor };
            Some(Edit::SetAbove(level.id, Above::AtticJoists(floor)))
        }
        Above::Level { .. } => floor_of(levels.get(place + 1)?, direction),
        Above::ClosedRoof(Some(rafters)) => {
            let rafters = Rafters {
                direction,
                ..rafters
            };
            Some(Edit::SetAbove(level.id, Above::ClosedRoof(Some(rafters))))
        }
        Above::ClosedRoof(None) => floor_of(level, direction),
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::trial::Trial;
    use crate::desk::{Intent, Tool};

    fn trusses(trial: &Trial) -> Option<Direction> {
        match trial.plan().levels[0].above {
            Above::AtticTrusses(trusses) => Some(trusses.direction),
            _ => None,
        }
    }

    #[test]
    fn a_line_nearly_along_the_sheet_means_along_it() {
        let trial = Trial::with_house()
            .take(Tool::Joists)
            .drag((0, 500), (4000, 700));
        assert_eq!(trusses(&trial), Some(Direction::ALONG_X));
        assert_eq!(trial.done(), "stated what is over Ground");
        let level = trial.session.level;
        assert_eq!(trial.session.chosen, Some(Choice::Level(level)));
        let slanted = trial.drag((0, 0), (4000, 2000));
        let direction = trusses(&slanted).unwrap();
        assert_eq!((direction.dx, direction.dy), (4000, 2000));
    }

    #[test]
    fn ceiling_joists_keep_their_size_and_a_closed_roof_asks_what_is_there() {
        let trial = Trial::with_house().take(Tool::Joists);
        let level = trial.session.level;
        let joists = Above::AtticJoists(Floor::sawn(Direction::ALONG_Y));
        let trial = trial.intent(&Intent::Edit(Edit::SetAbove(level, joists)));
        let trial = trial.drag((0, 500), (4000, 500));
        let expected = Above::AtticJoists(Floor::sawn(Direction::ALONG_X));
        assert_eq!(trial.plan().levels[0].above, expected);
        let closed = Intent::Edit(Edit::SetAbove(level, Above::CLOSED));
        let trial = trial.intent(&closed).drag((0, 500), (4000, 500));
        assert!(trial.told().contains("State in the slip"));
        assert!(trial.drag((0, 0), (20, 0)).told().contains("too short"));
    }

    #[test]
    fn under_another_level_the_line_is_along_the_joists_between() {
        let trial = Trial::with_house().take(Tool::Joists);
        let add = Edit::AddLevel {
            name: "Upper".into(),
            floor: Floor::sawn(Direction::ALONG_Y),
        };
        let back = Intent::ShowLevel(trial.session.level);
        let trial = trial.intent(&Intent::Edit(add)).intent(&back);
        let trial = trial.drag((0, 500), (4000, 500));
        let expected = Below::Level(Floor::sawn(Direction::ALONG_X));
        assert_eq!(trial.plan().levels[1].below, expected);
    }
}
