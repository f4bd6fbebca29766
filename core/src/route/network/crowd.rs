//! What a crowd of cables pays at a crossing for the bore that it leaves half empty, in the lower
//! bound.
//!
//! Let a crowd of area `A` need `m` bores of capacity `c`, the last of them filled to `r`. If some of
//! the crowd, of area `a` together, stay away, then at least `m - a / r` bores are needed: one fewer
//! only for each `r` and then for each `c >= r` that is missing (the residual capacity inequality:
//! Magnanti, Mirchandani and Vachani, "Modeling and solving the two-facility capacitated network
//! loading problem", Operations Research 43(1), 1995). As tolls: for a price `t` of each bore every
//! cable of the crowd that passes pays its share of `t * A / r`, of which `t * (A / r - m)` is
//! promised back, whoever passes.

use super::habit::ALWAYS;
use super::standard::WHOLE;
use super::tolls::AREA_BITS;

/// A crowd at one crossing. Nothing is searched or decided here.
#[derive(Clone, Debug)]
pub(super) struct Crowd {
    /// Whether each payer is of it.
    of: Vec<bool>,
    bores: u64,
    /// In hundredths of a square millimetre, like `last`.
    area: u64,
    last: u64,
    /// What one bore pays, in parts.
    amount: i64,
    /// What a hundredth of a square millimetre pays, in 65536ths of a part.
    per_area: u64,
}

impl Crowd {
    /// From the area of all its cables; `None` where one bore holds them.
    pub fn new(area: u64, capacity: u32) -> Option<Self> {
        let bores = area.div_ceil(u64::from(capacity));
        (bores > 1).then(|| Self {
            of: Vec::new(),
            bores,
            area,
            last: area - (bores - 1) * u64::from(capacity),
            amount: 0,
            per_area: 0,
        })
    }

    /// Whether each payer is of it.
    pub fn set_payers(&mut self, of: Vec<bool>) {
        self.of = of;
    }

    pub fn amount(&self) -> i64 {
        self.amount
    }

    pub fn set(&mut self, amount: i64) {
        self.amount = amount;
        self.per_area = ((amount as u64) << AREA_BITS) / self.last;
    }

    /// How much of a bore the last one holds, in 256ths.
    pub fn last_of(&self, capacity: u32) -> u64 {
        self.last * 256 / u64::from(capacity)
    }

    /// What a payer pays for its area, in 65536ths of a part.
    pub fn rate(&self, payer: usize) -> u64 {
        match self.of.get(payer) == Some(&true) {
            true => self.per_area,
            false => 0,
        }
    }

    /// What is given back, rounded up.
    pub fn promised(&self) -> u64 {
        let paid = (self.amount as u64 * self.area).div_ceil(self.last);
        paid - self.amount as u64 * self.bores
    }

    /// The bores that are needed where payers pass as often as these shares say; below zero where
    /// the crowd is elsewhere.
    pub fn needed(&self, shares: &[[u32; 2]], payers: &[(u64, u32)]) -> f64 {
        let of = shares
            .iter()
            .zip(payers)
            .zip(&self.of)
            .filter(|(_, of)| **of);
        let missing: u64 = of
            .map(|((share, (units, size)), _)| {
                u64::from(ALWAYS.saturating_sub(share[0] + share[1])) * units * u64::from(*size)
            })
            .sum();
        self.bores as f64 - missing as f64 / f64::from(ALWAYS) / WHOLE as f64 / self.last as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Whoever passes, what they pay less what is promised is never more than what their bores cost.
    #[test]
    fn no_part_of_a_crowd_pays_more_than_its_bores() {
        let areas = [30u64, 30, 30, 44, 37, 30, 44];
        let capacity = 100;
        let mut crowd = Crowd::new(areas.iter().sum(), capacity).unwrap();
        crowd.set_payers(vec![true; areas.len()]);
        for amount in [1, 7, 48_000] {
            crowd.set(amount);
            for some in 1..1u32 << areas.len() {
                let here = (0..areas.len()).filter(|at| some >> at & 1 == 1);
                let (mut area, mut paid) = (0, 0);
                for at in here {
                    area += areas[at];
                    paid += (crowd.rate(at) * areas[at]) >> AREA_BITS;
                }
                let bores = area.div_ceil(u64::from(capacity));
                assert!(paid <= bores * amount as u64 + crowd.promised());
            }
        }
    }

    #[test]
    fn one_bore_needs_no_crowd() {
        assert!(Crowd::new(100, 100).is_none());
        assert!(Crowd::new(101, 100).is_some());
    }
}
