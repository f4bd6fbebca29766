//! How often payers' cheapest ways passed crossings of late, for the lower bound.

use super::paged::Paged;

/// A row for each payer: how often it passes each crossing one way and the other, in 65536ths of
/// always.
#[derive(Clone, Debug)]
pub(super) struct Habit(Paged);

/// Always.
pub(super) const ALWAYS: u32 = 1 << 16;

impl Habit {
    pub fn new(crossings: usize, payers: usize) -> Self {
        Self(Paged::new(payers, crossings))
    }

    /// The crossings a payer passed of late, and how often.
    pub fn of(&self, payer: usize) -> impl Iterator<Item = (u32, [u32; 2])> {
        self.0.row(payer)
    }

    /// Lets everything before count less: so many 256ths of it are forgotten.
    pub fn fade(&mut self, forgotten: u32) {
        for share in self.0.all_mut().filter(|share| **share > 0) {
            *share -= (*share * forgotten).div_ceil(256).min(*share);
        }
    }

    /// A payer's way passes a crossing now; as much is remembered as was forgotten before.
    pub fn pass(&mut self, crossing: u32, payer: usize, way: usize, remembered: u32) {
        let mut shares = self.0.at(payer, crossing);
        shares[way] = (shares[way] + ALWAYS / 256 * remembered).min(ALWAYS);
        self.0.set(payer, crossing, shares);
    }
}
