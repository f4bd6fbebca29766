//! From the bound upward, the first number of new reels that holds every cable; then, with that
//! many, the longest piece left over.
//!
//! Longest-first best fit answers most houses at once; `fill` looks further only where it falls
//! short of the bound. Steps are counted, never time.

use super::bound;
use super::fill::{Filling, Outcome, Steps};

/// A first look at each number of reels: enough for nearly every house.
const QUICK: Steps = Steps {
    a_reel: 300,
    all: 6_000,
};

/// How long to look before a number of reels is left undecided. Steps are counted, never time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// While a hand drags something: a part of one frame.
    Glance,
    /// While a hand works on the plan: a few milliseconds at most for a house.
    Brief,
    /// For paper: up to a second where the lengths leave almost no waste.
    Long,
}

impl Look {
    fn steps(self) -> Steps {
        match self {
            Self::Glance => QUICK,
            Self::Brief => Steps {
                a_reel: 5_000,
                all: 150_000,
            },
            Self::Long => Steps {
                a_reel: 20_000,
                all: 12_000_000,
            },
        }
    }

    /// Spent in all on a longer remainder; at a glance none is sought.
    fn left(self) -> Option<Steps> {
        let all = match self {
            Self::Glance => return None,
            Self::Brief => 3_000,
            Self::Long => 30_000,
        };
        Some(Steps { a_reel: 1_000, all })
    }
}

/// One cable as the search sees it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Item {
    /// Place in the list of pieces.
    pub(super) piece: usize,
    /// Length, mm.
    pub(super) length: u64,
    /// No two with one number on one reel.
    pub(super) group: Option<u32>,
    /// The pull it goes with; pulls are made in the order of their numbers.
    pub(super) pull: u32,
    /// For a cable longer than a new reel: a part reel that has room for it.
    pub(super) home: Option<usize>,
}

impl Item {
    pub(super) fn without_group(&self) -> Self {
        Self {
            group: None,
            ..*self
        }
    }
}

/// The cables some reel holds, longest first, and those that none does.
#[derive(Clone, Debug, Default)]
pub(super) struct Holdable {
    pub(super) held: Vec<Item>,
    pub(super) too_long: Vec<usize>,
}

/// A full assignment: the reel of each item, part reels first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Found {
    pub(super) reel_of: Vec<usize>,
    pub(super) new_reels: usize,
    pub(super) fewest_possible: usize,
}

/// Longest first; equal lengths by group, so that cables that may stand for one another meet.
pub(super) fn sort(items: &mut [Item]) {
    items.sort_by_key(|item| (std::cmp::Reverse(item.length), item.group, item.piece));
}

/// Gives every cable longer than a new reel a home on a part reel, or sets it aside.
pub(super) fn holdable(items: Vec<Item>, parts: &[u64], new: u64) -> Holdable {
    let mut holdable = Holdable::default();
    let mut reels = Reels::new(parts);
    for mut item in items {
        if item.length > new {
            match reels.tightest(&item) {
                Some(home) => item.home = Some(home),
                None => {
                    holdable.too_long.push(item.piece);
                    continue;
                }
            }
            reels.put(&item, item.home.unwrap_or(0));
        }
        holdable.held.push(item);
    }
    sort(&mut holdable.held);
    holdable
}

/// The fewest new reels found to hold all items, at least `at_least`, and how few could do.
pub(super) fn fewest_new(
    items: &[Item],
    parts: &[u64],
    new: u64,
    at_least: usize,
    look: Look,
) -> Found {
    // Most houses need no more proof than that all reels but the last are full.
    let full = bound::fewest_if_full(items, parts, new).max(at_least);
    if let Some(reel_of) = best_fit(items, &reels(parts, new, full)) {
        return Found {
            reel_of,
            new_reels: full,
            fewest_possible: full,
        };
    }
    let bound = bound::fewest(items, parts, new).max(at_least);
    let (reel_of, new_reels) = first_fitting(items, parts, new, bound);
    let mut best = Found {
        reel_of,
        new_reels,
        fewest_possible: bound,
    };
    for fewer in bound..new_reels {
        let reels = reels(parts, new, fewer);
        match fit_all(&mut Filling::new(items, &reels, parts.len()), look) {
            Outcome::Found(reel_of) => {
                return Found {
                    reel_of,
                    new_reels: fewer,
                    ..best
                };
            }
            Outcome::Impossible => best.fewest_possible = best.fewest_possible.max(fewer + 1),
            Outcome::GivenUp => {}
        }
    }
    best
}

fn fit_all(filling: &mut Filling<'_>, look: Look) -> Outcome {
    match filling.fit_all(QUICK) {
        Outcome::GivenUp if look != Look::Glance => filling.fit_all(look.steps()),
        decided => decided,
    }
}

/// The same number of new reels, with as long a piece left on one reel as the steps allow; at a glance
/// as it comes.
pub(super) fn most_left(
    items: &[Item],
    parts: &[u64],
    new: u64,
    found: Found,
    look: Look,
) -> Found {
    let Some(mut steps) = look.left() else {
        return found;
    };
    let reels = reels(parts, new, found.new_reels);
    let mut best = found;
    let mut most = largest_left(items, &reels, &best.reel_of);
    for keep in kept_reels(&reels) {
        let mut filling = Filling::new(items, &reels, parts.len()).keeping(keep);
        while let Outcome::Found(reel_of) = filling.leave_more_than(most, &mut steps) {
            most = largest_left(items, &reels, &reel_of);
            best.reel_of = reel_of;
        }
    }
    best
}

/// One reel of each length, longest first; of equal ones the last, so that part reels are used up.
fn kept_reels(reels: &[u64]) -> Vec<usize> {
    let mut kept: Vec<usize> = (0..reels.len()).collect();
    kept.sort_by_key(|&reel| std::cmp::Reverse((reels[reel], reel)));
    kept.dedup_by_key(|reel| reels[*reel]);
    kept
}

pub(super) fn largest_left(items: &[Item], reels: &[u64], reel_of: &[usize]) -> u64 {
    let mut left = reels.to_vec();
    for (item, &reel) in items.iter().zip(reel_of) {
        left[reel] = left[reel].saturating_sub(item.length);
    }
    left.into_iter().max().unwrap_or(0)
}

pub(super) fn reels(parts: &[u64], new: u64, new_reels: usize) -> Vec<u64> {
    parts
        .iter()
        .copied()
        .chain(std::iter::repeat_n(new, new_reels))
        .collect()
}

/// Best fit with more and more new reels, until all fit: with one a cable they always do.
fn first_fitting(items: &[Item], parts: &[u64], new: u64, from: usize) -> (Vec<usize>, usize) {
    let mut new_reels = from;
    loop {
        if let Some(reel_of) = best_fit(items, &reels(parts, new, new_reels)) {
            return (reel_of, new_reels);
        }
        new_reels += 1;
    }
}

/// Longest first, each on the reel it fills most.
fn best_fit(items: &[Item], reels: &[u64]) -> Option<Vec<usize>> {
    let mut reels = Reels::new(reels);
    let mut reel_of = Vec::with_capacity(items.len());
    for item in items {
        let reel = item.home.or_else(|| reels.tightest(item))?;
        reels.put(item, reel);
        reel_of.push(reel);
    }
    Some(reel_of)
}

/// What is left on each reel, and which groups are on it.
struct Reels {
    left: Vec<u64>,
    groups: Vec<Vec<u32>>,
}

impl Reels {
    fn new(lengths: &[u64]) -> Self {
        Self {
            left: lengths.to_vec(),
            groups: vec![Vec::new(); lengths.len()],
        }
    }

    fn tightest(&self, item: &Item) -> Option<usize> {
        let free = |reel: &usize| {
            let apart = item
                .group
                .is_none_or(|group| !self.groups[*reel].contains(&group));
            self.left[*reel] >= item.length && apart
        };
        (0..self.left.len())
            .filter(free)
            .min_by_key(|&reel| self.left[reel])
    }

    fn put(&mut self, item: &Item, reel: usize) {
        self.left[reel] -= item.length;
        self.groups[reel].extend(item.group);
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
        let mut items: Vec<Item> = lengths.iter().enumerate().map(item).collect();
        sort(&mut items);
        items
    }

    #[test]
    fn best_fit_alone_would_open_one_more() {
        // Longest first puts 58 with 31; but 58, 20, 19 and 50, 31, 17 fill two reels.
        let items = items(&[58, 50, 31, 20, 19, 17]);
        let (_, first) = first_fitting(&items, &[], 100, 2);
        let found = fewest_new(&items, &[], 100, 0, Look::Long);
        assert_eq!((first, found.new_reels, found.fewest_possible), (3, 2, 2));
    }

    #[test]
    fn a_number_that_cannot_do_is_proved_so() {
        // 288 of 300. Of seven cables one reel takes three: 32, 37 and at least 37 more are 106.
        let found = fewest_new(
            &items(&[51, 47, 44, 40, 37, 37, 32]),
            &[],
            100,
            0,
            Look::Long,
        );
        assert_eq!((found.new_reels, found.fewest_possible), (4, 4));
    }

    #[test]
    fn one_reel_keeps_the_longest_piece() {
        let items = items(&[50, 40, 30, 20, 10]);
        let found = fewest_new(&items, &[], 100, 0, Look::Long);
        let found = most_left(&items, &[], 100, found, Look::Long);
        assert_eq!(largest_left(&items, &[100, 100], &found.reel_of), 50);
    }
}
