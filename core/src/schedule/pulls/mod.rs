//! Which cables are pulled together, and in what order: by branch of the trunk, the farthest box first, a
//! box with all its cables of every kind at once.
//!
//! Every pull starts at the closet, where the reels stand: the heads of its cables go out along the trunk
//! together, and each box's leave it where its branch begins. So the pulls of a job are judged by these
//! figures, each deciding before the next ([`PullTally`]):
//!
//! 1. boxes visited more than once, the fewest: only boxes with more cables of a kind than there are reels
//!    to draw from;
//! 2. the trunk walked, the shortest: each pull walks once every stretch that its cables take;
//! 3. pulls, the fewest;
//! 4. set-ups of reels, the fewest; then the longest piece left on a reel: see [`reels`](super::reels).
//!
//! Two bounds hold: cables of a kind in one pull come each from a reel of its own, so that the reels at
//! hand say how many go at once; and the cables of one pull share a stretch of trunk. The first three are
//! the best there are where a trunk has few boxes, and the best found where it has many; the fourth is
//! sought for the pulls that the first three gave. Reels to open come before all: how few can do is proved
//! for the lengths, and one more that the pulls ask for is told.

mod exact;
mod field;
mod group;
#[cfg(test)]
mod properties;
mod stretches;
mod tally;

use serde::{Deserialize, Serialize};

use std::collections::BTreeMap;

use super::cut_list::Cut;
use crate::plan::{CableId, CableKindId, DropId, Plan};
use crate::units::Mm;
use field::{Feed, Field, Stop};
use group::Few;

pub(super) use stretches::Stretches;
pub use tally::PullTally;

/// One pull.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Pull {
    /// Its number, from 1 in the order of pulling.
    pub number: u32,
    /// Its boxes, farthest first.
    pub drops: Vec<DropId>,
    /// Its cables, box by box.
    pub cables: Vec<CableId>,
    /// The reels it draws from, as indices into [`CutList::reels`](super::CutList::reels).
    pub reels: Vec<usize>,
    /// Those of them to set up: the pull of that kind of cable before it did not draw from them.
    pub set_up: Vec<usize>,
    /// The trunk walked for it.
    pub walked: Mm,
}

/// The reels of a kind of cable that one pull can draw from.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct AtHand {
    /// Part reels.
    pub part_reels: Vec<Mm>,
    /// Length of a new reel.
    pub new_reel: Mm,
    /// New reels.
    pub new_reels: usize,
}

/// A box, or one of several shares of one, with its cables as places among the cuts.
struct Share {
    drop: DropId,
    cuts: Vec<usize>,
}

/// The pulls of some cuts, each as places among them, in the order of pulling.
pub(super) fn group(
    stretches: &Stretches,
    cuts: &[Cut],
    at_hand: &BTreeMap<CableKindId, AtHand>,
) -> Vec<Vec<usize>> {
    let kinds: Vec<CableKindId> = at_hand.keys().copied().collect();
    let field = Field {
        lengths: stretches.lengths.clone(),
        feeds: at_hand.values().map(feed).collect(),
    };
    let kind_of = |cut: &Cut| kinds.iter().position(|kind| *kind == cut.kind).unwrap_or(0);
    let shares = shares(cuts, |cut| &field.feeds[kind_of(cut)]);
    let stop = |share: &Share| {
        let of_share = || share.cuts.iter().filter_map(|at| cuts.get(*at));
        Stop {
            far: of_share()
                .map(|cut| millimetres(cut.path))
                .max()
                .unwrap_or(0),
            stretches: stretches.of_cables(of_share().map(|cut| cut.cable)),
            cables: of_share()
                .map(|cut| (kind_of(cut), millimetres(cut.length)))
                .collect(),
        }
    };
    let stops: Vec<Stop> = shares.iter().map(stop).collect();
    let grouped = group::group(&field, &stops, Few::USUAL);
    let of_pull = |pull: Vec<usize>| -> Vec<usize> {
        pull.iter()
            .flat_map(|stop| shares[*stop].cuts.clone())
            .collect()
    };
    grouped.into_iter().map(of_pull).collect()
}

/// The boxes in the order of their identity, those with more cables of a kind than reels can feed in as
/// few shares as that takes.
fn shares<'f>(cuts: &[Cut], feed: impl Fn(&Cut) -> &'f Feed) -> Vec<Share> {
    let mut boxes: BTreeMap<DropId, BTreeMap<CableKindId, Vec<usize>>> = BTreeMap::new();
    for (place, cut) in cuts.iter().enumerate() {
        boxes
            .entry(cut.drop)
            .or_default()
            .entry(cut.kind)
            .or_default()
            .push(place);
    }
    let mut shares = Vec::new();
    for (drop, kinds) in boxes {
        let mut of_box: Vec<Vec<usize>> = Vec::new();
        for cables in kinds.into_values() {
            for (place, fed) in fed(cuts, cables, &feed).into_iter().enumerate() {
                match of_box.get_mut(place) {
                    Some(share) => share.extend(fed),
                    None => of_box.push(fed),
                }
            }
        }
        for mut share in of_box {
            share.sort_unstable_by_key(|at| cuts[*at].cable);
            shares.push(Share { drop, cuts: share });
        }
    }
    shares.sort_by_key(|share| share.drop);
    shares
}

/// Cables of one kind in as few shares as reels can feed, each with the longest that are left.
fn fed<'f>(
    cuts: &[Cut],
    mut cables: Vec<usize>,
    feed: impl Fn(&Cut) -> &'f Feed,
) -> Vec<Vec<usize>> {
    cables.sort_by_key(|at| (std::cmp::Reverse(cuts[*at].length), cuts[*at].cable));
    let mut shares = Vec::new();
    while let Some(first) = cables.first().copied() {
        let feed = feed(&cuts[first]);
        let mut share: Vec<usize> = Vec::new();
        cables.retain(|at| {
            let with = share
                .iter()
                .chain([at])
                .map(|at| millimetres(cuts[*at].length));
            let takes = feed.feeds(&mut with.collect::<Vec<u64>>());
            if takes {
                share.push(*at);
            }
            !takes
        });
        shares.push(share);
    }
    shares
}

fn feed(at_hand: &AtHand) -> Feed {
    Feed {
        parts: at_hand
            .part_reels
            .iter()
            .map(|part| millimetres(*part))
            .collect(),
        new_reel: millimetres(at_hand.new_reel),
        at_hand: at_hand.new_reels,
    }
}

fn millimetres(length: Mm) -> u64 {
    u64::try_from(length.0).unwrap_or(0)
}

/// The pulls of cuts that have their numbers and their reels, in the order of pulling.
pub(super) fn told(plan: &Plan, stretches: &Stretches, cuts: &[Cut]) -> Vec<Pull> {
    let pulls: Vec<&[Cut]> = cuts.chunk_by(|a, b| a.pull == b.pull).collect();
    let drawn: Vec<_> = pulls.iter().map(|pull| drawn(pull)).collect();
    let set_up = tally::set_up(plan, &drawn);
    let one = |(cuts, set_up): (&[Cut], Vec<usize>)| {
        let mut drops: Vec<DropId> = cuts.iter().map(|cut| cut.drop).collect();
        drops.dedup();
        let mut reels: Vec<usize> = cuts.iter().filter_map(|cut| cut.reel).collect();
        reels.sort_unstable();
        reels.dedup();
        let cables = cuts.iter().map(|cut| cut.cable);
        let walked = stretches.length(&stretches.of_cables(cables.clone()));
        Pull {
            number: cuts.first().map_or(0, |cut| cut.pull),
            drops,
            cables: cables.collect(),
            reels,
            set_up,
            walked: Mm(i32::try_from(walked).unwrap_or(i32::MAX)),
        }
    };
    pulls.into_iter().zip(set_up).map(one).collect()
}

/// The cables of a pull with their reels.
fn drawn(pull: &[Cut]) -> Vec<(CableId, Option<usize>)> {
    pull.iter().map(|cut| (cut.cable, cut.reel)).collect()
}
