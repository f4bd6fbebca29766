//! The trunk in stretches: every move outside a bay that the cables of two or more boxes take.
//!
//! Two cables share a stretch where they go between the same two places, whichever way round.

use std::collections::{BTreeMap, BTreeSet};

use crate::plan::{CableId, DropId};
use crate::route::{Move, MoveKind, Place3, Way, Ways};

/// A place in whole millimetres.
type Spot = (i64, i64, i64);

/// The stretches of trunk of a plan.
#[derive(Clone, Debug, Default, PartialEq)]
pub(in crate::schedule) struct Stretches {
    /// Length of each, millimetres.
    pub lengths: Vec<u64>,
    of_cable: BTreeMap<CableId, Vec<usize>>,
}

impl Stretches {
    /// The stretches that cables with a way share.
    pub fn of(ways: &Ways) -> Self {
        let mut found: BTreeMap<(Spot, Spot), (u64, BTreeSet<DropId>)> = BTreeMap::new();
        let led = || ways.ways.iter().filter(|way| way.trouble.is_none());
        for (way, step) in led().flat_map(|way| walked(way).map(move |step| (way, step))) {
            let length = step.length.round().max(0.0) as u64;
            let (_, drops) = found.entry(ends(step)).or_insert((length, BTreeSet::new()));
            drops.insert(way.drop);
        }
        found.retain(|_, (_, drops)| drops.len() > 1);
        let place: BTreeMap<(Spot, Spot), usize> = found.keys().copied().zip(0..).collect();
        let of_way = |way: &Way| {
            let shared = walked(way).filter_map(|step| place.get(&ends(step)).copied());
            let shared: BTreeSet<usize> = shared.collect();
            (way.cable, shared.into_iter().collect())
        };
        Self {
            lengths: found.values().map(|(length, _)| *length).collect(),
            of_cable: led().map(of_way).collect(),
        }
    }

    /// The stretches that a cable takes, each once, rising.
    pub fn of_cable(&self, cable: CableId) -> &[usize] {
        self.of_cable.get(&cable).map_or(&[], Vec::as_slice)
    }

    /// The stretches that some cables take together, each once, rising.
    pub fn of_cables(&self, cables: impl Iterator<Item = CableId>) -> Vec<usize> {
        let taken: BTreeSet<usize> = cables.flat_map(|id| self.of_cable(id)).copied().collect();
        taken.into_iter().collect()
    }

    /// How long some stretches are together.
    pub fn length(&self, stretches: &[usize]) -> u64 {
        let lengths = stretches.iter().filter_map(|at| self.lengths.get(*at));
        lengths.sum()
    }
}

/// The moves somebody walks for; within its bay a cable is reached from one place.
fn walked(way: &Way) -> impl Iterator<Item = &Move> {
    let is_walked = |step: &&Move| !matches!(step.kind, MoveKind::InBay { .. });
    way.moves.iter().filter(is_walked)
}

fn ends(step: &Move) -> (Spot, Spot) {
    let (from, to) = (spot(step.from), spot(step.to));
    (from.min(to), from.max(to))
}

fn spot(place: Place3) -> Spot {
    let whole = |length: f64| length.round() as i64;
    (whole(place.at.x), whole(place.at.y), whole(place.z))
}
