//! Squaring up a photographed drawing: from the four corners of something rectangular to the same
//! picture as if it had been looked at straight on.
//!
//! The map from a rectangle to the four corners is the plane projective one (Heckbert, "Fundamentals
//! of Texture Mapping and Image Warping", 1989, section 2.2.3; from memory, the tests check it).
//! Nothing here decodes a file: pixels come and go as plain bytes.

use std::fmt;
use std::ops::Range;

use crate::plan::{KnownDimension, Placing};
use crate::shape::Pos;
use crate::units::Mm;

/// The longer side of a squared picture, pixels.
const LONGEST: f64 = 3000.0;

/// How much of the picture beside the rectangle is kept, in sizes of the rectangle.
const BESIDE: f64 = 0.3;

/// Paper where the photo shows nothing.
const PAPER: [u8; 4] = [255, 255, 255, 255];

/// Why a picture cannot be squared by four corners. `Display` is one sentence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SquareError {
    /// Not the corners of anything seen from above.
    Crossed,
    /// Too close together to measure by.
    Small,
}

impl fmt::Display for SquareError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Crossed => {
                "These four are not the corners of a rectangle. Tap four corners, one after the other around it."
            }
            Self::Small => "These corners are too close together. Tap the corners of something larger.",
        })
    }
}

impl std::error::Error for SquareError {}

/// Four corners on a picture, in pixels, of something that is a rectangle in truth, and its size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rectangle {
    /// The corners as they are seen, clockwise from the upper left.
    pub corners: [Pos; 4],
    /// From the first corner to the second.
    pub width: Mm,
    /// From the second corner to the third.
    pub height: Mm,
}

/// How a picture is squared: a new picture and where each of its pixels lies in the old one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Squaring {
    rectangle: Rectangle,
    /// From the unit square to the pixels of the old picture.
    map: Map,
    /// Where the new picture begins, in the unit square.
    from: Pos,
    /// Millimetres a pixel of the new picture.
    scale: f64,
    /// Pixels across the new picture.
    pub width: u32,
    /// Pixels down the new picture.
    pub height: u32,
}

impl Squaring {
    /// How a picture of `size` pixels is squared by a rectangle in it.
    ///
    /// # Errors
    /// [`SquareError`] where the corners do not go round, or span next to nothing.
    pub fn of(size: (u32, u32), rectangle: Rectangle) -> Result<Self, SquareError> {
        let [a, b, c, d] = rectangle.corners;
        let sides = [b - a, c - b, d - c, a - d];
        if sides
            .iter()
            .any(|side| !side.length().is_finite() || side.length() < 8.0)
        {
            return Err(SquareError::Small);
        }
        let turns = |at: usize| sides[at].cross(sides[(at + 1) % 4]);
        if !(0..4).all(|at| turns(at) > 0.0) {
            return Err(SquareError::Crossed);
        }
        let map = Map::of(&rectangle.corners).ok_or(SquareError::Crossed)?;
        let (from, to) = shown(&map, size);
        let (across, down) = (rectangle.width.f64(), rectangle.height.f64());
        let extent = Pos::new((to.x - from.x) * across, (to.y - from.y) * down);
        // As fine as the photo is along the rectangle's sides, but no larger than a page can hold.
        let photo = (across / ((sides[0].length() + sides[2].length()) / 2.0))
            .min(down / ((sides[1].length() + sides[3].length()) / 2.0));
        let scale = photo.max(extent.x.max(extent.y) / LONGEST);
        let pixels = |length: f64| (length / scale).round().clamp(1.0, LONGEST) as u32;
        let (width, height) = (pixels(extent.x), pixels(extent.y));
        Ok(Self {
            rectangle,
            map,
            from,
            scale,
            width,
            height,
        })
    }

    /// The two sides of the rectangle as known dimensions of the new picture.
    pub fn known(&self) -> [KnownDimension; 2] {
        let corner = |u: f64, v: f64| {
            let at = self.pixel(Pos::new(u, v));
            (at.x, at.y)
        };
        let side = |to: (f64, f64), length: Mm| KnownDimension {
            from: corner(0.0, 0.0),
            to,
            length,
        };
        [
            side(corner(1.0, 0.0), self.rectangle.width),
            side(corner(0.0, 1.0), self.rectangle.height),
        ]
    }

    /// How the new picture lies where the old one lay as `before`: the first corner keeps its place.
    pub fn placing(&self, before: &Placing) -> Placing {
        let first = self.rectangle.corners[0];
        let kept = before.to_plan((first.x, first.y));
        let laid = Placing {
            scale: self.scale,
            turn: (1.0, 0.0),
            scaled: true,
            ..*before
        };
        let corner = self.pixel(Pos::new(0.0, 0.0));
        laid.shifted(kept - laid.to_plan((corner.x, corner.y)))
    }

    /// Rows of the new picture, from the old one's pixels: red, green, blue and opacity, a byte each,
    /// row by row. `None` when the old bytes are not as many as `size` says.
    pub fn rows(&self, size: (u32, u32), old: &[u8], rows: Range<u32>) -> Option<Vec<u8>> {
        let (width, height) = (size.0 as usize, size.1 as usize);
        if width < 2 || height < 2 || old.len() != width.checked_mul(height)?.checked_mul(4)? {
            return None;
        }
        let mut new = Vec::with_capacity(self.width as usize * rows.len() * 4);
        for row in rows {
            for column in 0..self.width {
                // The middle of a pixel is half a pixel from its corner, in both pictures.
                let at = Pos::new(f64::from(column) + 0.5, f64::from(row) + 0.5);
                let there = self.map.apply(self.unit(at)) + Pos::new(-0.5, -0.5);
                new.extend(blended(old, width, height, there));
            }
        }
        Some(new)
    }

    /// Where a place of the unit square lies in the new picture.
    fn pixel(&self, unit: Pos) -> Pos {
        Pos::new(
            (unit.x - self.from.x) * self.rectangle.width.f64() / self.scale,
            (unit.y - self.from.y) * self.rectangle.height.f64() / self.scale,
        )
    }

    /// The place of the unit square at a pixel of the new picture.
    fn unit(&self, pixel: Pos) -> Pos {
        Pos::new(
            self.from.x + pixel.x * self.scale / self.rectangle.width.f64(),
            self.from.y + pixel.y * self.scale / self.rectangle.height.f64(),
        )
    }
}

/// A projective map of the plane: nine numbers, row by row.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Map([f64; 9]);

impl Map {
    /// From the unit square to four corners, clockwise from the upper left.
    fn of(corners: &[Pos; 4]) -> Option<Self> {
        let [a, b, c, d] = *corners;
        let (one, two, three) = (b - c, d - c, a - b + (c - d));
        let whole = one.cross(two);
        if whole.abs() < 1e-9 {
            return None;
        }
        let (g, h) = (three.cross(two) / whole, one.cross(three) / whole);
        let (x, y) = (b * (g + 1.0) - a, d * (h + 1.0) - a);
        Some(Self([x.x, y.x, a.x, x.y, y.y, a.y, g, h, 1.0]))
    }

    fn apply(&self, at: Pos) -> Pos {
        let [a, b, c, d, e, f, g, h, i] = self.0;
        let whole = g * at.x + h * at.y + i;
        Pos::new(
            (a * at.x + b * at.y + c) / whole,
            (d * at.x + e * at.y + f) / whole,
        )
    }

    /// The map back, but for a factor that cancels.
    fn back(&self) -> Self {
        let [a, b, c, d, e, f, g, h, i] = self.0;
        Self([
            e * i - f * h,
            c * h - b * i,
            b * f - c * e,
            f * g - d * i,
            a * i - c * g,
            c * d - a * f,
            d * h - e * g,
            b * g - a * h,
            a * e - b * d,
        ])
    }
}

/// What of the old picture shows, in the unit square: all of it, but not far beside the rectangle,
/// where a photo taken aslant would run away.
fn shown(map: &Map, size: (u32, u32)) -> (Pos, Pos) {
    let (width, height) = (f64::from(size.0), f64::from(size.1));
    let back = map.back();
    let edge = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
    let steps = (0..4).flat_map(|at| {
        let ((x, y), (to_x, to_y)) = (edge[at], edge[(at + 1) % 4]);
        (0..16).map(move |step| {
            let part = f64::from(step) / 16.0;
            Pos::new(x + (to_x - x) * part, y + (to_y - y) * part)
        })
    });
    let near = |value: f64| match value.is_finite() {
        true => value.clamp(-BESIDE, 1.0 + BESIDE),
        false => 0.5,
    };
    let mut bounds = (Pos::new(0.0, 0.0), Pos::new(1.0, 1.0));
    for at in steps {
        let unit = back.apply(at);
        // What lies behind the horizon comes out on the wrong side; it does not count.
        if map.apply(unit).distance(at) > 1.0 || behind(map, unit) {
            continue;
        }
        let unit = Pos::new(near(unit.x), near(unit.y));
        bounds.0 = Pos::new(bounds.0.x.min(unit.x), bounds.0.y.min(unit.y));
        bounds.1 = Pos::new(bounds.1.x.max(unit.x), bounds.1.y.max(unit.y));
    }
    bounds
}

fn behind(map: &Map, unit: Pos) -> bool {
    let [.., g, h, i] = map.0;
    g * unit.x + h * unit.y + i <= 0.0
}

/// The colour at a place between pixels, from the four around it.
fn blended(old: &[u8], width: usize, height: usize, at: Pos) -> [u8; 4] {
    let inside = |value: f64, most: usize| value >= 0.0 && value <= (most - 1) as f64;
    if !(inside(at.x, width) && inside(at.y, height)) {
        return PAPER;
    }
    let (left, top) = (
        (at.x as usize).min(width - 2),
        (at.y as usize).min(height - 2),
    );
    let (x, y) = (at.x - left as f64, at.y - top as f64);
    let byte = |column: usize, row: usize, colour: usize| {
        let place = (row * width + column) * 4 + colour;
        old.get(place).copied().map_or(255.0, f64::from)
    };
    std::array::from_fn(|colour| {
        let upper = byte(left, top, colour) * (1.0 - x) + byte(left + 1, top, colour) * x;
        let lower = byte(left, top + 1, colour) * (1.0 - x) + byte(left + 1, top + 1, colour) * x;
        (upper * (1.0 - y) + lower * y).round() as u8
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn rectangle(corners: [(f64, f64); 4]) -> Rectangle {
        Rectangle {
            corners: corners.map(|(x, y)| Pos::new(x, y)),
            width: Mm(4000),
            height: Mm(2000),
        }
    }

    /// The corners of the sheet on the photo of house A, read off the photo by whoever took it.
    const SLANTED: [(f64, f64); 4] = [
        (663.0, 420.0),
        (3420.0, 269.0),
        (3700.0, 2640.0),
        (330.0, 2759.0),
    ];

    #[test]
    fn the_corners_of_the_rectangle_become_square() {
        let squaring = Squaring::of((4000, 3000), rectangle(SLANTED)).unwrap();
        let corners = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)];
        for (unit, seen) in corners.into_iter().zip(SLANTED) {
            let unit = Pos::new(unit.0, unit.1);
            let there = squaring.map.apply(squaring.unit(squaring.pixel(unit)));
            assert!(
                there.distance(Pos::new(seen.0, seen.1)) < 1e-6,
                "{unit:?}: {there:?}"
            );
        }
        let [across, down] = squaring.known();
        assert!((across.from.1 - across.to.1).abs() < 1e-9, "level");
        assert!((down.from.0 - down.to.0).abs() < 1e-9, "plumb");
        let ratio = (across.to.0 - across.from.0) / (down.to.1 - down.from.1);
        assert!((ratio - 2.0).abs() < 1e-9, "true to size: {ratio}");
    }

    /// The photo of house A in `tests/plans`, whose true measures stand beside it: the corners of the
    /// outer walls, and where three inner walls meet them, all read off the photo to about a pixel.
    #[test]
    fn walls_on_a_photo_come_out_where_they_are_in_truth() {
        let seen = Rectangle {
            corners: [
                (459.8, 310.2),
                (1582.7, 253.5),
                (1656.7, 1075.6),
                (365.4, 1124.4),
            ]
            .map(|(x, y)| Pos::new(x, y)),
            width: Mm(16459),
            height: Mm(10363),
        };
        let squaring = Squaring::of((2000, 1500), seen).unwrap();
        for (pixel, truth) in [
            ((705.5, 299.2), (3658.0, 0.0)),
            ((953.0, 287.0), (7315.0, 0.0)),
            ((1219.0, 1090.0), (10973.0, 10363.0)),
        ] {
            let unit = squaring.map.back().apply(Pos::new(pixel.0, pixel.1));
            let found = Pos::new(unit.x * 16459.0, unit.y * 10363.0);
            let off = found.distance(Pos::new(truth.0, truth.1));
            assert!(off < 100.0, "{found:?} is {off} mm from {truth:?}");
        }
    }

    #[test]
    fn a_picture_seen_straight_on_stays_as_it_is() {
        let straight = [(0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (0.0, 20.0)];
        let squaring = Squaring::of((40, 20), rectangle(straight)).unwrap();
        assert_eq!((squaring.width, squaring.height), (40, 20));
        let old: Vec<u8> = (0..40 * 20 * 4).map(|at| (at * 7 % 251) as u8).collect();
        assert_eq!(squaring.rows((40, 20), &old, 0..20).unwrap(), old);
        assert_eq!(squaring.rows((41, 20), &old, 0..20), None, "too few bytes");
        let before = Placing {
            origin: (100.0, 50.0),
            ..Placing::default()
        };
        let placing = squaring.placing(&before);
        assert_eq!((placing.scale, placing.origin), (100.0, (100.0, 50.0)));
    }

    #[test]
    fn corners_that_do_not_go_round_are_refused() {
        let crossed = [(0.0, 0.0), (40.0, 20.0), (40.0, 0.0), (0.0, 20.0)];
        let bent = [(0.0, 0.0), (40.0, 0.0), (10.0, 10.0), (0.0, 40.0)];
        let small = [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)];
        let of = |corners| Squaring::of((100, 100), rectangle(corners)).unwrap_err();
        assert_eq!(of(crossed), SquareError::Crossed);
        assert_eq!(of(bent), SquareError::Crossed);
        assert_eq!(of(small), SquareError::Small);
        assert_eq!(of([(f64::NAN, 0.0); 4]), SquareError::Small);
    }

    proptest! {
        /// Any four corners give a picture of a size the page can hold, or one sentence.
        #[test]
        fn any_corners_give_a_bounded_picture(
            corners in prop::array::uniform8(-200.0..5000.0_f64),
            size in (2_u32..4000, 2_u32..4000),
        ) {
            let [a, b, c, d, e, f, g, h] = corners;
            let seen = rectangle([(a, b), (c, d), (e, f), (g, h)]);
            if let Ok(squaring) = Squaring::of(size, seen) {
                prop_assert!((1..=3000).contains(&squaring.width));
                prop_assert!((1..=3000).contains(&squaring.height));
                let there = squaring.map.back().apply(seen.corners[2]);
                prop_assert!(there.distance(Pos::new(1.0, 1.0)) < 1e-3);
            }
        }
    }
}
