//! A region of the plan that stays clear, asked whether a straight move meets it. Knows no height.

use geo::{Contains, LineString, Polygon};

use crate::shape::{Pos, Segment};

/// A region with straight sides.
pub(super) struct Region {
    polygon: Polygon<f64>,
    /// Its smallest and largest coordinates, so that most moves are known to miss it at once.
    low: Pos,
    high: Pos,
    /// Nearer to its sides than this is inside too, millimetres.
    beside: f64,
}

impl Region {
    /// The region within these corners; fewer than three enclose nothing.
    pub fn of(corners: impl Iterator<Item = Pos> + Clone) -> Self {
        let far = f64::INFINITY;
        let start = (Pos::new(far, far), Pos::new(-far, -far));
        let (low, high) = corners.clone().fold(start, |(low, high), corner| {
            (
                Pos::new(low.x.min(corner.x), low.y.min(corner.y)),
                Pos::new(high.x.max(corner.x), high.y.max(corner.y)),
            )
        });
        let ring = LineString::from_iter(corners.map(|corner| (corner.x, corner.y)));
        let polygon = Polygon::new(ring, vec![]);
        let beside = 0.0;
        Self {
            polygon,
            low,
            high,
            beside,
        }
    }

    /// The same with so much about it: what touches it, or passes it at its end by a hair, meets it.
    pub fn with_beside(self, beside: f64) -> Self {
        let by = Pos::new(beside, beside);
        Self {
            low: self.low - by,
            high: self.high + by,
            beside,
            ..self
        }
    }

    /// Whether any part of a straight stretch lies inside, however short; along a side is outside.
    pub fn meets(&self, from: Pos, to: Pos) -> bool {
        let beside = from.x.max(to.x) < self.low.x
            || self.high.x < from.x.min(to.x)
            || from.y.max(to.y) < self.low.y
            || self.high.y < from.y.min(to.y);
        if beside {
            return false;
        }
        if self.beside > 0.0 && self.is_beside(from, to) {
            return true;
        }
        // Between two crossings of the sides a stretch is inside or outside as a whole.
        let mut cuts = self.cuts(from, to);
        cuts.extend([0.0, 1.0]);
        cuts.sort_by(f64::total_cmp);
        let inside = |part: f64| {
            let place = from + (to - from) * part;
            self.polygon.contains(&geo::Point::new(place.x, place.y))
        };
        cuts.windows(2)
            .any(|pair| inside((pair[0] + pair[1]) / 2.0))
    }

    /// Whether a stretch comes nearer to a side than is inside too.
    fn is_beside(&self, from: Pos, to: Pos) -> bool {
        let pos = |at: geo::Coord| Pos::new(at.x, at.y);
        let mut sides = self.polygon.exterior().lines();
        sides.any(|side| {
            let ends = (pos(side.start), pos(side.end));
            let near = |line: (Pos, Pos), at: Pos| match Segment::between(line.0, line.1) {
                Some(line) => line.distance_to(at),
                None => line.0.distance(at),
            };
            let apart = [
                near(ends, from),
                near(ends, to),
                near((from, to), ends.0),
                near((from, to), ends.1),
            ];
            apart.into_iter().any(|apart| apart < self.beside)
        })
    }

    /// Where a stretch crosses the sides, as parts of its length.
    fn cuts(&self, from: Pos, to: Pos) -> Vec<f64> {
        let along = to - from;
        let cut = |side: geo::Line| {
            let start = Pos::new(side.start.x, side.start.y) - from;
            let side = Pos::new(side.dx(), side.dy());
            let turn = along.cross(side);
            let (part, on_side) = (start.cross(side) / turn, start.cross(along) / turn);
            let both = (0.0..=1.0).contains(&part) && (0.0..=1.0).contains(&on_side);
            (turn != 0.0 && both).then_some(part)
        };
        self.polygon.exterior().lines().filter_map(cut).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square() -> Region {
        let corners = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)];
        Region::of(corners.into_iter().map(|(x, y)| Pos::new(x, y)))
    }

    fn meets(from: (f64, f64), to: (f64, f64)) -> bool {
        let (from, to) = (Pos::new(from.0, from.1), Pos::new(to.0, to.1));
        let region = square();
        assert_eq!(region.meets(from, to), region.meets(to, from));
        region.meets(from, to)
    }

    #[test]
    fn a_stretch_that_ends_on_both_sides_of_a_region_meets_it() {
        assert!(meets((-500.0, 50.0), (500.0, 50.0)));
        assert!(meets((-10.0, 80.0), (30.0, 120.0)));
        assert!(meets((50.0, 50.0), (50.0, 50.0)));
        assert!(meets((50.0, 50.0), (500.0, 500.0)));
    }

    #[test]
    fn beside_it_along_a_side_and_at_a_corner_are_outside() {
        assert!(!meets((-500.0, 150.0), (500.0, 150.0)));
        assert!(!meets((-60.0, 90.0), (20.0, 170.0)));
        for (from, to) in [
            ((-50.0, 0.0), (150.0, 0.0)),
            ((100.0, -50.0), (100.0, 150.0)),
            ((0.0, 20.0), (0.0, 20.0)),
            ((-50.0, 50.0), (50.0, -50.0)),
        ] {
            assert!(!meets(from, to), "{from:?} {to:?}");
        }
    }

    #[test]
    fn with_room_about_it_what_touches_it_meets_it() {
        let about = square().with_beside(20.0);
        let meets = |from: (f64, f64), to: (f64, f64)| {
            about.meets(Pos::new(from.0, from.1), Pos::new(to.0, to.1))
        };
        assert!(meets((0.0, -300.0), (0.0, 300.0)));
        assert!(meets((-19.0, 50.0), (-400.0, 50.0)));
        assert!(meets((-19.0, -300.0), (-19.0, 300.0)));
        assert!(!meets((-21.0, -300.0), (-21.0, 300.0)));
        assert!(meets((50.0, 50.0), (50.0, 50.0)));
    }

    #[test]
    fn two_corners_enclose_nothing() {
        let line = Region::of([Pos::new(0.0, 0.0), Pos::new(9.0, 0.0)].into_iter());
        assert!(!line.meets(Pos::new(4.0, -4.0), Pos::new(4.0, 4.0)));
        let nothing = Region::of(std::iter::empty());
        assert!(!nothing.meets(Pos::new(4.0, -4.0), Pos::new(4.0, 4.0)));
    }
}
