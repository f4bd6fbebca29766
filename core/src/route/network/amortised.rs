//! A bundle too big for one bore pays by its size, whatever lies there already: an estimate that
//! keeps searches for big bundles narrow.
//!
//! A bundle of area `A` at a crossing of capacity `c` needs more than `A / c - 1` bores on top of
//! any others. With `C` the largest capacity counted, that is at least `(1 - C / A) * A / c`, so a
//! bundle of `n` cables pays at least `(1 - C / A) * n` times what one cable of the least area `a`
//! pays at `cost + price * a / c` for every edge (`cost` alone where edges share a crossing), and `C / A * n` times the cost alone. Both are
//! distances that never change, so their sum is a bound for the way still ahead. Where cables are dealt
//! over bores of several kinds, `price` and `c` are those of the kind that costs least by its area.

use std::sync::OnceLock;

use super::graph::{Arc, Network};
use super::problem::{Bore, Crossing};
use super::shortest::{self, Field};
use super::state::Bundle;

/// What a cable pays to the sink at its own share of every bore.
#[derive(Clone, Debug)]
pub(super) struct Amortised<'n> {
    network: &'n Network,
    /// The largest capacity counted; `None` where one bore of any crossing holds everything.
    most: Option<u32>,
    /// Worked out once a bundle is larger than that.
    paid: OnceLock<Field>,
}

impl<'n> Amortised<'n> {
    pub fn new(network: &'n Network) -> Self {
        let total: u32 = network.cables.iter().map(|cable| cable.area).sum();
        let capacities = network.crossings.iter().map(|c| c.leanest().capacity);
        Self {
            network,
            most: capacities.filter(|capacity| *capacity < total / 2).max(),
            paid: OnceLock::new(),
        }
    }

    /// What a cable of the least area pays; bores of more than this capacity are left out.
    fn paid(&self, most: u32) -> &Field {
        let network = self.network;
        let areas = network.cables.iter().map(|cable| cable.area);
        let least = areas.min().unwrap_or(0);
        let price = |_: usize, arc: &Arc| {
            let crossing = network.crossings.get(arc.crossing as usize);
            let leanest = crossing.map(Crossing::leanest);
            let counts = |c: &Bore| c.capacity <= most && !network.shared[arc.crossing as usize];
            let share = leanest.filter(counts).map_or(0, |c| {
                u64::from(c.price) * u64::from(least) / u64::from(c.capacity)
            });
            u64::from(arc.cost) + share
        };
        let swept = || shortest::field(network, network.sink, price);
        self.paid.get_or_init(swept)
    }

    /// A bound for what this bundle pays from a node to the sink, given the least cost of that.
    pub fn ahead(&self, bundle: Bundle) -> impl Fn(u32, u64) -> u64 + '_ {
        let most = self.most.filter(|most| bundle.area > *most);
        let counted = most.map(|most| (most, self.paid(most)));
        // In 1024ths, and rounded so that the bound stays a bound.
        let plain = counted.map_or(1024, |(most, _)| {
            (u64::from(most) * 1024).div_ceil(u64::from(bundle.area))
        });
        let count = u64::from(bundle.count);
        move |node, linear| match counted {
            None => 0,
            Some((_, field)) => {
                let share = field.distance[node as usize];
                let one = (1024 - plain) * share.min(1 << 50) + plain * linear.min(1 << 50);
                one / 1024 * count
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::random::Random;
    use super::super::sample::Sample;
    use super::super::state::State;
    use super::*;

    #[test]
    fn it_never_overstates_what_a_bundle_pays() {
        let sample = Sample {
            seed: 2,
            width: 8,
            height: 8,
            cables: 12,
            per_bore: 2,
        };
        let network = Network::new(&sample.problem()).unwrap();
        let amortised = Amortised::new(&network);
        let mut state = State::new(&network);
        for cable in 0..12 {
            let path = network
                .linear
                .path(&network, network.cables[cable].source)
                .unwrap();
            state.lay(cable, path);
        }
        let mut random = Random::new(1);
        let mut told = 0;
        for count in 1..10u32 {
            let area = count * (2_000 + random.below(2_000) as u32);
            let load = 0;
            let bundle = Bundle { count, area, load };
            let paid = shortest::field(&network, network.sink, |_, arc| state.price(arc, bundle));
            let ahead = amortised.ahead(bundle);
            for node in 0..network.nodes as usize {
                let bound = ahead(node as u32, network.linear.distance[node]);
                assert!(bound <= paid.distance[node]);
                told += u64::from(bound > network.linear.distance[node] * u64::from(count));
            }
        }
        assert!(told > 50, "it tells more than the linear cost");
    }
}
