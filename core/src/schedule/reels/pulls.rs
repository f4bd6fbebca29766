//! Trunks into pulls: cables that share a trunk are pulled together, but never more of them at once
//! than there are reels that can feed them.
//!
//! It fills no reel: which reel feeds which cable of a pull is [`assign`](super::assign)'s question.

use std::collections::BTreeMap;

use super::{Look, Piece, Stock, fewest_by_length};
use crate::units::Mm;

/// The cables of one kind in the order they are pulled.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Pulls {
    /// Each pull's cables, by their place in the list of pieces, longest first.
    pub pulls: Vec<Vec<usize>>,
    /// New reels at hand: as many as the lengths alone need, or as many as are in the van.
    pub new_reels: usize,
    /// Trunks of more cables than there are reels to feed them: the trunk, its cables, its pulls.
    pub split: Vec<(u32, usize, usize)>,
}

/// Splits trunks into pulls, the trunk with the longest cable first and the longest cables of each
/// trunk first. Cables of group 0 are pulled alone, after the trunks; so is one that no reel holds.
#[must_use]
pub fn pulls(pieces: &[Piece], stock: &Stock, look: Look) -> Pulls {
    let new_reels = fewest_by_length(pieces, stock, look).max(stock.on_hand);
    let feeding = |length: Mm| {
        let parts = stock.part_reels.iter().filter(|part| **part >= length);
        let new = if stock.new_reel >= length {
            new_reels
        } else {
            0
        };
        parts.count() + new
    };
    let mut told = Pulls {
        new_reels,
        ..Pulls::default()
    };
    for (trunk, cables) in trunks(pieces) {
        let most = if trunk.is_none() { 1 } else { cables.len() };
        let all = cables.len();
        let made = split(pieces, cables, |length| feeding(length).clamp(1, most));
        if let Some(trunk) = trunk.filter(|_| made.len() > 1) {
            told.split.push((trunk, all, made.len()));
        }
        told.pulls.extend(made);
    }
    told
}

/// Trunks by their longest cable, then the cables pulled alone; each longest first.
fn trunks(pieces: &[Piece]) -> Vec<(Option<u32>, Vec<usize>)> {
    let mut found: BTreeMap<u32, Vec<usize>> = BTreeMap::new();
    for (at, piece) in pieces.iter().enumerate() {
        found.entry(piece.group).or_default().push(at);
    }
    let mut alone = Vec::new();
    let mut trunks = Vec::new();
    for (group, mut cables) in found {
        longest_first(pieces, &mut cables);
        match (group, cables.len()) {
            (0, _) | (_, 1) => alone.extend(cables),
            _ => trunks.push((Some(group), cables)),
        }
    }
    let longest = |cables: &[usize]| cables.first().map(|at| pieces[*at].length);
    trunks.sort_by_key(|(group, cables)| (std::cmp::Reverse(longest(cables)), *group));
    longest_first(pieces, &mut alone);
    trunks.push((None, alone));
    trunks
}

fn longest_first(pieces: &[Piece], cables: &mut [usize]) {
    cables.sort_by_key(|at| (std::cmp::Reverse(pieces[*at].length), *at));
}

/// Pull after pull, each with the longest cables left that can have a reel each.
fn split(
    pieces: &[Piece],
    mut cables: Vec<usize>,
    feeding: impl Fn(Mm) -> usize,
) -> Vec<Vec<usize>> {
    let mut pulls = Vec::new();
    while !cables.is_empty() {
        let mut pull = Vec::new();
        cables.retain(|at| {
            let fed = feeding(pieces[*at].length) > pull.len();
            if fed {
                pull.push(*at);
            }
            !fed
        });
        pulls.push(pull);
    }
    pulls
}

#[cfg(test)]
mod tests {
    use super::super::assign;
    use super::*;

    fn pieces(of: &[(i32, u32)]) -> Vec<Piece> {
        let piece = |&(metres, group): &(i32, u32)| Piece {
            length: Mm(metres * 1000),
            group,
        };
        of.iter().map(piece).collect()
    }

    fn stock(parts: &[i32], on_hand: usize) -> Stock {
        Stock {
            part_reels: parts.iter().map(|metres| Mm(metres * 1000)).collect(),
            new_reel: Mm(305_000),
            on_hand,
        }
    }

    #[test]
    fn a_trunk_is_pulled_by_as_many_as_reels_feed() {
        let cables = pieces(&[(30, 7), (50, 7), (40, 7), (20, 0), (10, 3)]);
        let told = pulls(&cables, &stock(&[], 2), Look::Brief);
        // Longest first, two at a time; then what is pulled alone.
        assert_eq!(told.pulls, [vec![1, 2], vec![0], vec![3], vec![4]]);
        assert_eq!((told.new_reels, told.split), (2, vec![(7, 3, 2)]));
    }

    #[test]
    fn a_part_reel_feeds_only_what_it_holds() {
        let cables = pieces(&[(50, 7), (40, 7), (30, 7)]);
        let told = pulls(&cables, &stock(&[35], 0), Look::Brief);
        // One new reel feeds 50; 40 waits for it; the part reel feeds 30 meanwhile.
        assert_eq!(told.pulls, [vec![0, 2], vec![1]]);
    }

    #[test]
    fn nothing_at_all_is_no_pull() {
        let told = pulls(&[], &stock(&[], 0), Look::Brief);
        assert_eq!((told.pulls.len(), told.new_reels), (0, 0));
        let told = pulls(&pieces(&[(400, 1), (400, 1)]), &stock(&[], 0), Look::Brief);
        assert_eq!(told.pulls, [vec![0], vec![1]]);
    }

    #[test]
    fn pulls_fit_the_reels_without_a_surplus() {
        let cables = pieces(&[
            (60, 1),
            (55, 1),
            (52, 1),
            (51, 2),
            (48, 2),
            (90, 3),
            (20, 0),
        ]);
        for stock in [stock(&[], 0), stock(&[54, 90], 0), stock(&[10], 3)] {
            let told = pulls(&cables, &stock, Look::Brief);
            let mut grouped = Vec::new();
            for (number, pull) in told.pulls.iter().enumerate() {
                let length = |at: &usize| cables[*at].length;
                grouped.extend(pull.iter().map(|at| Piece {
                    length: length(at),
                    group: number as u32,
                }));
            }
            let plan = assign(&grouped, &stock, Look::Brief);
            let surplus = |problem: &super::super::ReelProblem| {
                matches!(problem, super::super::ReelProblem::GroupTooLarge { .. })
            };
            assert!(!plan.problems.iter().any(surplus), "{:?}", plan.problems);
        }
    }
}
