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

/// For each pull the reels to set up for it. There are places for as many reels of a kind as one pull draws from
/// at most; a reel stands until its place is wanted for another, and the one gives way that is drawn from last.
pub(super) fn set_up(plan: &Plan, pulls: &[Vec<(CableId, Option<usize>)>]) -> Vec<Vec<usize>> {
    let drawn: Vec<Drawn> = pulls.iter().map(|pull| drawn(plan, pull)).collect();
    let mut standing = Drawn::new();
    let mut of_pull = |(at, now): (usize, &Drawn)| {
        let mut fresh = Vec::new();
        for (kind, reels) in now {
            let places = drawn.iter().filter_map(|of| of.get(kind)).map(Vec::len);
            let places = places.max().unwrap_or(0);
            let next = |reel: &usize| {
                let mut later = drawn.iter().skip(at + 1);
                later.position(|of| of.get(kind).is_some_and(|reels| reels.contains(reel)))
            };
            let stand = standing.entry(*kind).or_default();
            let new = reels.iter().filter(|reel| !stand.contains(reel));
            let new: Vec<usize> = new.copied().collect();
            while stand.len() + new.len() > places {
                let idle = stand.iter().filter(|reel| !reels.contains(reel));
                let gives_way = idle.max_by_key(|reel| (next(reel).unwrap_or(usize::MAX), **reel));
                let Some(gives_way) = gives_way.copied() else {
                    break;
                };
                stand.retain(|reel| *reel != gives_way);
            }
            stand.extend(&new);
            fresh.extend(new);
        }
        fresh
    };
    drawn.iter().enumerate().map(&mut of_pull).collect()
}

/// The reels of each kind that a pull draws from.
type Drawn = BTreeMap<CableKindId, Vec<usize>>;

fn drawn(plan: &Plan, pull: &[(CableId, Option<usize>)]) -> Drawn {
    let mut drawn = Drawn::new();
    for (id, reel) in pull {
        let kind = plan.cable(*id).map(|(_, cable)| cable.kind);
        if let (Some(kind), Some(reel)) = (kind, reel) {
            drawn.entry(kind).or_default().push(*reel);
        }
    }
    for reels in drawn.values_mut() {
        reels.sort_unstable();
        reels.dedup();
    }
    drawn
}
