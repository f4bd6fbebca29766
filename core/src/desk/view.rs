//! Where the paper lies on the screen: from screen points to plan points and back.

use super::{Gesture, Reach};
use crate::shape::{Point, Pos};
use crate::units::Mm;

/// A point on the screen in CSS pixels, from the top left corner of the sheet's area.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ScreenPoint {
    /// Pixels to the right.
    pub x: f64,
    /// Pixels down.
    pub y: f64,
}

impl ScreenPoint {
    /// A point from its coordinates.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// Distance to another point, pixels.
    pub fn distance(self, other: ScreenPoint) -> f64 {
        let (dx, dy) = (self.x - other.x, self.y - other.y);
        (dx * dx + dy * dy).sqrt()
    }
}

/// How the paper lies on the screen: no turn, one scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    /// The plan position at the top left corner of the sheet's area.
    pub corner: Pos,
    /// Millimetres of the house to a pixel; above zero.
    pub scale: f64,
}

impl Default for View {
    /// 60 ft across 1,000 pixels, the plan's origin a little in from the corner.
    fn default() -> Self {
        Self {
            corner: Pos::new(-1500.0, -1500.0),
            scale: 18.0,
        }
    }
}

impl View {
    /// The plan point under a screen point.
    pub fn to_plan(&self, at: ScreenPoint) -> Point {
        (self.corner + Pos::new(at.x, at.y) * self.scale).point()
    }

    /// The screen point over a plan position.
    pub fn to_screen(&self, at: Pos) -> ScreenPoint {
        let from_corner = (at - self.corner) * (1.0 / self.scale);
        ScreenPoint::new(from_corner.x, from_corner.y)
    }

    /// A gesture in plan points.
    pub fn gesture(&self, gesture: &Gesture<ScreenPoint>) -> Gesture<Point> {
        gesture.map(|at| self.to_plan(at))
    }

    /// How far around a pointer things are taken to be meant, for a radius in pixels.
    pub fn reach(&self, pixels: f64, free: bool) -> Reach {
        Reach {
            around: Mm::rounded(pixels * self.scale).max(Mm(1)),
            free,
        }
    }
}
