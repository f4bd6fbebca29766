//! A source of repeatable numbers: the same seed gives the same row on every machine.
//!
//! It never asks the clock or the system. The generator is `SplitMix64` (Steele, Lea and Flood,
//! "Fast splittable pseudorandom number generators", OOPSLA 2014), written from memory.

use super::energy::Point;

/// A row of numbers fixed by its seed.
#[derive(Clone, Debug)]
pub(super) struct Chance(u64);

impl Chance {
    pub(super) fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        bits ^ (bits >> 31)
    }

    /// A number from 0 up to, but not including, 1.
    pub(super) fn fraction(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A whole number from 0 up to, but not including, `count`; 0 when `count` is 0.
    pub(super) fn below(&mut self, count: usize) -> usize {
        ((self.fraction() * count as f64) as usize).min(count.saturating_sub(1))
    }

    /// A point inside the circle of radius 1 about the origin, all parts equally likely.
    pub(super) fn in_unit_circle(&mut self) -> Point {
        loop {
            let x = 2.0 * self.fraction() - 1.0;
            let y = 2.0 * self.fraction() - 1.0;
            if x * x + y * y <= 1.0 {
                return [x, y];
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_seed_gives_one_row() {
        let row = |seed| {
            let mut chance = Chance::new(seed);
            [(); 8].map(|()| chance.fraction())
        };
        assert_eq!(row(7), row(7));
        assert_ne!(row(7), row(8));
    }

    #[test]
    fn numbers_stay_in_range() {
        let mut chance = Chance::new(1);
        for _ in 0..1_000 {
            assert!((0.0..1.0).contains(&chance.fraction()));
            assert!(chance.below(3) < 3);
            let [x, y] = chance.in_unit_circle();
            assert!(x * x + y * y <= 1.0);
        }
        assert_eq!(chance.below(0), 0);
    }
}
