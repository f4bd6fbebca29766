//! Points and directions of the plan: x to the right, y down, millimetres.

use serde::{Deserialize, Serialize};

use crate::units::Mm;

/// A drawn point in whole millimetres.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
pub struct Point {
    /// Millimetres to the right of the origin.
    pub x: i32,
    /// Millimetres below the origin.
    pub y: i32,
}

impl Point {
    /// Coordinates beyond this (200 m) are refused: no house is that large.
    pub const LIMIT: i32 = 200_000;

    /// A point from its coordinates.
    pub const fn new(x: i32, y: i32) -> Self {
        Self { x, y }
    }

    /// The exact place as a derived position.
    pub fn pos(self) -> Pos {
        Pos::new(f64::from(self.x), f64::from(self.y))
    }

    /// Distance to another point.
    pub fn distance(self, other: Point) -> Mm {
        Mm::rounded(self.pos().distance(other.pos()))
    }

    /// Whether both coordinates are within [`Point::LIMIT`].
    pub fn is_plausible(self) -> bool {
        // The least number there is has no opposite, so its size is told without a sign.
        let limit = Self::LIMIT.unsigned_abs();
        self.x.unsigned_abs() <= limit && self.y.unsigned_abs() <= limit
    }
}

/// A derived position in millimetres, also used as a vector.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize, Deserialize)]
pub struct Pos {
    /// Millimetres to the right.
    pub x: f64,
    /// Millimetres down.
    pub y: f64,
}

impl Pos {
    /// A position from its coordinates.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The nearest drawn point. Not-a-number becomes zero, far values saturate.
    pub fn point(self) -> Point {
        Point::new(Mm::rounded(self.x).0, Mm::rounded(self.y).0)
    }

    /// Scalar product.
    pub fn dot(self, other: Pos) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// The z of the cross product: above zero when `other` is clockwise from `self` on the sheet.
    pub fn cross(self, other: Pos) -> f64 {
        self.x * other.y - self.y * other.x
    }

    /// Length of the vector. `sqrt` alone is used, so that every machine agrees on the last bit.
    pub fn length(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// Distance to another position.
    pub fn distance(self, other: Pos) -> f64 {
        (other - self).length()
    }

    /// The vector of length one, or `None` for a vector of no length.
    pub fn unit(self) -> Option<Pos> {
        let length = self.length();
        (length > 1e-9).then(|| self * (1.0 / length))
    }

    /// The vector turned a quarter clockwise on the sheet.
    pub fn quarter_turn(self) -> Pos {
        Pos::new(-self.y, self.x)
    }
}

impl std::ops::Add for Pos {
    type Output = Pos;
    fn add(self, other: Pos) -> Pos {
        Pos::new(self.x + other.x, self.y + other.y)
    }
}

impl std::ops::Sub for Pos {
    type Output = Pos;
    fn sub(self, other: Pos) -> Pos {
        Pos::new(self.x - other.x, self.y - other.y)
    }
}

impl std::ops::Mul<f64> for Pos {
    type Output = Pos;
    fn mul(self, factor: f64) -> Pos {
        Pos::new(self.x * factor, self.y * factor)
    }
}

/// A direction on the sheet, kept as the whole-number vector it was drawn with; its length means
/// nothing. (0, 0) stands for "not stated".
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Direction {
    /// Part to the right.
    pub dx: i32,
    /// Part downwards.
    pub dy: i32,
}

impl Direction {
    /// Along the sheet's x axis.
    pub const ALONG_X: Direction = Direction { dx: 1, dy: 0 };
    /// Along the sheet's y axis.
    pub const ALONG_Y: Direction = Direction { dx: 0, dy: 1 };

    /// The direction from one point towards another, or `None` where they coincide.
    pub fn towards(from: Point, to: Point) -> Option<Self> {
        let (dx, dy) = (to.x.saturating_sub(from.x), to.y.saturating_sub(from.y));
        (dx != 0 || dy != 0).then_some(Self { dx, dy })
    }

    /// The unit vector; `None` where the direction is not stated.
    pub fn unit(self) -> Option<Pos> {
        Pos::new(f64::from(self.dx), f64::from(self.dy)).unit()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn distances_are_those_of_the_plane() {
        assert_eq!(Point::new(0, 0).distance(Point::new(300, 400)), Mm(500));
        assert_eq!(
            Pos::new(3.0, 4.0).unit(),
            Some(Pos::new(0.6000000000000001, 0.8))
        );
        assert_eq!(Pos::new(0.0, 0.0).unit(), None);
        assert_eq!(Pos::new(1.0, 0.0).quarter_turn(), Pos::new(0.0, 1.0));
    }

    #[test]
    fn the_least_number_is_far_out() {
        let far = Point::new(i32::MIN, 0);
        assert!(!far.is_plausible() && !Point::new(0, i32::MAX).is_plausible());
        assert!(Point::new(-Point::LIMIT, Point::LIMIT).is_plausible());
    }

    #[test]
    fn a_direction_needs_two_points() {
        assert_eq!(Direction::towards(Point::new(1, 1), Point::new(1, 1)), None);
        let right = Direction::towards(Point::new(0, 0), Point::new(9, 0));
        assert_eq!(right.and_then(Direction::unit), Some(Pos::new(1.0, 0.0)));
    }
}
