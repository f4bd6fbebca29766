//! What the outside walls of a level enclose.

use serde::{Deserialize, Serialize};

use geo::{LineString, Polygon};

use crate::plan::{Level, Role, Wall};
use crate::shape::{Point, Pos, Segment};

/// Ends of outside walls nearer than this meet, millimetres.
const TOLERANCE: f64 = 320.0;

/// The regions a level's outside walls enclose: the house, and a garage that stands apart.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Outline {
    /// Loops of corners along wall centre lines, each without its first corner repeated.
    pub loops: Vec<Vec<Pos>>,
    /// Whether every outside wall is part of a closed loop.
    pub closed: bool,
}

impl Outline {
    /// Walks the outside walls of a level. Where they enclose nothing, the box around all walls
    /// stands in and [`Outline::closed`] says so.
    pub fn of(level: &Level) -> Self {
        let mut left: Vec<&Wall> = level
            .walls
            .iter()
            .filter(|wall| wall.role == Role::Exterior)
            .collect();
        let all = left.len();
        left.sort_by_key(|wall| (wall.from.min(wall.to), wall.from.max(wall.to)));
        let mut loops = Vec::new();
        let mut walked = 0;
        while let Some(first) = left.first().copied() {
            left.remove(0);
            let mut corners = vec![first.from, first.to];
            let before = left.len();
            if let Some(closed) = walk(&mut corners, &mut left) {
                walked += before - left.len() + 1;
                loops.push(closed.into_iter().map(Point::pos).collect());
            }
        }
        let closed = walked == all && all > 0;
        if loops.is_empty() {
            loops.extend(around(&level.walls));
        }
        Self { loops, closed }
    }

    /// Whether a position lies inside one of the loops.
    pub fn contains(&self, place: Pos) -> bool {
        self.loops.iter().any(|corners| encloses(corners, place))
    }

    /// Whether a position is no farther from a border than a wall of the level below may be drawn off.
    pub fn is_near_border(&self, place: Pos) -> bool {
        let edges = |corners: &'_ Vec<Pos>| {
            let ends = corners.iter().zip(corners.iter().cycle().skip(1));
            let mut lines = ends.filter_map(|(from, to)| Segment::between(*from, *to));
            lines.any(|line| {
                let along = line.offset_of(place).clamp(0.0, line.length);
                line.at(along, 0.0).distance(place) <= TOLERANCE
            })
        };
        self.loops.iter().any(edges)
    }

    /// How far it is from a place to the border along a direction, backwards and forwards; `None` outside.
    pub fn reach(&self, from: Pos, along: Pos) -> Option<(f64, f64)> {
        let corners = self.loops.iter().find(|loops| encloses(loops, from))?;
        let ends = corners.iter().zip(corners.iter().cycle().skip(1));
        let met = ends.filter_map(|(a, b)| {
            let (one, other) = (along.cross(*a - from), along.cross(*b - from));
            let part = one / (one - other);
            ((one > 0.0) != (other > 0.0)).then(|| along.dot(*a + (*b - *a) * part - from))
        });
        let met: Vec<f64> = met.collect();
        let back = met.iter().filter(|at| **at <= 0.0).map(|at| -at);
        let forth = met.iter().filter(|at| **at > 0.0).copied();
        Some((back.min_by(f64::total_cmp)?, forth.min_by(f64::total_cmp)?))
    }

    /// Smallest and largest coordinates; `None` where nothing is drawn.
    pub fn bounds(&self) -> Option<(Pos, Pos)> {
        let corners = || self.loops.iter().flatten();
        let first = *corners().next()?;
        let low = corners().fold(first, |low, c| Pos::new(low.x.min(c.x), low.y.min(c.y)));
        let high = corners().fold(first, |high, c| Pos::new(high.x.max(c.x), high.y.max(c.y)));
        Some((low, high))
    }

    /// The enclosed area in square millimetres.
    pub fn area(&self) -> f64 {
        use geo::Area;
        self.loops
            .iter()
            .map(|corners| polygon(corners).unsigned_area())
            .sum()
    }
}

fn polygon(corners: &[Pos]) -> Polygon<f64> {
    Polygon::new(
        LineString::from_iter(corners.iter().map(|c| (c.x, c.y))),
        vec![],
    )
}

/// Whether a ray to the right of a place leaves a loop an odd number of times. Asked thousands of
/// times a frame, so nothing is built for it.
pub(crate) fn encloses(corners: &[Pos], place: Pos) -> bool {
    let edges = corners.iter().zip(corners.iter().cycle().skip(1));
    let crossed = edges.filter(|(a, b)| {
        let spans = (a.y > place.y) != (b.y > place.y);
        spans && place.x < a.x + (place.y - a.y) / (b.y - a.y) * (b.x - a.x)
    });
    crossed.count() % 2 == 1
}

/// Follows walls from the last corner until the first is reached again.
fn walk(corners: &mut Vec<Point>, left: &mut Vec<&Wall>) -> Option<Vec<Point>> {
    let near = |a: Point, b: Point| a.pos().distance(b.pos()) <= TOLERANCE;
    loop {
        let (first, last) = (*corners.first()?, *corners.last()?);
        if corners.len() > 3 && near(first, last) {
            corners.pop();
            return Some(corners.clone());
        }
        let next = left
            .iter()
            .position(|wall| near(wall.from, last) || near(wall.to, last))?;
        let wall = left.remove(next);
        corners.push(if near(wall.from, last) {
            wall.to
        } else {
            wall.from
        });
    }
}

fn around(walls: &[Wall]) -> Option<Vec<Pos>> {
    let ends: Vec<Point> = walls.iter().flat_map(|wall| [wall.from, wall.to]).collect();
    let (low_x, high_x) = (
        ends.iter().map(|e| e.x).min()?,
        ends.iter().map(|e| e.x).max()?,
    );
    let (low_y, high_y) = (
        ends.iter().map(|e| e.y).min()?,
        ends.iter().map(|e| e.y).max()?,
    );
    let corner = |x, y| Point::new(x, y).pos();
    let corners = [
        (low_x, low_y),
        (high_x, low_y),
        (high_x, high_y),
        (low_x, high_y),
    ];
    Some(corners.map(|(x, y)| corner(x, y)).to_vec())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{LevelId, Lumber, WallId};

    fn level(corners: &[(i32, i32)], closed: bool) -> Level {
        let mut level = Level::new(LevelId(1), "Ground");
        let count = if closed {
            corners.len()
        } else {
            corners.len() - 1
        };
        for place in 0..count {
            let (a, b) = (corners[place], corners[(place + 1) % corners.len()]);
            let id = WallId(place as u32 + 1);
            let (from, to) = (Point::new(a.0, a.1), Point::new(b.0, b.1));
            level
                .walls
                .push(Wall::new(id, from, to, Lumber::TwoBySix, Role::Exterior));
        }
        level
    }

    const ELL: [(i32, i32); 6] = [
        (0, 0),
        (9000, 0),
        (9000, 4000),
        (5000, 4000),
        (5000, 8000),
        (0, 8000),
    ];

    #[test]
    fn an_ell_is_walked_round_whatever_the_order() {
        let mut drawn = level(&ELL, true);
        let outline = Outline::of(&drawn);
        assert!(outline.closed);
        assert_eq!(outline.area(), 9000.0 * 4000.0 + 5000.0 * 4000.0);
        assert!(outline.contains(Pos::new(1000.0, 7000.0)));
        assert!(!outline.contains(Pos::new(7000.0, 7000.0)));
        drawn.walls.reverse();
        assert_eq!(Outline::of(&drawn).area(), outline.area());
    }

    /// By hand: at y 2000 the ell is 9 m wide, at y 6000 5 m; down the sheet at x 7000 it ends at 4000.
    #[test]
    fn how_far_it_is_to_the_border_is_told_from_inside() {
        let outline = Outline::of(&level(&ELL, true));
        let (right, down) = (Pos::new(1.0, 0.0), Pos::new(0.0, 1.0));
        let reach = |x, y, along| outline.reach(Pos::new(x, y), along);
        assert_eq!(reach(1000.0, 2000.0, right), Some((1000.0, 8000.0)));
        assert_eq!(reach(1000.0, 6000.0, right), Some((1000.0, 4000.0)));
        assert_eq!(reach(7000.0, 1500.0, down), Some((1500.0, 2500.0)));
        assert_eq!(reach(7000.0, 6000.0, down), None);
    }

    #[test]
    fn what_does_not_close_gets_the_box_around_it() {
        let outline = Outline::of(&level(&ELL, false));
        assert!(!outline.closed);
        assert_eq!(
            outline.bounds(),
            Some((Pos::new(0.0, 0.0), Pos::new(9000.0, 8000.0)))
        );
        assert_eq!(Outline::of(&Level::new(LevelId(1), "Empty")).bounds(), None);
    }
}
