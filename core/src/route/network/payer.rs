//! Who pays tolls in the lower bound: a cable, or a group of cables that needs several bores.
//!
//! Knows what its way costs apart from tolls; see `bound` for the whole.

use super::graph::{Arc, Network};
use super::group::Group;
use super::tolls::PARTS;

/// A cable or a group on its way to the sink.
#[derive(Clone, Debug)]
pub(super) struct Payer {
    pub sources: Vec<u32>,
    pub stops: Vec<u32>,
    /// How often its cheapest way counts in the bound.
    pub units: u64,
    /// The area it pays for on each leg; 0 for a group.
    pub area: u32,
    /// Whether it pays what edges cost.
    pub linear: bool,
}

impl Payer {
    /// Cables that start together, are as thick and are pinned alike: what is best for one is best
    /// for each, so they pay alike and are searched for once.
    pub fn cables(network: &Network, paths: &[(usize, Vec<u32>)]) -> Vec<Self> {
        let mut payers: Vec<Self> = Vec::new();
        for (cable, _) in paths {
            let one = Self::cable(network, *cable);
            let alike = |other: &&mut Self| {
                (&other.sources, &other.stops, other.area) == (&one.sources, &one.stops, one.area)
            };
            match payers.iter_mut().find(alike) {
                Some(payer) => payer.units += 1,
                None => payers.push(one),
            }
        }
        payers
    }

    fn cable(network: &Network, cable: usize) -> Self {
        let stops: Vec<u32> = network.pins[cable]
            .iter()
            .copied()
            .chain([network.sink])
            .collect();
        let area = network.cables[cable].area / stops.len() as u32;
        Self {
            sources: vec![network.cables[cable].source],
            stops,
            units: 1,
            area,
            linear: true,
        }
    }

    pub fn group(network: &Network, group: &Group) -> Self {
        let sources = group.sources.clone();
        Self {
            sources,
            stops: vec![network.sink],
            units: group.units,
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
