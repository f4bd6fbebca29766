//! What some pulls take, whoever made them: what the grouping is judged by.

use std::collections::BTreeMap;

use super::stretches::Stretches;
use crate::plan::{CableId, CableKindId, DropId, Plan};
use crate::route::Ways;
use crate::units::Mm;

/// What pulls take, in the order in which it counts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct PullTally {
    /// Boxes visited by more than one pull.
    pub visited_again: usize,
    /// Trunk walked: each pull walks once every stretch its cables take, as far as other boxes' cables
    /// take it too. What leads to one box alone is walked once anyway.
    pub walked: Mm,
    /// Pulls.
    pub pulls: usize,
    /// Set-ups: reels that a pull draws from and the pull of that kind of cable before it did not.
    pub set_ups: usize,
}

impl PullTally {
    /// Counts pulls in their order, each cable with the reel it comes from, if one holds it.
    #[must_use]
    pub fn of(plan: &Plan, ways: &Ways, pulls: &[Vec<(CableId, Option<usize>)>]) -> Self {
        let stretches = Stretches::of(ways);
        let walked: u64 = pulls
            .iter()
            .map(|pull| stretches.length(&stretches.of_cables(pull.iter().map(|(id, _)| *id))))
            .sum();
        Self {
            visited_again: visited_again(plan, pulls),
            walked: Mm(i32::try_from(walked).unwrap_or(i32::MAX)),
            pulls: pulls.len(),
            set_ups: set_up(plan, pulls).iter().map(Vec::len).sum(),
        }
    }
}

fn visited_again(plan: &Plan, pulls: &[Vec<(CableId, Option<usize>)>]) -> usize {
    let mut visits: BTreeMap<DropId, usize> = BTreeMap::new();
    for pull in pulls {
        let drops = pull.iter().filter_map(|(id, _)| plan.cable(*id));
        let mut drops: Vec<DropId> = drops.map(|(drop, _)| drop.id).collect();
        drops.sort_unstable();
        drops.dedup();
        for drop in drops {
            *visits.entry(drop).or_default() += 1;
        }
    }
    visits.values().filter(|visits| **visits > 1).count()
}

/// For each pull the reels to set up for it.
pub(super) fn set_up(plan: &Plan, pulls: &[Vec<(CableId, Option<usize>)>]) -> Vec<Vec<usize>> {
    let mut standing: BTreeMap<CableKindId, Vec<usize>> = BTreeMap::new();
    let of_pull = |pull: &Vec<(CableId, Option<usize>)>| {
        let mut drawn: BTreeMap<CableKindId, Vec<usize>> = BTreeMap::new();
        for (id, reel) in pull {
            let kind = plan.cable(*id).map(|(_, cable)| cable.kind);
            if let (Some(kind), Some(reel)) = (kind, reel) {
                drawn.entry(kind).or_default().push(*reel);
            }
        }
        let mut fresh = Vec::new();
        for (kind, mut reels) in drawn {
            reels.sort_unstable();
            reels.dedup();
            let before = standing.insert(kind, reels.clone()).unwrap_or_default();
            fresh.extend(reels.into_iter().filter(|reel| !before.contains(reel)));
        }
        fresh
    };
    pulls.iter().map(of_pull).collect()
}
