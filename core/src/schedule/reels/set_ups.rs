//! With the fewest new reels, how the reels are shared out so that they stand where they are from pull
//! to pull: fewest set-ups, then the longest piece left over.
//!
//! A set-up is a reel that a pull draws from and the pull of this kind of cable before it did not: it is
//! brought to its stand, and its end made ready. It opens no reel and takes no cable off the reels.

use std::cmp::Reverse;

use super::search::{Found, Item, Look, largest_left};

/// Lists of more cables are taken as they come: no house has as many.
const MOST_ITEMS: usize = 400;

/// How good an assignment is, less being better: set-ups, then the longest piece left.
type Score = (usize, Reverse<u64>);

impl Look {
    /// Exchanges and steps spent on fewer set-ups; none at a glance.
    fn on_set_ups(self) -> (u64, u64) {
        match self {
            Self::Glance => (0, 0),
            Self::Brief => (150, 2_000),
            Self::Long => (20_000, 400_000),
        }
    }
}

/// The same number of new reels with fewer set-ups or a longer piece left, where the steps find that.
/// `candidates` all hold every item; the best of them is where the search begins.
pub(super) fn fewest(items: &[Item], reels: &[u64], candidates: [Found; 2], look: Look) -> Found {
    let order = in_pull_order(items);
    let score = |reel_of: &[usize]| scored(items, &order, reels, reel_of);
    let [first, second] = candidates;
    let mut best = match score(&second.reel_of) < score(&first.reel_of) {
        true => second,
        false => first,
    };
    let (mut exchanges, steps) = look.on_set_ups();
    if items.len() > MOST_ITEMS || steps == 0 {
        return best;
    }
    exchange(items, &order, reels, &mut best.reel_of, &mut exchanges);
    let mut search = Search::new(items, &order, reels, &best.reel_of, steps);
    search.place(0);
    best.reel_of = search.best_of;
    best
}

/// How many set-ups an assignment takes.
pub(super) fn count(items: &[Item], reel_of: &[usize]) -> usize {
    counted(items, &in_pull_order(items), reel_of)
}

/// Items pull after pull; within one those kept apart first, then the longest first.
fn in_pull_order(items: &[Item]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..items.len()).collect();
    let key = |&at: &usize| {
        let item = &items[at];
        (
            item.pull,
            item.group.is_none(),
            Reverse(item.length),
            item.piece,
        )
    };
    order.sort_by_key(key);
    order
}

fn scored(items: &[Item], order: &[usize], reels: &[u64], reel_of: &[usize]) -> Score {
    let left = largest_left(items, reels, reel_of);
    (counted(items, order, reel_of), Reverse(left))
}

fn counted(items: &[Item], order: &[usize], reel_of: &[usize]) -> usize {
    let mut before: Vec<usize> = Vec::new();
    let mut count = 0;
    for pull in order.chunk_by(|a, b| items[*a].pull == items[*b].pull) {
        let mut reels: Vec<usize> = pull.iter().map(|item| reel_of[*item]).collect();
        reels.sort_unstable();
        reels.dedup();
        count += reels.iter().filter(|reel| !before.contains(reel)).count();
        before = reels;
    }
    count
}

/// Gives cables of two reels to one another, and cables of one reel to another, as long as that is better.
fn exchange(
    items: &[Item],
    order: &[usize],
    reels: &[u64],
    reel_of: &mut [usize],
    steps: &mut u64,
) {
    let mut best = scored(items, order, reels, reel_of);
    let mut better = true;
    while better {
        better = false;
        for one in 0..items.len() {
            for other in 0..items.len() + reels.len() {
                if *steps == 0 {
                    return;
                }
                *steps -= 1;
                let before = (reel_of[one], other.checked_sub(items.len()));
                let (mine, theirs) = (before.0, before.1.unwrap_or_else(|| reel_of[other]));
                if mine == theirs {
                    continue;
                }
                reel_of[one] = theirs;
                if before.1.is_none() {
                    reel_of[other] = mine;
                }
                let found = scored(items, order, reels, reel_of);
                if found < best && is_lawful(items, reels, reel_of, [mine, theirs]) {
                    best = found;
                    better = true;
                    continue;
                }
                reel_of[one] = mine;
                if before.1.is_none() {
                    reel_of[other] = theirs;
                }
            }
        }
    }
}

/// Whether two reels hold what they were given, and none of it is to be kept apart.
fn is_lawful(items: &[Item], reels: &[u64], reel_of: &[usize], those: [usize; 2]) -> bool {
    those.iter().all(|&reel| {
        let on_it = || {
            items
                .iter()
                .zip(reel_of)
                .filter(move |(_, of)| **of == reel)
        };
        let length: u64 = on_it().map(|(item, _)| item.length).sum();
        let mut groups: Vec<u32> = on_it().filter_map(|(item, _)| item.group).collect();
        let count = groups.len();
        groups.sort_unstable();
        groups.dedup();
        let at_home = |(item, of): (&Item, &usize)| item.home.is_none_or(|home| home == *of);
        length <= reels[reel] && groups.len() == count && on_it().all(at_home)
    })
}

/// Every way to share out the reels pull after pull, those that stand there first; what cannot be better
/// than the best so far is not looked at.
struct Search<'a> {
    items: &'a [Item],
    order: &'a [usize],
    left: Vec<u64>,
    reel_of: Vec<usize>,
    /// Reels of the pull before, and of this one so far.
    before: Vec<bool>,
    now: Vec<bool>,
    set_ups: usize,
    /// From each place of the order on, set-ups that the pulls that begin there or later need at least.
    still: Vec<usize>,
    best: Score,
    best_of: Vec<usize>,
    steps: u64,
}

impl<'a> Search<'a> {
    fn new(
        items: &'a [Item],
        order: &'a [usize],
        reels: &[u64],
        found: &[usize],
        steps: u64,
    ) -> Self {
        Self {
            items,
            order,
            left: reels.to_vec(),
            reel_of: found.to_vec(),
            before: vec![false; reels.len()],
            now: vec![false; reels.len()],
            set_ups: 0,
            still: still(items, order),
            best: scored(items, order, reels, found),
            best_of: found.to_vec(),
            steps,
        }
    }

    fn place(&mut self, at: usize) {
        if self.steps == 0 || !self.may_be_better(at) {
            return;
        }
        self.steps -= 1;
        let Some(&next) = self.order.get(at) else {
            self.best = (self.set_ups, Reverse(self.most_left()));
            self.best_of.clone_from(&self.reel_of);
            return;
        };
        let begins = at == 0 || self.items[self.order[at - 1]].pull != self.items[next].pull;
        let kept = begins.then(|| self.begin_pull());
        for reel in self.reels_for(next) {
            self.put(next, reel, at);
        }
        if let Some((before, now)) = kept {
            (self.before, self.now) = (before, now);
        }
    }

    fn put(&mut self, item: usize, reel: usize, at: usize) {
        let length = self.items[item].length;
        let (was_now, is_new) = (self.now[reel], !self.before[reel] && !self.now[reel]);
        self.left[reel] -= length;
        self.now[reel] = true;
        self.set_ups += usize::from(is_new);
        self.reel_of[item] = reel;
        self.place(at + 1);
        self.set_ups -= usize::from(is_new);
        self.now[reel] = was_now;
        self.left[reel] += length;
    }

    /// Turns to the next pull; gives what to turn back to.
    fn begin_pull(&mut self) -> (Vec<bool>, Vec<bool>) {
        let fresh = vec![false; self.now.len()];
        let now = std::mem::replace(&mut self.now, fresh);
        let before = std::mem::replace(&mut self.before, now.clone());
        (before, now)
    }

    fn may_be_better(&self, at: usize) -> bool {
        let least = self.set_ups + self.still.get(at).copied().unwrap_or(0);
        (least, Reverse(self.most_left())) < self.best
    }

    fn most_left(&self) -> u64 {
        self.left.iter().copied().max().unwrap_or(0)
    }

    /// Reels that may feed an item: those that stand there, then the fullest fit; of reels that are alike
    /// the first.
    fn reels_for(&self, item: usize) -> Vec<usize> {
        let item = &self.items[item];
        let alike = |a: usize, b: usize| {
            let key = |reel: usize| (self.left[reel], self.before[reel], self.now[reel]);
            key(a) == key(b)
        };
        let fits = |reel: &usize| {
            let at_home = item.home.is_none_or(|home| home == *reel);
            let is_apart = item.group.is_none() || !self.now[*reel];
            let has_twin = item.home.is_none() && (0..*reel).any(|other| alike(other, *reel));
            self.left[*reel] >= item.length && at_home && is_apart && !has_twin
        };
        let mut reels: Vec<usize> = (0..self.left.len()).filter(fits).collect();
        reels.sort_by_key(|&reel| (!self.before[reel] && !self.now[reel], self.left[reel]));
        reels
    }
}

/// For each place of the order, and for its end, the set-ups that the pulls that begin there or later need
/// at least: a pull that draws from more reels than the one before can, sets up the difference.
fn still(items: &[Item], order: &[usize]) -> Vec<usize> {
    let mut still = vec![0; order.len() + 1];
    let mut pulls: Vec<(usize, usize, usize)> = Vec::new();
    let mut first = 0;
    for pull in order.chunk_by(|a, b| items[*a].pull == items[*b].pull) {
        let apart = pull.iter().filter(|item| items[**item].group.is_some());
        pulls.push((first, apart.count().max(1), pull.len()));
        first += pull.len();
    }
    let mut sum = 0;
    for place in (0..pulls.len()).rev() {
        let (first, least, count) = pulls[place];
        still[first + 1..first + count].fill(sum);
        let most_before = if place == 0 { 0 } else { pulls[place - 1].2 };
        sum += least.saturating_sub(most_before);
        still[first] = sum;
    }
    still
}

#[cfg(test)]
mod tests {
    use super::super::search::sort;
    use super::*;

    fn items(of: &[(u64, u32)]) -> Vec<Item> {
        let item = |(piece, (length, pull)): (usize, &(u64, u32))| Item {
            piece,
            length: *length,
            group: Some(*pull),
            pull: *pull,
            home: None,
        };
        let mut items: Vec<Item> = of.iter().enumerate().map(item).collect();
        sort(&mut items);
        items
    }

    fn found(items: &[Item], reels: &[usize]) -> Found {
        Found {
            reel_of: items.iter().map(|item| reels[item.piece]).collect(),
            new_reels: 3,
            fewest_possible: 3,
        }
    }

    #[test]
    fn a_reel_that_stands_there_is_not_set_up_again() {
        let items = items(&[(10, 1), (10, 1), (9, 2), (9, 2), (8, 3)]);
        let same = found(&items, &[0, 1, 1, 0, 0]);
        assert_eq!(count(&items, &same.reel_of), 2);
        let other = found(&items, &[0, 1, 1, 2, 0]);
        // Two; then the third; then the first again, which the second pull left.
        assert_eq!(count(&items, &other.reel_of), 4);
    }

    #[test]
    fn pulls_are_given_the_reels_of_the_pull_before() {
        let items = items(&[(30, 1), (30, 1), (30, 2), (30, 2), (30, 3), (30, 3)]);
        let scattered = found(&items, &[0, 1, 1, 2, 2, 0]);
        let better = fewest(
            &items,
            &[100, 100, 100],
            [scattered.clone(), scattered],
            Look::Long,
        );
        assert_eq!(count(&items, &better.reel_of), 2);
        assert_eq!(largest_left(&items, &[100, 100, 100], &better.reel_of), 100);
    }

    #[test]
    fn a_reel_that_is_too_short_for_the_next_pull_makes_room() {
        // Both reels of 60 are done after the first pull, so two more are set up.
        let items = items(&[(50, 1), (50, 1), (40, 2), (40, 2)]);
        let first = found(&items, &[0, 1, 2, 3]);
        let reels = [60, 60, 60, 60];
        let better = fewest(&items, &reels, [first.clone(), first], Look::Long);
        assert_eq!(count(&items, &better.reel_of), 4);
    }
}
