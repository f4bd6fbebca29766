//! Of a long list, the stretch that is shown at once: a page draws a hundred lines in a moment, and not
//! the twenty thousand that a plan may ask for.

use std::ops::Range;

/// So many lines are shown at once of a list that may have thousands.
pub const LINES_AT_ONCE: usize = 120;

/// The places shown of a list whose entries take so many lines, from a place on: as many as fit, and
/// one at least. All of them where all fit.
pub fn stretch(lines: &[usize], first: usize) -> Range<usize> {
    let first = match lines.iter().sum::<usize>() <= LINES_AT_ONCE {
        true => 0,
        false => first.min(lines.len().saturating_sub(1)),
    };
    let rest = lines.get(first..).unwrap_or_default();
    first..first + fitting(rest.iter())
}

/// Where the stretch begins that ends where another one begins.
pub fn stretch_before(lines: &[usize], first: usize) -> usize {
    let before = lines.get(..first).unwrap_or(lines);
    before.len() - fitting(before.iter().rev())
}

/// How many of these fit, one at least where there is any.
fn fitting<'l>(lines: impl ExactSizeIterator<Item = &'l usize>) -> usize {
    let count = lines.len();
    let mut taken = 0;
    let fit = lines.take_while(|lines| {
        taken += **lines;
        taken <= LINES_AT_ONCE
    });
    fit.count().max(count.min(1))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_fits_is_shown_whole() {
        assert_eq!(stretch(&[], 5), 0..0);
        assert_eq!(stretch(&[LINES_AT_ONCE], 1), 0..1);
        assert_eq!(stretch(&[LINES_AT_ONCE / 2; 2], 1), 0..2);
        assert_eq!(stretch_before(&[], 3), 0);
    }

    #[test]
    fn one_that_is_longer_than_all_of_it_is_shown() {
        assert_eq!(stretch(&[1, LINES_AT_ONCE + 1, 1], 1), 1..2);
        assert_eq!(stretch_before(&[1, LINES_AT_ONCE + 1, 1], 2), 1);
    }

    proptest! {
        #[test]
        fn going_on_and_going_back_show_every_entry(lines in prop::collection::vec(0..250_usize, 0..200)) {
            let mut next = 0;
            let mut begins = Vec::new();
            while next < lines.len() {
                let shown = stretch(&lines, next);
                prop_assert_eq!(shown.start, next);
                prop_assert!(!shown.is_empty() && shown.end <= lines.len());
                let sum: usize = lines[shown.clone()].iter().sum();
                prop_assert!(sum <= LINES_AT_ONCE || shown.len() == 1);
                begins.push(next);
                next = shown.end;
            }
            while next > 0 {
                let before = stretch_before(&lines, next);
                prop_assert!(before < next);
                let sum: usize = lines[before..next].iter().sum();
                prop_assert!(sum <= LINES_AT_ONCE || next - before == 1);
                next = before;
            }
        }
    }
}
