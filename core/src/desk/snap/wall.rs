//! Where a wall being drawn ends: ends and lines of walls, right angles, typed lengths, steps.

use super::guide::{self, Guide};
use super::{Hold, Snap, step, stepped};
use crate::desk::Reach;
use crate::plan::{Level, Wall, WallId};
use crate::shape::{Point, Pos, Segment};
use crate::units::{Mm, Units};

/// Ends nearer than this to a corner belong to it, millimetres, as in
/// [`Edit::MoveCorner`](crate::plan::edit::Edit::MoveCorner).
const CORNER: f64 = 60.0;

/// Everything a wall's end may hold on to.
#[derive(Clone, Copy)]
pub(crate) struct Aim<'a> {
    /// The level drawn on.
    pub level: &'a Level,
    /// Points of the chain so far; empty for a first point.
    pub chain: &'a [Point],
    /// A typed length from the chain's last point.
    pub length: Option<Mm>,
    /// A corner being moved: its own walls are not held on to where they end there.
    pub moving: Option<Point>,
    /// How far the pointer reaches.
    pub reach: Reach,
    /// For whole steps.
    pub units: Units,
}

impl Aim<'_> {
    /// The place a pointer at `at` means, and what it holds on to; `None` where snapping is off
    /// and no length is typed: then `at` itself is meant.
    ///
    /// In this order: a typed length; the chain's own ends; an end of a wall; where two lines
    /// cross; a single line, in whole steps along it; whole steps.
    pub fn snap(&self, at: Point) -> Option<Snap> {
        if let Some(length) = self.length
            && let Some(snap) = self.typed(at, length)
        {
            return Some(snap);
        }
        if self.reach.free {
            return None;
        }
        let guides = self.guides(at.pos());
        self.own_end(at)
            .or_else(|| self.end(at))
            .or_else(|| self.crossing(&guides, at.pos()))
            .or_else(|| self.single(&guides, at.pos()))
            .or_else(|| {
                let holds = vec![Hold::Steps];
                let at = stepped(at, self.units);
                Some(Snap { at, holds })
            })
    }

    fn typed(&self, at: Point, length: Mm) -> Option<Snap> {
        let last = self.chain.last()?.pos();
        let towards = at.pos() - last;
        let guide = match self.reach.free {
            true => None,
            false => guide::direction(self.level, self.chain, at.pos(), self.around()),
        };
        let along = match &guide {
            Some(guide) => guide.along * guide.along.dot(towards).signum(),
            None => towards.unit()?,
        };
        let mut holds = vec![Hold::Typed];
        holds.extend(guide.map(|guide| guide.hold));
        let at = (last + along * length.f64()).point();
        Some(Snap { at, holds })
    }

    fn own_end(&self, at: Point) -> Option<Snap> {
        let near = |end: &Point| end.pos().distance(at.pos()) <= self.around();
        let (first, last) = (self.chain.first()?, self.chain.last()?);
        if near(last) {
            let holds = vec![Hold::Last];
            return Some(Snap { at: *last, holds });
        }
        let closes = self.chain.len() > 2 && near(first);
        closes.then(|| Snap {
            at: *first,
            holds: vec![Hold::First],
        })
    }

    fn end(&self, at: Point) -> Option<Snap> {
        let near = self
            .ends()
            .into_iter()
            .map(|(end, id)| (end.pos().distance(at.pos()), id, end))
            .filter(|(off, ..)| *off <= self.around());
        let (_, id, at) = near.min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)))?;
        let holds = vec![Hold::EndOf(id)];
        Some(Snap { at, holds })
    }

    /// Ends of walls, but those that are being moved and the one the chain goes on from.
    fn ends(&self) -> Vec<(Point, WallId)> {
        let walls = self.level.walls.iter();
        walls
            .flat_map(|wall| [(wall.from, wall.id), (wall.to, wall.id)])
            .filter(|(end, _)| !self.is_moving(*end) && self.chain.last() != Some(end))
            .collect()
    }

    /// Guides by rank: a wall's line, a direction, then lines across and down from ends.
    fn guides(&self, at: Pos) -> Vec<Guide> {
        let reach = self.around();
        let walls = self.level.walls.iter();
        let others: Vec<&Wall> = walls
            .filter(|wall| !self.is_moving(wall.from) && !self.is_moving(wall.to))
            .filter(|wall| !self.starts_on(wall))
            .collect();
        let [across, down] = guide::in_line(&self.ends(), at, reach);
        let ranked = [
            guide::on_wall(&others, at, reach),
            guide::direction(self.level, self.chain, at, reach),
            across,
            down,
        ];
        ranked.into_iter().flatten().collect()
    }

    fn crossing(&self, guides: &[Guide], at: Pos) -> Option<Snap> {
        for (place, one) in guides.iter().enumerate() {
            for other in guides.iter().skip(place + 1) {
                let Some(crossing) = one.crossing(other) else {
                    continue;
                };
                let within = 1.5 * self.around().max(one.off + other.off);
                if crossing.distance(at) <= within && self.is_on(one, crossing) {
                    let at = crossing.point();
                    let holds = vec![one.hold.clone(), other.hold.clone()];
                    return Some(Snap { at, holds });
                }
            }
        }
        None
    }

    fn single(&self, guides: &[Guide], at: Pos) -> Option<Snap> {
        let guide = guides.first()?;
        let foot = guide.foot(at);
        let along = step(guide.along.dot(foot - guide.through), self.units);
        let stepped = guide.through + guide.along * along;
        let at = match self.is_on(guide, stepped) {
            true => stepped,
            false => foot,
        };
        let at = at.point();
        let holds = vec![guide.hold.clone()];
        Some(Snap { at, holds })
    }

    /// A place on a wall's line counts only between the wall's ends.
    fn is_on(&self, guide: &Guide, place: Pos) -> bool {
        match guide.hold {
            Hold::On(wall) => {
                let line = self.level.wall(wall).and_then(Wall::line);
                line.is_some_and(|l| (-0.5..=l.length + 0.5).contains(&l.offset_of(place)))
            }
            _ => true,
        }
    }

    fn starts_on(&self, wall: &Wall) -> bool {
        let touches = |line: Segment, last: &Point| line.distance_to(last.pos()) < 1.5;
        match (self.chain.last(), wall.line()) {
            (Some(last), Some(line)) => touches(line, last),
            _ => false,
        }
    }

    fn is_moving(&self, end: Point) -> bool {
        self.moving
            .is_some_and(|corner| corner.pos().distance(end.pos()) <= CORNER)
    }

    fn around(&self) -> f64 {
        self.reach.around.f64()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{LevelId, Lumber, Role};

    fn level() -> Level {
        let mut level = Level::new(LevelId(1), "Ground");
        let ends = [((0, 0), (6096, 0)), ((6096, 0), (6096, 4064))];
        for (number, (from, to)) in (1..).zip(ends) {
            let (from, to) = (Point::new(from.0, from.1), Point::new(to.0, to.1));
            let wall = Wall::new(WallId(number), from, to, Lumber::TwoBySix, Role::Exterior);
            level.walls.push(wall);
        }
        level
    }

    fn aim<'a>(level: &'a Level, chain: &'a [Point]) -> Aim<'a> {
        Aim {
            level,
            chain,
            length: None,
            moving: None,
            reach: Reach {
                around: Mm(150),
                free: false,
            },
            units: Units::Imperial,
        }
    }

    fn told(aim: Aim, at: (i32, i32)) -> (String, (i32, i32)) {
        let snap = aim.snap(Point::new(at.0, at.1)).unwrap();
        (snap.words(), (snap.at.x, snap.at.y))
    }

    #[test]
    fn ends_hold_before_lines_and_lines_before_steps() {
        let level = level();
        let free = aim(&level, &[]);
        assert_eq!(told(free, (70, 90)), ("end of W1".into(), (0, 0)));
        assert_eq!(told(free, (3000, 60)), ("on W1".into(), (2997, 0)));
        assert_eq!(
            told(free, (60, 3000)),
            ("in line with W1".into(), (0, 2997))
        );
        assert_eq!(
            told(free, (3000, 3000)),
            ("whole steps".into(), (2997, 2997))
        );
    }

    #[test]
    fn a_square_segment_meets_the_line_of_an_end_or_a_wall() {
        let level = level();
        let chain = [Point::new(6096, 4064)];
        assert_eq!(
            told(aim(&level, &chain), (100, 4200)),
            ("square, in line with W1".into(), (0, 4064))
        );
        let tee = [Point::new(2000, 3000)];
        assert_eq!(
            told(aim(&level, &tee), (2060, 50)),
            ("on W1, square".into(), (2000, 0))
        );
    }

    #[test]
    fn the_chain_closes_at_its_first_point_and_lets_go_at_its_last() {
        let level = Level::new(LevelId(1), "Ground");
        let chain = [(0, 0), (3000, 0), (3000, 3000)].map(|(x, y)| Point::new(x, y));
        assert_eq!(
            told(aim(&level, &chain), (90, 90)),
            ("first point".into(), (0, 0))
        );
        let last = told(aim(&level, &chain), (3050, 2950));
        assert_eq!(last, ("last point, tap to let go".into(), (3000, 3000)));
        let short = aim(&level, &chain[..2]);
        assert_ne!(told(short, (90, 90)).0, "first point");
    }

    #[test]
    fn a_typed_length_runs_in_the_meant_direction() {
        let level = Level::new(LevelId(1), "Ground");
        let chain = [Point::new(1000, 1000)];
        let typed = Aim {
            length: Some(Mm(3810)),
            ..aim(&level, &chain)
        };
        assert_eq!(
            told(typed, (-2000, 1090)),
            ("typed length, square".into(), (-2810, 1000))
        );
    }

    #[test]
    fn slanted_walls_give_their_direction() {
        let mut level = Level::new(LevelId(1), "Ground");
        let (from, to) = (Point::new(0, 0), Point::new(4000, 3000));
        let slanted = Wall::new(WallId(1), from, to, Lumber::TwoByFour, Role::Partition);
        level.walls.push(slanted);
        let chain = [Point::new(8000, 0)];
        let (words, at) = told(aim(&level, &chain), (9610, 1190));
        assert_eq!(words, "along W1");
        assert!((at.0 - 8000) * 3 - at.1 * 4 < 4, "{at:?}");
        let square = told(aim(&level, &chain), (6790, 1610));
        assert_eq!(square.0, "square to W1");
    }

    #[test]
    fn a_key_lets_go_of_every_hold_but_a_typed_length() {
        let level = level();
        let chain = [Point::new(0, 0)];
        let mut free = aim(&level, &chain);
        free.reach.free = true;
        assert_eq!(free.snap(Point::new(3, 4)), None);
        free.length = Some(Mm(500));
        assert_eq!(told(free, (3, 4)), ("typed length".into(), (300, 400)));
    }

    #[test]
    fn a_moved_corner_stays_square_with_the_far_ends_of_its_walls() {
        let level = level();
        let corner = Point::new(6096, 0);
        let moving = Aim {
            moving: Some(corner),
            ..aim(&level, &[])
        };
        assert_eq!(
            told(moving, (6500, 80)),
            ("in line with W1".into(), (6502, 0))
        );
    }
}
