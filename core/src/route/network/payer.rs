//! Who pays tolls in the lower bound: a cable, or a group of cables that needs several bores.
//!
//! Knows what its way costs apart from tolls; see `bound` for the whole.

use super::graph::{Arc, NONE, Network};
use super::group::Group;
use super::shortest;
use super::standard::{Standard, WHOLE};
use super::tolls::PARTS;

/// A cable, a share of cables or a group on its way to the sink.
#[derive(Clone, Debug)]
pub(super) struct Payer {
    pub sources: Vec<u32>,
    pub stops: Vec<u32>,
    /// How often its cheapest way counts in the bound, in 256ths.
    pub units: u64,
    /// The area it pays for on each leg; 0 for a group.
    pub area: u32,
    /// Whether it pays what edges cost.
    pub linear: bool,
    /// The longest way allowed, in millimetres, where the limit may bind; it then goes all the way at
    /// once.
    pub longest: Option<u64>,
    /// Whether it pays tolls of its own.
    pub is_tolled: bool,
}

impl Payer {
    /// Shares of cables that start together and count as the same area: what is best for one is best
    /// for each, so they pay alike and are searched for once. A cable with pins stays whole.
    pub fn cables(network: &Network, paths: &[(usize, Vec<u32>)], standard: Standard) -> Vec<Self> {
        let held_back = held_back(network, paths);
        let mut payers: Vec<Self> = Vec::new();
        for cable in paths.iter().map(|(cable, _)| *cable) {
            if held_back.contains(&cable) && network.pins[cable].is_empty() {
                payers.push(Self {
                    longest: Some(u64::from(network.cables[cable].max_length_mm)),
                    ..Self::pinned(network, cable)
                });
                continue;
            }
            if !network.pins[cable].is_empty() {
                payers.push(Self::pinned(network, cable));
                continue;
            }
            for (area, units) in standard.split(network.cables[cable].area) {
                let one = Self {
                    sources: vec![network.cables[cable].source],
                    stops: vec![network.sink],
                    units,
                    area,
                    linear: true,
                    longest: None,
                    is_tolled: true,
                };
                let alike =
                    |other: &&mut Self| other.keeps_with(&one) && other.sources == one.sources;
                match payers.iter_mut().find(alike) {
                    Some(payer) => payer.units += units,
                    None => payers.push(one),
                }
            }
        }
        payers
    }

    /// Whether this and another never go through a crossing against each other, as every edge costs
    /// them the same and they go all the way to the sink at once.
    pub fn keeps_with(&self, other: &Self) -> bool {
        let single = |payer: &Self| payer.linear && payer.goes_at_once();
        single(self) && single(other) && self.area == other.area
    }

    /// Whether any way to the sink will do, so that one sweep tells what it needs everywhere.
    pub fn goes_at_once(&self) -> bool {
        self.stops.len() == 1 && self.longest.is_none() && self.is_tolled
    }

    fn pinned(network: &Network, cable: usize) -> Self {
        let stops: Vec<u32> = network.pins[cable]
            .iter()
            .copied()
            .chain([network.sink])
            .collect();
        let area = network.cables[cable].area / stops.len() as u32;
        Self {
            sources: vec![network.cables[cable].source],
            stops,
            units: WHOLE,
            area,
            linear: true,
            longest: None,
            is_tolled: true,
        }
    }

    pub fn group(network: &Network, group: &Group) -> Self {
        let sources = group.sources.clone();
        Self {
            sources,
            stops: vec![network.sink],
            units: group.units * WHOLE,
            area: 0,
            linear: false,
            longest: None,
            is_tolled: true,
        }
    }

    pub fn cost(&self, arc: &Arc) -> u64 {
        if self.linear {
            u64::from(arc.cost) * PARTS
        } else {
            0
        }
    }

    /// What is still ahead at least.
    pub fn ahead(&self, network: &Network, node: u32) -> u64 {
        match self.linear && self.stops.len() == 1 {
            true => network.linear.distance[node as usize].saturating_mul(PARTS),
            false => 0,
        }
    }
}

/// Cables whose limit may bind: the cheapest way, or the cheapest along the bores of the others, is
/// too long for them. For any other cable the limit is left out of the bound, which it can only lower.
fn held_back(network: &Network, paths: &[(usize, Vec<u32>)]) -> Vec<usize> {
    let limit = |cable: usize| u64::from(network.cables[cable].max_length_mm);
    let nearest = || network.nearest().distance.iter();
    let reached = nearest().filter(|length| **length < u64::MAX).sum::<u64>();
    if paths.iter().all(|(cable, _)| limit(*cable) > reached) {
        return Vec::new();
    }
    let mut is_bored = vec![false; network.crossings.len()];
    for arc in paths.iter().flat_map(|(_, path)| path) {
        if let Some(bored) = is_bored.get_mut(network.arcs[*arc as usize].crossing as usize) {
            *bored = true;
        }
    }
    let with_the_others = |_: usize, arc: &Arc| match arc.crossing {
        NONE => u64::from(arc.cost),
        j if is_bored[j as usize] => u64::from(arc.cost),
        j => u64::from(arc.cost) + u64::from(network.crossings[j as usize].price),
    };
    let shared = shortest::field(network, network.sink, with_the_others);
    let too_long = |cable: usize, field: &shortest::Field| {
        let path = field.path(network, network.cables[cable].source);
        path.is_some_and(|path| network.path_length(&path) > limit(cable))
    };
    let cables = paths.iter().map(|(cable, _)| *cable);
    cables
        .filter(|cable| too_long(*cable, &network.linear) || too_long(*cable, &shared))
        .collect()
}
