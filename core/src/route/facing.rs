//! Which way a house faces on the sheet, for an order of its walls that is moved and turned along with
//! it. Moves nothing.

use crate::plan::{Plan, Wall};
use crate::shape::Point;

/// The way a house faces: so many quarter turns clockwise from where its walls, all together, lie to the
/// left of and below its closet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Facing(u8);

/// A place as two whole numbers that compare alike however the house is turned.
type Key = (i64, i64);

impl Facing {
    /// The way a plan's house faces. One without a closet, and one that lies evenly round its closet,
    /// faces as it is drawn.
    pub fn of(plan: &Plan) -> Self {
        let closet = plan.closet.and_then(|closet| closet.in_front(plan, 0.0));
        let Some(Point { x, y }) = closet.map(|at| at.point()) else {
            return Self(0);
        };
        let walls = plan.levels.iter().flat_map(|level| &level.walls);
        let ends = walls.flat_map(|wall| [wall.from, wall.to]);
        let sum = ends.fold((0, 0), |(right, down), end| {
            (
                right + i64::from(end.x) - i64::from(x),
                down + i64::from(end.y) - i64::from(y),
            )
        });
        match sum {
            (..=-1, 0..) => Self(0),
            (..=0, ..=-1) => Self(1),
            (1.., ..=0) => Self(2),
            (0.., 1..) => Self(3),
            (0, 0) => Self(0),
        }
    }

    /// Orders places as they lie from left to right, and from the top down, once the house is turned
    /// back.
    pub fn key(self, at: Point) -> Key {
        let (x, y) = (i64::from(at.x), i64::from(at.y));
        match self.0 {
            0 => (x, y),
            1 => (y, -x),
            2 => (-x, -y),
            _ => (-y, x),
        }
    }

    /// The ends of a wall in that order.
    pub fn ends(self, wall: &Wall) -> (Key, Key) {
        let (from, to) = (self.key(wall.from), self.key(wall.to));
        (from.min(to), from.max(to))
    }

    /// Whether a wall was drawn against that order.
    pub fn is_backwards(self, wall: &Wall) -> bool {
        self.key(wall.from) > self.key(wall.to)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{Closet, ClosetPlace, Entry, LevelId, Lumber, Role, WallId};
    use crate::units::Mm;

    fn plan(turns: usize) -> Plan {
        let turned = |x: i32, y: i32| {
            let (x, y) = (0..turns).fold((x, y), |(x, y), _| (-y, x));
            Point::new(x + 700, y - 90)
        };
        let mut plan = Plan::new();
        plan.levels[0].walls = vec![Wall::new(
            WallId(1),
            turned(0, 0),
            turned(0, 4000),
            Lumber::TwoByFour,
            Role::Partition,
        )];
        plan.closet = Some(Closet {
            level: LevelId(1),
            place: ClosetPlace::Point(turned(300, -20)),
            entry: Entry::Either,
            panel_height: Mm(1500),
        });
        plan
    }

    #[test]
    fn a_house_faces_along_as_it_is_turned() {
        let facing: Vec<u8> = (0..5).map(|turns| Facing::of(&plan(turns)).0).collect();
        assert_eq!(facing, [0, 1, 2, 3, 0]);
        let apart = |turns| {
            let plan = plan(turns);
            let (from, to) = Facing::of(&plan).ends(&plan.levels[0].walls[0]);
            (to.0 - from.0, to.1 - from.1)
        };
        assert!((0..4).all(|turns| apart(turns) == (0, 4000)));
        let mut none = plan(2);
        none.closet = None;
        assert_eq!(Facing::of(&none), Facing(0));
    }
}
