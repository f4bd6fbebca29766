//! Laying a picture to scale: pixels to millimetres and back, and fitting known dimensions.

use crate::plan::{KnownDimension, Placing};
use crate::shape::Pos;

impl Placing {
    /// Where a picture pixel lies on the plan.
    pub fn to_plan(&self, pixel: (f64, f64)) -> Pos {
        let (cos, sin) = self.turn;
        let (u, v) = pixel;
        Pos::new(
            self.origin.0 + self.scale * (cos * u - sin * v),
            self.origin.1 + self.scale * (sin * u + cos * v),
        )
    }

    /// Which picture pixel lies at a place of the plan.
    pub fn to_pixel(&self, place: Pos) -> (f64, f64) {
        let (cos, sin) = self.turn;
        let (x, y) = (place.x - self.origin.0, place.y - self.origin.1);
        (
            (cos * x + sin * y) / self.scale,
            (cos * y - sin * x) / self.scale,
        )
    }

    /// The same laying with the picture turned so that `along`, a stretch of pixels, runs level
    /// or plumb, whichever is nearer. The first end of the stretch keeps its place.
    pub fn levelled(&self, along: ((f64, f64), (f64, f64))) -> Placing {
        let (from, to) = along;
        let Some(unit) = Pos::new(to.0 - from.0, to.1 - from.1).unit() else {
            return *self;
        };
        let nearest = nearest_axis(Pos::new(
            self.turn.0 * unit.x - self.turn.1 * unit.y,
            self.turn.1 * unit.x + self.turn.0 * unit.y,
        ));
        // turn * unit = nearest, as complex numbers: turn = nearest * conjugate(unit)
        let turn = (
            nearest.x * unit.x + nearest.y * unit.y,
            nearest.y * unit.x - nearest.x * unit.y,
        );
        self.turned_about(from, turn)
    }

    /// The same laying with the picture turned a quarter clockwise about a pixel.
    pub fn quarter_turned(&self, about: (f64, f64)) -> Placing {
        self.turned_about(about, (-self.turn.1, self.turn.0))
    }

    /// The same laying with another turn, keeping a pixel where it lies.
    pub fn turned_about(&self, about: (f64, f64), turn: (f64, f64)) -> Placing {
        let kept = self.to_plan(about);
        let moved = Placing { turn, ..*self };
        moved.shifted(kept - moved.to_plan(about))
    }

    /// The same laying moved by a plan vector.
    pub fn shifted(&self, by: Pos) -> Placing {
        Placing {
            origin: (self.origin.0 + by.x, self.origin.1 + by.y),
            ..*self
        }
    }
}

fn nearest_axis(direction: Pos) -> Pos {
    match direction.x.abs() >= direction.y.abs() {
        true => Pos::new(direction.x.signum(), 0.0),
        false => Pos::new(0.0, direction.y.signum()),
    }
}

/// How well one known dimension agrees with the fitted scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residual {
    /// What the picture says minus what the person typed, millimetres.
    pub off: f64,
    /// Whether it is off by more than 20 mm and more than 1 % of its length.
    pub suspicious: bool,
}

/// Lays a picture to the scale that fits all known dimensions best by least squares: scale is the
/// sum of pixels times lengths over the sum of squared pixels. The first dimension's first end
/// keeps its place. With none, the laying stays and is no longer called scaled.
pub fn fit_placing(placing: &Placing, known: &[KnownDimension]) -> Placing {
    let Some(first) = known.first() else {
        return Placing {
            scaled: false,
            ..*placing
        };
    };
    let (mut length, mut square) = (0.0, 0.0);
    for dimension in known {
        let pixels = pixels(dimension);
        length += pixels * dimension.length.f64();
        square += pixels * pixels;
    }
    let kept = placing.to_plan(first.from);
    let fitted = Placing {
        scale: length / square,
        scaled: true,
        ..*placing
    };
    fitted.shifted(kept - fitted.to_plan(first.from))
}

/// The residual of every known dimension under a laying.
pub fn residuals(placing: &Placing, known: &[KnownDimension]) -> Vec<Residual> {
    let residual = |dimension: &KnownDimension| {
        let off = pixels(dimension) * placing.scale - dimension.length.f64();
        let suspicious = off.abs() > 20.0 && off.abs() > dimension.length.f64() / 100.0;
        Residual { off, suspicious }
    };
    known.iter().map(residual).collect()
}

fn pixels(dimension: &KnownDimension) -> f64 {
    Pos::new(dimension.from.0, dimension.from.1).distance(Pos::new(dimension.to.0, dimension.to.1))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Mm;

    #[test]
    fn pixels_go_to_the_plan_and_back() {
        let placing = Placing {
            origin: (120.0, -40.0),
            scale: 8.6,
            turn: (0.8, 0.6),
            scaled: true,
        };
        let pixel = placing.to_pixel(placing.to_plan((321.0, 77.0)));
        assert!((pixel.0 - 321.0).abs() < 1e-9 && (pixel.1 - 77.0).abs() < 1e-9);
    }

    #[test]
    fn two_dimensions_meet_in_the_middle_and_show_their_residuals() {
        let known = [
            KnownDimension {
                from: (0.0, 0.0),
                to: (1000.0, 0.0),
                length: Mm(10_000),
            },
            KnownDimension {
                from: (0.0, 0.0),
                to: (0.0, 1000.0),
                length: Mm(10_400),
            },
        ];
        let placing = fit_placing(&Placing::default(), &known);
        assert!((placing.scale - 10.2).abs() < 1e-9);
        let off = residuals(&placing, &known);
        assert!((off[0].off - 200.0).abs() < 1e-6 && off[0].suspicious);
        assert!((off[1].off + 200.0).abs() < 1e-6 && off[1].suspicious);
    }

    #[test]
    fn levelling_turns_a_crooked_line_straight_and_keeps_its_first_end() {
        let placing = Placing::default();
        let (from, to) = ((100.0, 100.0), (1100.0, 114.0));
        let levelled = placing.levelled((from, to));
        let (a, b) = (levelled.to_plan(from), levelled.to_plan(to));
        assert!((a.y - b.y).abs() < 1e-6 && b.x > a.x);
        assert!(a.distance(placing.to_plan(from)) < 1e-6);
        let quarter = placing.quarter_turned((0.0, 0.0)).to_plan((10.0, 0.0));
        assert!(quarter.x.abs() < 1e-9 && (quarter.y - 100.0).abs() < 1e-9);
    }
}
