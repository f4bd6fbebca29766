//! The right answer for small bundles, found by trying everything, and a maker of houses.
//!
//! It shares nothing with the search. Only tests use it.

use super::{Piece, ReelPlan, ReelProblem, Stock};

/// The fewest new reels, the fewest set-ups with those, and the longest remainder with both; `apart` says
/// for each cable which others it must not share a reel with.
pub(super) fn best(pieces: &[Piece], apart: &[Option<u32>], stock: &Stock) -> (usize, usize, i32) {
    (0..=pieces.len())
        .find_map(|new_reels| {
            let parts = stock.part_reels.iter().map(|part| part.0);
            let new = std::iter::repeat_n(stock.new_reel.0, new_reels);
            let mut trial = Trial {
                left: parts.chain(new).collect(),
                pulls: vec![Vec::new(); stock.part_reels.len() + new_reels],
                groups: vec![Vec::new(); stock.part_reels.len() + new_reels],
            };
            let (set_ups, std::cmp::Reverse(left)) = trial.best(pieces, apart)?;
            Some((new_reels, set_ups, left))
        })
        .unwrap()
}

/// What is left on each reel, which pulls draw from it, and which groups it feeds.
struct Trial {
    left: Vec<i32>,
    pulls: Vec<Vec<u32>>,
    groups: Vec<Vec<u32>>,
}

impl Trial {
    fn best(
        &mut self,
        pieces: &[Piece],
        apart: &[Option<u32>],
    ) -> Option<(usize, std::cmp::Reverse<i32>)> {
        let ([piece, pieces @ ..], [group, apart @ ..]) = (pieces, apart) else {
            let most = self.left.iter().copied().max().unwrap_or(0);
            return Some((set_ups(&self.pulls), std::cmp::Reverse(most)));
        };
        let mut best = None;
        for reel in 0..self.left.len() {
            let key = |at: usize| (self.left[at], &self.pulls[at], &self.groups[at]);
            let twin = (0..reel).any(|other| key(other) == key(reel));
            let shared = group.is_some_and(|group| self.groups[reel].contains(&group));
            if twin || shared || self.left[reel] < piece.length.0 {
                continue;
            }
            self.left[reel] -= piece.length.0;
            self.pulls[reel].push(piece.pull);
            self.groups[reel].extend(*group);
            let found = self.best(pieces, apart);
            best = best.into_iter().chain(found).min();
            self.left[reel] += piece.length.0;
            self.pulls[reel].pop();
            if group.is_some() {
                self.groups[reel].pop();
            }
        }
        best
    }
}

/// For each pull the reels it draws from that the pull before it did not.
pub(super) fn set_ups(pulls: &[Vec<u32>]) -> usize {
    let mut numbers: Vec<u32> = pulls.iter().flatten().copied().collect();
    numbers.sort_unstable();
    numbers.dedup();
    let draws = |reel: &Vec<u32>, pull: &u32| reel.contains(pull);
    let of_pull = |(at, pull): (usize, &u32)| {
        let before = at.checked_sub(1).map(|at| numbers[at]);
        let fresh = |reel: &&Vec<u32>| {
            draws(reel, pull) && !before.is_some_and(|before| draws(reel, &before))
        };
        pulls.iter().filter(fresh).count()
    };
    numbers.iter().enumerate().map(of_pull).sum()
}

/// The groups a plan keeps apart: all but the cables it says are measured first.
pub(super) fn kept_apart(pieces: &[Piece], plan: &ReelPlan) -> Vec<Option<u32>> {
    let mut apart: Vec<Option<u32>> = pieces.iter().map(|piece| Some(piece.pull)).collect();
    for problem in &plan.problems {
        if let ReelProblem::GroupTooLarge { measured_first, .. } = problem {
            measured_first.iter().for_each(|&piece| apart[piece] = None);
        }
    }
    apart
}

/// What is wrong with a plan, whatever it was made for; nothing if all is well.
pub(super) fn fault(pieces: &[Piece], stock: &Stock, plan: &ReelPlan) -> Option<String> {
    let mut seen = vec![0; pieces.len()];
    let apart = kept_apart(pieces, plan);
    for (index, reel) in plan.reels.iter().enumerate() {
        let cut: i32 = reel
            .pieces
            .iter()
            .map(|&piece| pieces[piece].length.0.max(0))
            .sum();
        let whole = reel
            .part
            .map_or(stock.new_reel, |part| stock.part_reels[part]);
        if reel.length != whole || reel.remainder.0 + cut != whole.0 || reel.remainder.0 < 0 {
            return Some(format!("reel {index} does not add up"));
        }
        if !reel.pieces.is_sorted() {
            return Some(format!("reel {index} is not in pull order"));
        }
        let mut groups: Vec<u32> = reel
            .pieces
            .iter()
            .filter_map(|&piece| apart[piece])
            .collect();
        let count = groups.len();
        groups.sort_unstable();
        groups.dedup();
        if groups.len() != count {
            return Some(format!("reel {index} feeds two cables of one group"));
        }
        reel.pieces.iter().for_each(|&piece| seen[piece] += 1);
    }
    for problem in &plan.problems {
        if let ReelProblem::TooLong { piece, .. } = problem {
            seen[*piece] += 1;
        }
    }
    let lost = seen.iter().position(|count| *count != 1);
    lost.map(|piece| format!("cable {piece} stands {} times", seen[piece]))
}
