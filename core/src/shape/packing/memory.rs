//! Bundles packed before, so that a page never packs one twice.
//!
//! Owned by the caller. What it answers never depends on what was asked before.

use std::collections::BTreeMap;

use super::{Effort, Packing, PackingError, check, pack};

/// Bundles kept; when full, all are forgotten and packed again as they are asked for.
const MOST_BUNDLES: usize = 4_096;

/// Packings by bundle. A bundle is its diameters, each rounded up to a micrometre.
#[derive(Clone, Debug, Default)]
pub struct Remembered {
    packed: BTreeMap<(Effort, Vec<u64>), Packing>,
}

impl Remembered {
    /// As [`pack`], from memory where the same diameters came before in any order.
    ///
    /// Diameters are rounded up to a whole micrometre first, so that the answer holds for every
    /// bundle it is given to.
    ///
    /// # Errors
    /// As for [`pack`].
    pub fn pack(&mut self, diameters: &[f64], effort: Effort) -> Result<Packing, PackingError> {
        check(diameters)?;
        let mut order: Vec<usize> = (0..diameters.len()).collect();
        order.sort_by(|&a, &b| diameters[b].total_cmp(&diameters[a]).then(a.cmp(&b)));
        let bundle: Vec<u64> = order
            .iter()
            .map(|&index| micrometres(diameters[index]))
            .collect();
        let packing = self.packed(bundle, effort)?;
        let mut centres = vec![(0.0, 0.0); diameters.len()];
        for (&index, centre) in order.iter().zip(&packing.centres) {
            centres[index] = *centre;
        }
        Ok(Packing {
            radius: packing.radius,
            centres,
        })
    }

    /// Bundles held at the moment.
    #[must_use]
    pub fn len(&self) -> usize {
        self.packed.len()
    }

    /// Whether nothing is held.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.packed.is_empty()
    }

    fn packed(&mut self, bundle: Vec<u64>, effort: Effort) -> Result<&Packing, PackingError> {
        use std::collections::btree_map::Entry;
        if self.packed.len() >= MOST_BUNDLES {
            self.packed.clear();
        }
        Ok(match self.packed.entry((effort, bundle)) {
            Entry::Occupied(known) => known.into_mut(),
            Entry::Vacant(new) => {
                let rounded: Vec<f64> = new.key().1.iter().map(|&um| um as f64 / 1_000.0).collect();
                let packing = pack(&rounded, effort)?;
                new.insert(packing)
            }
        })
    }
}

/// Rounded up, with allowance for a decimal that binary cannot write.
fn micrometres(diameter: f64) -> u64 {
    ((diameter * 1_000.0 * (1.0 - 1e-12)).ceil() as u64).max(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    const QUICK: Effort = Effort {
        checks: 20_000,
        seed: 1,
    };

    #[test]
    fn a_bundle_is_packed_once_whatever_its_order() {
        let mut remembered = Remembered::default();
        let one = remembered.pack(&[6.1, 9.5, 4.6], QUICK).unwrap();
        let other = remembered.pack(&[4.6, 6.1, 9.5], QUICK).unwrap();
        assert_eq!(remembered.len(), 1);
        assert_eq!(one.radius, other.radius);
        assert_eq!(one.centres[1], other.centres[2]);
    }

    #[test]
    fn the_answer_does_not_depend_on_who_asked_first() {
        let finer = [6.100_000_4, 9.5, 4.6];
        let coarser = [6.101, 9.5, 4.6];
        let mut remembered = Remembered::default();
        remembered.pack(&coarser, QUICK).unwrap();
        let after = remembered.pack(&finer, QUICK).unwrap();
        assert_eq!(after, Remembered::default().pack(&finer, QUICK).unwrap());
    }

    #[test]
    fn a_decimal_is_not_rounded_up_past_itself() {
        assert_eq!(micrometres(6.1), 6_100);
        assert_eq!(micrometres(6.1 + 1e-7), 6_101);
        assert_eq!(micrometres(1e-9), 1);
    }

    #[test]
    fn a_refused_bundle_is_not_kept() {
        let mut remembered = Remembered::default();
        assert!(remembered.pack(&[-1.0], QUICK).is_err());
        assert!(remembered.is_empty());
    }
}
