//! How few new reels could ever do, by length.
//!
//! It never says more than is true: what it gives is a proof.

use super::search::Item;

/// Longest reel, mm, whose fullest filling is worked out; longer ones are taken as filled whole.
const LONGEST_COUNTED: u64 = 1 << 20;

/// No fewer new reels hold these cables, beside the part reels.
///
/// Each reel is taken as full as any choice of these cables can make it; and cables longer than
/// half a reel cannot share one.
pub(super) fn fewest(items: &[Item], parts: &[u64], new: u64) -> usize {
    by_length(items, parts, new).max(by_halves(items, parts, new))
}

/// No fewer new reels either, at a glance: all reels filled whole.
pub(super) fn fewest_if_full(items: &[Item], parts: &[u64], new: u64) -> usize {
    let total: u64 = items.iter().map(|item| item.length).sum();
    let over = total.saturating_sub(parts.iter().sum());
    over.div_ceil(new.max(1)) as usize
}

fn by_length(items: &[Item], parts: &[u64], new: u64) -> usize {
    let total: u64 = items.iter().map(|item| item.length).sum();
    let longest = parts
        .iter()
        .copied()
        .fold(new, u64::max)
        .min(LONGEST_COUNTED);
    let sums = Sums::of(items, longest);
    let on_parts: u64 = parts.iter().map(|part| sums.fullest(*part)).sum();
    let over = total.saturating_sub(on_parts);
    if over == 0 {
        return 0;
    }
    over.div_ceil(sums.fullest(new).max(1)) as usize
}

/// Cables longer than half a new reel: one each, but for those that part reels may hold.
fn by_halves(items: &[Item], parts: &[u64], new: u64) -> usize {
    let long = items.iter().filter(|item| 2 * item.length > new);
    let shortest = long
        .clone()
        .map(|item| item.length)
        .min()
        .unwrap_or(u64::MAX)
        .max(1);
    let on_parts: u64 = parts.iter().map(|part| part / shortest).sum();
    long.count()
        .saturating_sub(usize::try_from(on_parts).unwrap_or(usize::MAX))
}

/// Every length that some of the cables add up to, one bit a millimetre.
struct Sums {
    bits: Vec<u64>,
}

impl Sums {
    fn of(items: &[Item], longest: u64) -> Self {
        let mut sums = Self {
            bits: vec![0; (longest / 64 + 1) as usize],
        };
        sums.bits[0] = 1;
        for item in items.iter().filter(|item| item.length <= longest) {
            sums.add(item.length as usize);
        }
        sums
    }

    /// Every sum so far, once more with this length added.
    fn add(&mut self, length: usize) {
        let (words, bits) = (length / 64, length % 64);
        for index in (words..self.bits.len()).rev() {
            let low = self.bits[index - words] << bits;
            let carried = if bits > 0 && index > words {
                self.bits[index - words - 1] >> (64 - bits)
            } else {
                0
            };
            self.bits[index] |= low | carried;
        }
    }

    /// The longest sum that a reel holds.
    fn fullest(&self, reel: u64) -> u64 {
        if reel / 64 >= self.bits.len() as u64 {
            return reel;
        }
        let last = (reel / 64) as usize;
        let kept = u64::MAX >> (63 - reel % 64);
        let masked = |index: usize| self.bits[index] & if index == last { kept } else { u64::MAX };
        let word = (0..=last)
            .rev()
            .find(|index| masked(*index) != 0)
            .unwrap_or(0);
        word as u64 * 64 + u64::from(63 - masked(word).leading_zeros().min(63))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn items(lengths: &[u64]) -> Vec<Item> {
        let item = |(piece, length): (usize, &u64)| Item {
            piece,
            length: *length,
            group: None,
            pull: 0,
            home: None,
        };
        lengths.iter().enumerate().map(item).collect()
    }

    #[test]
    fn sums_are_all_sums() {
        let sums = Sums::of(&items(&[3, 64, 130]), 1_000);
        let expected = [
            (0, 0),
            (2, 0),
            (3, 3),
            (66, 64),
            (67, 67),
            (129, 67),
            (132, 130),
        ];
        for (reel, fullest) in expected
            .into_iter()
            .chain([(133, 133), (196, 194), (999, 197)])
        {
            assert_eq!(sums.fullest(reel), fullest, "reel of {reel}");
        }
    }

    #[test]
    fn a_reel_that_cannot_be_filled_is_not_counted_full() {
        // 100 holds only one of 60: three reels, though 180 is less than twice 100.
        assert_eq!(fewest(&items(&[60, 60, 60]), &[], 100), 3);
        assert_eq!(fewest(&items(&[40, 40, 40, 40, 40]), &[], 100), 3);
    }

    #[test]
    fn part_reels_carry_what_they_can() {
        assert_eq!(fewest(&items(&[60, 60]), &[60, 70], 100), 0);
        assert_eq!(fewest(&items(&[60, 60]), &[59, 70], 100), 1);
        assert_eq!(fewest(&[], &[50], 100), 0);
    }

    #[test]
    fn very_long_reels_are_taken_as_filled() {
        assert_eq!(fewest(&items(&[3_000_000, 3_000_000]), &[], 4_000_000), 2);
        assert_eq!(fewest(&items(&[1_000_000, 1_000_000]), &[], 4_000_000), 1);
    }
}
