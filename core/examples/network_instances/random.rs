//! Numbers for the generators: SplitMix64 (Steele, Lea and Flood, OOPSLA 2014), the same everywhere.

/// A stream of numbers from a seed.
pub struct Random(pub u64);

impl Random {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A number below `bound`.
    pub fn below(&mut self, bound: u32) -> u32 {
        ((u128::from(self.next()) * u128::from(bound)) >> 64) as u32
    }

    /// A number from `from` up to, but not including, `to`.
    pub fn between(&mut self, from: u32, to: u32) -> u32 {
        from + self.below(to - from)
    }
}
