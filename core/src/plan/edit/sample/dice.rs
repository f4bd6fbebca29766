//! The dice: numbers, texts and places that look random and repeat.

use crate::plan::Side;
use crate::shape::{Direction, Point};
use crate::units::{Mm, Size};

/// SplitMix64 (Steele, Lea and Flood, OOPSLA 2014).
pub(super) struct Dice(pub u64);

impl Dice {
    pub(super) fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    pub(super) fn below(&mut self, bound: usize) -> usize {
        (self.roll() % bound.max(1) as u64) as usize
    }

    pub(super) fn between(&mut self, low: i32, high: i32) -> i32 {
        low + self.below((high - low).max(0) as usize + 1) as i32
    }

    pub(super) fn mm(&mut self, low: i32, high: i32) -> Mm {
        Mm(self.between(low, high))
    }

    pub(super) fn real(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.roll() >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub(super) fn chance(&mut self, one_in: usize) -> bool {
        self.below(one_in) == 0
    }

    pub(super) fn of<T: Clone>(&mut self, list: &[T]) -> Option<T> {
        list.get(self.below(list.len())).cloned()
    }

    pub(super) fn one<T: Copy, const N: usize>(&mut self, list: [T; N]) -> T {
        list[self.below(N)]
    }

    pub(super) fn text(&mut self) -> String {
        const TEXTS: [&str; 14] = [
            "",
            "Bedroom",
            "BED 2",
            "Living room",
            "Kitchen",
            "Owner's suite",
            "Hall",
            "Closet",
            "Büro Süd",
            "書斎",
            "two\nlines",
            "<b onclick=\"x()\">&amp;</b>",
            "\\ \" \u{7} \u{202e}",
            "Garage, east bay",
        ];
        let word = self.one(TEXTS);
        match self.chance(12) {
            true => word.repeat(60),
            false => word.to_string(),
        }
    }

    pub(super) fn point(&mut self) -> Point {
        match self.chance(3) {
            true => Point::new(self.between(-9000, 30_000), self.between(-9000, 30_000)),
            // Points of a coarse net, so that walls meet and lie in line.
            false => Point::new(self.between(0, 12) * 1219, self.between(0, 12) * 1219),
        }
    }

    pub(super) fn direction(&mut self) -> Direction {
        match self.below(3) {
            0 => Direction::ALONG_X,
            1 => Direction::ALONG_Y,
            _ => Direction {
                dx: self.between(-900, 900),
                dy: self.between(-900, 900),
            },
        }
    }

    pub(super) fn size(&mut self, low: f64, high: f64) -> Size {
        match self.below(3) {
            0 => Size::inches(((low + high) / 2.0 / 25.4).round()),
            1 => Size::from_micrometres(self.real(low * 1000.0, high * 1000.0) as i64),
            _ => Size(self.real(low, high)),
        }
    }

    pub(super) fn side(&mut self) -> Side {
        self.one([Side::Left, Side::Right])
    }
}
