//! The right answer for small bundles, found by trying everything, and a maker of houses.
//!
//! It shares nothing with the search. Only tests use it.

use super::{Piece, ReelPlan, ReelProblem, Stock};

/// The fewest new reels, and the longest remainder with that many; `apart` says for each cable
/// which others it must not share a reel with.
pub(super) fn best(pieces: &[Piece], apart: &[Option<u32>], stock: &Stock) -> (usize, i32) {
    (0..=pieces.len())
        .find_map(|new_reels| {
            let parts = stock.part_reels.iter().map(|part| part.0);
            let new = std::iter::repeat_n(stock.new_reel.0, new_reels);
            let mut left: Vec<i32> = parts.chain(new).collect();
            let mut groups = vec![Vec::new(); left.len()];
            let most = most_left(pieces, apart, &mut left, &mut groups)?;
            Some((new_reels, most))
        })
        .unwrap()
}

fn most_left(
    pieces: &[Piece],
    apart: &[Option<u32>],
    left: &mut [i32],
    groups: &mut [Vec<u32>],
) -> Option<i32> {
    let ([piece, pieces @ ..], [group, apart @ ..]) = (pieces, apart) else {
        return Some(left.iter().copied().max().unwrap_or(0));
    };
    let mut best = None;
    for reel in 0..left.len() {
        let twin =
            (0..reel).any(|other| left[other] == left[reel] && groups[other] == groups[reel]);
        let shared = group.is_some_and(|group| groups[reel].contains(&group));
        if twin || shared || left[reel] < piece.length.0 {
            continue;
        }
        left[reel] -= piece.length.0;
        groups[reel].extend(*group);
        best = best.max(most_left(pieces, apart, left, groups));
        left[reel] += piece.length.0;
        if group.is_some() {
            groups[reel].pop();
        }
    }
    best
}

/// The groups a plan keeps apart: all but the cables it says are measured first.
pub(super) fn kept_apart(pieces: &[Piece], plan: &ReelPlan) -> Vec<Option<u32>> {
    let mut apart: Vec<Option<u32>> = pieces.iter().map(|piece| Some(piece.group)).collect();
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
