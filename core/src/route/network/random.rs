//! A small generator of numbers that look random and are the same on every machine.
//!
//! SplitMix64 (Steele, Lea and Flood, "Fast splittable pseudorandom number generators", OOPSLA
//! 2014). Not for secrets.

/// A stream of numbers from a seed.
#[derive(Clone, Debug)]
pub(super) struct Random(u64);

impl Random {
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A number below `bound`; 0 where `bound` is 0.
    pub fn below(&mut self, bound: usize) -> usize {
        ((u128::from(self.next()) * bound as u128) >> 64) as usize
    }

    pub fn shuffle<T>(&mut self, items: &mut [T]) {
        for i in (1..items.len()).rev() {
            items.swap(i, self.below(i + 1));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// First outputs for seed 1234567, as listed with the reference C code by Vigna (from memory).
    #[test]
    fn agrees_with_the_reference() {
        let mut random = Random::new(1_234_567);
        assert_eq!(random.next(), 6_457_827_717_110_365_317);
        assert_eq!(random.next(), 3_203_168_211_198_807_973);
        assert_eq!(random.next(), 9_817_491_932_198_370_423);
    }

    #[test]
    fn stays_below_and_shuffles_everything() {
        let mut random = Random::new(1);
        assert_eq!(random.below(0), 0);
        assert!((0..100).all(|_| random.below(7) < 7));
        let mut items: Vec<u32> = (0..50).collect();
        random.shuffle(&mut items);
        assert_ne!(items, (0..50).collect::<Vec<_>>());
        items.sort_unstable();
        assert_eq!(items, (0..50).collect::<Vec<_>>());
    }
}
