//! The hand: strokes that waver, start and end a little off, and press unevenly. The same strokes
//! come out the same each time.

use borewright_core::plan::Placing;
use borewright_core::shape::Pos;

use super::Turn;
use super::letters::{GAP, glyph, width};
use super::paper::Paper;

/// Width of the pencil's line and how dark it is, from 0 to 1.
#[derive(Clone, Copy)]
struct Pencil {
    width: f64,
    dark: f64,
}

const FIRM: Pencil = Pencil {
    width: 3.1,
    dark: 0.86,
};
const LIGHT: Pencil = Pencil {
    width: 2.0,
    dark: 0.62,
};
const LETTER: Pencil = Pencil {
    width: 2.5,
    dark: 0.78,
};

/// A hand over paper, drawing in plan positions.
pub struct Hand {
    paper: Paper,
    placing: Placing,
    dice: u64,
}

impl Hand {
    pub fn new(paper: Paper, placing: Placing) -> Self {
        Self {
            paper,
            placing,
            dice: 7,
        }
    }

    pub fn into_paper(self) -> Paper {
        self.paper
    }

    /// A firm line drawn twice, as for the face of a wall.
    pub fn firm(&mut self, from: Pos, to: Pos) {
        self.line(from, to, FIRM, 1.3);
        self.line(from, to, LIGHT, 2.0);
    }

    /// A light line.
    pub fn light(&mut self, from: Pos, to: Pos) {
        self.line(from, to, LIGHT, 1.2);
    }

    /// A light broken line.
    pub fn dashes(&mut self, from: Pos, to: Pos) {
        let count = ((to - from).length() / 260.0).round().max(1.0) as u32;
        for dash in 0..count {
            let at =
                |share: f64| from + (to - from) * ((f64::from(dash) + share) / f64::from(count));
            self.line(at(0.0), at(0.6), LIGHT, 0.7);
        }
    }

    /// A light curve through points.
    pub fn curve(&mut self, points: &[Pos]) {
        let pixels: Vec<(f64, f64)> = points.iter().map(|p| self.placing.to_pixel(*p)).collect();
        self.stroke(&pixels, LIGHT, 1.0);
    }

    /// One line of capitals about a place, `height` millimetres of the house tall.
    pub fn letter(&mut self, text: &str, middle: Pos, height: f64, turn: Turn) {
        let unit = height / 6.0;
        let mut along = -width(text) / 2.0;
        for letter in text.chars() {
            let (lean, rise) = (self.between(0.08, 0.16), self.between(-0.18, 0.18));
            for stroke in glyph(letter).1 {
                let points: Vec<(f64, f64)> = stroke
                    .iter()
                    .map(|(x, y)| {
                        let (x, y) = (along + x + lean * (6.0 - y), y - 3.0 + rise);
                        let place = match turn {
                            Turn::Level => Pos::new(x * unit, y * unit),
                            Turn::Upright => Pos::new(y * unit, -x * unit),
                        };
                        self.placing.to_pixel(middle + place)
                    })
                    .collect();
                self.stroke(&points, LETTER, 0.5);
            }
            along += glyph(letter).0 + GAP;
        }
    }

    /// A straight line that starts and ends a little off and bows a little.
    fn line(&mut self, from: Pos, to: Pos, pencil: Pencil, off: f64) {
        let (mut a, mut b) = (self.placing.to_pixel(from), self.placing.to_pixel(to));
        let length = apart(a, b).max(1.0);
        let along = ((b.0 - a.0) / length, (b.1 - a.1) / length);
        let (before, after) = (self.between(-0.5, 2.5) * off, self.between(-0.5, 2.5) * off);
        a = (a.0 - along.0 * before, a.1 - along.1 * before);
        b = (b.0 + along.0 * after, b.1 + along.1 * after);
        let pieces = (length / 90.0).ceil().max(1.0) as u32;
        let points: Vec<(f64, f64)> = (0..=pieces)
            .map(|piece| {
                let share = f64::from(piece) / f64::from(pieces);
                (a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share)
            })
            .collect();
        self.stroke(&points, pencil, off);
    }

    /// A smooth stroke near points, in pixels.
    fn stroke(&mut self, points: &[(f64, f64)], pencil: Pencil, waver: f64) {
        let shaken: Vec<(f64, f64)> = points
            .iter()
            .map(|(x, y)| {
                (
                    x + self.between(-0.6, 0.6) * waver,
                    y + self.between(-0.6, 0.6) * waver,
                )
            })
            .collect();
        let pressure = self.between(0.9, 1.1);
        let mut travelled = self.between(0.0, 100.0);
        for place in smooth(&shaken) {
            travelled += 0.5;
            // The hand presses harder and softer along a stroke.
            let press = pressure * (1.0 + 0.12 * (travelled / 37.0).sin());
            self.paper
                .touch(place, pencil.width * press, (pencil.dark * press).min(1.0));
        }
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        // SplitMix64, as in the product's own tests.
        self.dice = self.dice.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.dice;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^= z >> 31;
        low + (high - low) * (z >> 11) as f64 / (1_u64 << 53) as f64
    }
}

fn apart(a: (f64, f64), b: (f64, f64)) -> f64 {
    ((b.0 - a.0).powi(2) + (b.1 - a.1).powi(2)).sqrt()
}

/// Places half a pixel apart along a Catmull-Rom curve through the points.
fn smooth(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut places = Vec::new();
    let at = |index: isize| {
        let last = points.len().saturating_sub(1) as isize;
        points.get(index.clamp(0, last) as usize).copied()
    };
    for index in 0..points.len().saturating_sub(1) as isize {
        let (Some(p0), Some(p1), Some(p2), Some(p3)) =
            (at(index - 1), at(index), at(index + 1), at(index + 2))
        else {
            continue;
        };
        let steps = (apart(p1, p2) * 2.0).ceil().max(1.0) as u32;
        for step in 0..steps {
            let t = f64::from(step) / f64::from(steps);
            let mix = |a: f64, b: f64, c: f64, d: f64| {
                0.5 * (2.0 * b
                    + (c - a) * t
                    + (2.0 * a - 5.0 * b + 4.0 * c - d) * t * t
                    + (3.0 * b - a - 3.0 * c + d) * t * t * t)
            };
            places.push((mix(p0.0, p1.0, p2.0, p3.0), mix(p0.1, p1.1, p2.1, p3.1)));
        }
    }
    places.extend(points.last());
    places
}
