//! Where the paper lies on the screen: from screen points to plan points and back.
//!
//! A view belongs to one screen and is no part of a session or a plan.

use super::{Gesture, PaperMove, Reach};
use crate::shape::{Point, Pos};
use crate::units::Mm;

/// The closest look: 0.25 mm of the house to a pixel.
const CLOSEST: f64 = 0.25;
/// The farthest look: 250 mm of the house to a pixel.
const FARTHEST: f64 = 250.0;

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

    fn vector(self) -> Pos {
        Pos::new(self.x, self.y)
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
    /// A view that shows everything between two opposite corners in the middle of an area of this
    /// many pixels, with a margin of a twentieth. An area or a rectangle of no extent gives the
    /// usual scale around it.
    pub fn showing(corners: (Pos, Pos), width: f64, height: f64) -> Self {
        let (one, other) = corners;
        let extent = Pos::new((other.x - one.x).abs(), (other.y - one.y).abs());
        let middle = (one + other) * 0.5;
        let needed = (extent.x / width).max(extent.y / height) / 0.9;
        let scale = match needed.is_finite() && needed > 0.0 {
            true => needed.clamp(CLOSEST, FARTHEST),
            false => Self::default().scale,
        };
        let corner = middle - Pos::new(width, height) * (scale * 0.5);
        Self { corner, scale }
    }

    /// The plan point under a screen point.
    pub fn to_plan(&self, at: ScreenPoint) -> Point {
        self.under(at).point()
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

    /// How far around a pointer things are taken to be meant, for a radius in pixels; see
    /// [`PointerKind::reach`](super::PointerKind::reach).
    pub fn reach(&self, pixels: f64, free: bool) -> Reach {
        Reach {
            around: Mm::rounded(pixels * self.scale).max(Mm(1)),
            free,
        }
    }

    /// The view after the paper was moved by hand: what was held stays under the fingers.
    pub fn moved(&self, paper: &PaperMove) -> Self {
        let held = self.under(paper.from);
        let shifted = Self {
            corner: held - paper.to.vector() * self.scale,
            ..*self
        };
        shifted.zoomed(paper.to, paper.factor)
    }

    /// The view with everything `factor` times as large, the place under `at` staying where it is.
    /// A factor that is no number above zero changes nothing.
    pub fn zoomed(&self, at: ScreenPoint, factor: f64) -> Self {
        if !(factor.is_finite() && factor > 0.0) {
            return *self;
        }
        let held = self.under(at);
        let scale = (self.scale / factor).clamp(CLOSEST, FARTHEST);
        Self {
            corner: held - at.vector() * scale,
            scale,
        }
    }

    fn under(&self, at: ScreenPoint) -> Pos {
        self.corner + at.vector() * self.scale
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_rectangle_is_shown_whole_and_in_the_middle() {
        let corners = (Pos::new(0.0, 0.0), Pos::new(18_000.0, 4_500.0));
        let view = View::showing(corners, 1000.0, 500.0);
        assert_eq!(view.scale, 20.0);
        assert_eq!(view.to_screen(Pos::new(0.0, 2250.0)).x, 50.0);
        assert_eq!(view.to_screen(Pos::new(9000.0, 2250.0)).y, 250.0);
        let nothing = View::showing((Pos::default(), Pos::default()), 1000.0, 500.0);
        assert_eq!(nothing.scale, View::default().scale);
        let no_area = View::showing(corners, 0.0, 0.0);
        assert_eq!(no_area.scale, View::default().scale);
    }

    #[test]
    fn reach_grows_with_the_distance_of_the_look() {
        let view = View::default();
        assert_eq!(view.reach(8.0, false).around, Mm(144));
        assert_eq!(view.reach(0.0, true).around, Mm(1));
    }

    proptest! {
        #[test]
        fn points_go_to_the_screen_and_back(
            x in -100_000..100_000i32, y in -100_000..100_000i32, scale in 0.25..250.0f64,
        ) {
            let view = View { corner: Pos::new(-321.0, 77.0), scale };
            let point = Point::new(x, y);
            prop_assert_eq!(view.to_plan(view.to_screen(point.pos())), point);
        }

        #[test]
        fn the_held_place_stays_under_the_fingers(
            x in 0.0..1000.0f64, to in 0.0..1000.0f64, factor in 0.1..10.0f64,
        ) {
            let view = View::default();
            let (from, to) = (ScreenPoint::new(x, 5.0), ScreenPoint::new(to, 300.0));
            let moved = view.moved(&PaperMove { from, to, factor });
            prop_assert!(moved.under(to).distance(view.under(from)) < 1e-6);
        }
    }
}
