//! Lines a wall's end may lie on.

use super::Hold;
use crate::plan::{Level, Wall, WallId};
use crate::shape::{Point, Pos};

/// A line through a place, and what a pointer on it holds on to.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Guide {
    pub through: Pos,
    /// Unit vector.
    pub along: Pos,
    pub hold: Hold,
    /// How far the pointer is from the line.
    pub off: f64,
}

impl Guide {
    /// A guide near enough to the pointer, or `None`.
    pub fn near(through: Pos, along: Pos, hold: Hold, at: Pos, within: f64) -> Option<Self> {
        let off = along.cross(at - through).abs();
        (off <= within).then_some(Self {
            through,
            along,
            hold,
            off,
        })
    }

    /// The place on the line nearest to the pointer.
    pub fn foot(&self, at: Pos) -> Pos {
        self.through + self.along * self.along.dot(at - self.through)
    }

    /// Where two guides cross; `None` where they are nearly parallel.
    pub fn crossing(&self, other: &Guide) -> Option<Pos> {
        let turn = self.along.cross(other.along);
        if turn.abs() < 0.05 {
            return None;
        }
        let gap = other.through - self.through;
        Some(self.through + self.along * (gap.cross(other.along) / turn))
    }
}

/// A direction counts as meant within this share of the distance: about 4 degrees.
const MEANT: f64 = 0.07;
/// 45 degrees count within a smaller share, about 2 degrees: few walls run so.
const MEANT_DIAGONAL: f64 = 0.035;

/// The best direction from the chain's last point, for a pointer at `at`.
pub(super) fn direction(level: &Level, chain: &[Point], at: Pos, reach: f64) -> Option<Guide> {
    let last = chain.last()?.pos();
    let distance = last.distance(at);
    let guide = |(along, hold): (Pos, Hold)| {
        let share = match hold {
            Hold::Diagonal => MEANT_DIAGONAL,
            _ => MEANT,
        };
        // Close by, a pointer cannot aim better than its reach.
        let within = (share * distance).max(reach.min(distance * 0.2));
        Guide::near(last, along, hold, at, within)
    };
    let found = directions(level, chain).into_iter().filter_map(guide);
    found.min_by(|a, b| a.off.total_cmp(&b.off).then(a.hold.cmp(&b.hold)))
}

fn directions(level: &Level, chain: &[Point]) -> Vec<(Pos, Hold)> {
    let mut found = vec![
        (Pos::new(1.0, 0.0), Hold::Square),
        (Pos::new(0.0, 1.0), Hold::Square),
    ];
    found.extend(diagonals(Pos::new(1.0, 0.0)));
    if let [.., before, last] = chain
        && let Some(along) = (last.pos() - before.pos()).unit()
        && !is_straight(along)
    {
        found.push((along, Hold::Square));
        found.push((along.quarter_turn(), Hold::Square));
        found.extend(diagonals(along));
    }
    for (wall, along) in slanted(level) {
        found.push((along, Hold::Parallel(wall.id)));
        found.push((along.quarter_turn(), Hold::SquareTo(wall.id)));
    }
    found
}

fn diagonals(along: Pos) -> [(Pos, Hold); 2] {
    let half = std::f64::consts::FRAC_1_SQRT_2;
    let across = along.quarter_turn();
    [
        ((along + across) * half, Hold::Diagonal),
        ((along - across) * half, Hold::Diagonal),
    ]
}

fn slanted(level: &Level) -> impl Iterator<Item = (&Wall, Pos)> {
    let walls = level.walls.iter();
    walls
        .filter_map(|wall| wall.line().map(|line| (wall, line.along)))
        .filter(|(_, along)| !is_straight(*along))
}

/// Along or down the sheet, to a hair.
fn is_straight(along: Pos) -> bool {
    along.x.abs() < 1e-3 || along.y.abs() < 1e-3
}

/// The best line straight across the sheet through an end of a wall, and the best one down it.
pub(super) fn in_line(ends: &[(Point, WallId)], at: Pos, reach: f64) -> [Option<Guide>; 2] {
    [Pos::new(1.0, 0.0), Pos::new(0.0, 1.0)].map(|along| {
        let guide = |(end, id): &(Point, WallId)| {
            let guide = Guide::near(end.pos(), along, Hold::InLine(*id), at, reach)?;
            Some((guide, end.pos().distance(at)))
        };
        let best = ends.iter().filter_map(guide).min_by(|(a, near), (b, far)| {
            let order = a.off.total_cmp(&b.off).then(near.total_cmp(far));
            order.then(a.hold.cmp(&b.hold))
        });
        best.map(|(guide, _)| guide)
    })
}

/// The nearest centre line of a wall the pointer is on.
pub(super) fn on_wall(walls: &[&Wall], at: Pos, reach: f64) -> Option<Guide> {
    let found = walls.iter().filter_map(|wall| {
        let line = wall.line()?;
        let beside = line.offset_of(at);
        let within = reach.max(wall.width().0 / 2.0);
        let there = (0.0..=line.length).contains(&beside);
        let guide = Guide::near(line.from, line.along, Hold::On(wall.id), at, within)?;
        there.then_some(guide)
    });
    found.min_by(|a, b| a.off.total_cmp(&b.off).then(a.hold.cmp(&b.hold)))
}
