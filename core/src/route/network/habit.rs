//! How often payers' cheapest ways passed crossings of late, for the lower bound.

/// A row for each crossing: for each payer how often it passes one way and the other.
#[derive(Clone, Debug)]
pub(super) struct Habit {
    payers: usize,
    /// In 65536ths of always.
    shares: Vec<[u32; 2]>,
}

/// Always.
pub(super) const ALWAYS: u32 = 1 << 16;

impl Habit {
    pub fn new(crossings: usize, payers: usize) -> Self {
        Self {
            payers,
            shares: vec![[0; 2]; crossings * payers],
        }
    }

    /// How often each payer passes a crossing.
    pub fn at(&self, crossing: u32) -> &[[u32; 2]] {
        let from = crossing as usize * self.payers;
        &self.shares[from..from + self.payers]
    }

    /// Lets everything before count less: so many 256ths of it are forgotten.
    pub fn fade(&mut self, forgotten: u32) {
        let shares = self.shares.as_flattened_mut().iter_mut();
        for share in shares.filter(|share| **share > 0) {
            *share -= (*share * forgotten).div_ceil(256).min(*share);
        }
    }

    /// A payer's way passes a crossing now; as much is remembered as was forgotten before.
    pub fn pass(&mut self, crossing: u32, payer: usize, way: usize, remembered: u32) {
        let share = &mut self.shares[crossing as usize * self.payers + payer][way];
        *share = (*share + ALWAYS / 256 * remembered).min(ALWAYS);
    }
}
