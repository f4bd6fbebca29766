//! Pull groups: which of their cables can come from different reels, and which cannot.
//!
//! It decides who is measured first; it fills no reel.

use std::collections::BTreeMap;

use super::ReelProblem;
use super::search::{Item, sort};

/// The items with only those groups left that must be kept apart.
///
/// In a group larger than the reels on hand the longest cables that can each have a reel keep
/// theirs; the others are to be measured and cut before the pull, and may share. A cable that is
/// alone in its group is kept apart from nothing.
pub(super) fn keep_apart(
    items: &[Item],
    parts: &[u64],
    new: u64,
    new_reels: usize,
    problems: &mut Vec<ReelProblem>,
) -> Vec<Item> {
    let mut apart: Vec<Item> = items.iter().map(Item::without_group).collect();
    let on_hand = |length: u64| {
        let fitting = parts.iter().filter(|part| **part >= length).count();
        fitting + if new >= length { new_reels } else { 0 }
    };
    for (group, members) in members(items) {
        let (fed, surplus) = share_out(items, &members, on_hand);
        if !surplus.is_empty() {
            let mut measured_first: Vec<usize> = surplus.iter().map(|&i| items[i].piece).collect();
            measured_first.sort_unstable();
            let (cables, reels) = (members.len(), fed.len());
            problems.push(ReelProblem::GroupTooLarge {
                group,
                cables,
                reels,
                measured_first,
            });
        }
        if fed.len() > 1 {
            fed.iter()
                .for_each(|&index| apart[index].group = Some(group));
        }
    }
    sort(&mut apart);
    apart
}

/// The items of each group, longest first.
fn members(items: &[Item]) -> BTreeMap<u32, Vec<usize>> {
    let mut members: BTreeMap<u32, Vec<usize>> = BTreeMap::new();
    for (index, item) in items.iter().enumerate() {
        if let Some(group) = item.group {
            members.entry(group).or_default().push(index);
        }
    }
    members
}

/// Those that can each have a reel, and the surplus. A reel that holds a long cable holds a shorter
/// one, so going from the longest down leaves the fewest and the shortest over.
fn share_out(
    items: &[Item],
    members: &[usize],
    on_hand: impl Fn(u64) -> usize,
) -> (Vec<usize>, Vec<usize>) {
    let mut fed = Vec::new();
    let mut surplus = Vec::new();
    for &index in members {
        let room = on_hand(items[index].length) > fed.len();
        if room {
            fed.push(index)
        } else {
            surplus.push(index)
        }
    }
    (fed, surplus)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn items(lengths: &[(u64, u32)]) -> Vec<Item> {
        let item = |(piece, (length, group)): (usize, &(u64, u32))| Item {
            piece,
            length: *length,
            group: Some(*group),
            pull: *group,
            home: None,
        };
        lengths.iter().enumerate().map(item).collect()
    }

    fn groups(items: &[Item]) -> Vec<Option<u32>> {
        items.iter().map(|item| item.group).collect()
    }

    #[test]
    fn a_group_within_the_reels_is_kept_apart() {
        let mut problems = Vec::new();
        let items = items(&[(50, 1), (40, 1), (30, 2)]);
        let apart = keep_apart(&items, &[60], 100, 1, &mut problems);
        assert_eq!(groups(&apart), [Some(1), Some(1), None]);
        assert!(problems.is_empty());
    }

    #[test]
    fn the_shortest_of_a_large_group_are_measured_first() {
        let mut problems = Vec::new();
        let items = items(&[(50, 7), (40, 7), (30, 7), (20, 7)]);
        let apart = keep_apart(&items, &[], 100, 2, &mut problems);
        assert_eq!(groups(&apart), [Some(7), Some(7), None, None]);
        let expected = ReelProblem::GroupTooLarge {
            group: 7,
            cables: 4,
            reels: 2,
            measured_first: vec![2, 3],
        };
        assert_eq!(problems, [expected]);
    }

    #[test]
    fn a_part_reel_too_short_for_a_cable_does_not_feed_it() {
        let mut problems = Vec::new();
        let items = items(&[(50, 7), (50, 7), (15, 7)]);
        let apart = keep_apart(&items, &[20], 100, 1, &mut problems);
        // Longest first; of equal ones that which may share stands first.
        assert_eq!(groups(&apart), [None, Some(7), Some(7)]);
        assert_eq!(apart[0].piece, 1);
        assert!(matches!(
            &problems[..],
            [ReelProblem::GroupTooLarge { reels: 2, .. }]
        ));
    }
}
