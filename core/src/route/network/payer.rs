//! Who pays tolls in the lower bound: a cable, or a group of cables that needs several bores.
//!
//! Knows what its way costs apart from tolls; see `bound` for the whole.

use super::graph::{Arc, Network};
use super::group::Group;
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
}

impl Payer {
    /// Shares of cables that start together and count as the same area: what is best for one is best
    /// for each, so they pay alike and are searched for once. A cable with pins stays whole.
    pub fn cables(network: &Network, paths: &[(usize, Vec<u32>)], standard: Standard) -> Vec<Self> {
        let mut payers: Vec<Self> = Vec::new();
        for cable in paths.iter().map(|(cable, _)| *cable) {
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
        let single = |payer: &Self| payer.linear && payer.stops.len() == 1;
        single(self) && single(other) && self.area == other.area
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
