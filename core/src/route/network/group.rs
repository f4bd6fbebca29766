//! Cables that together need more than one bore at every cut, for the lower bound.
//!
//! Let `C` be any capacity and `m` the area of a group of cables over `C`, rounded up. Wherever a
//! cut parts all sources of the group from the sink, its bores must hold the whole group: with
//! `r = ceil(capacity / C)` the sum of `r * bores` over the cut is at least `m`, as all of these
//! are whole numbers, and counting no crossing for more than `m` keeps that true. So bores, seen
//! as capacities `min(r, m) * bores`, let a flow of `m` units pass from the group to the sink
//! (Ford and Fulkerson), which no choice of tolls can make cheaper than `m` shortest ways.

use super::graph::Network;

/// Cables that are counted together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Group {
    /// Where they start.
    pub sources: Vec<u32>,
    /// The units that must pass every cut between them and the sink.
    pub units: u64,
    /// The capacity that is one unit.
    pub capacity: u32,
}

impl Group {
    /// How many units one bore of this capacity lets pass.
    pub fn passes(&self, capacity: u32) -> u64 {
        u64::from(capacity)
            .div_ceil(u64::from(self.capacity))
            .min(self.units)
    }
}

/// Out of every bundle of these paths, for each number of units above one, the farthest cables that
/// need so many: the same units over the longest way.
pub(super) fn groups(network: &Network, paths: &[(usize, Vec<u32>)]) -> Vec<Group> {
    let Some(capacity) = common_capacity(network, paths) else {
        return Vec::new();
    };
    let mut groups = Vec::new();
    for mut bundle in bundles(network, paths) {
        bundle.sort_by_key(|cable| {
            std::cmp::Reverse((
                network.linear.distance[network.cables[*cable as usize].source as usize],
                *cable,
            ))
        });
        let mut area = 0;
        for (i, cable) in bundle.iter().enumerate() {
            let before = u64::div_ceil(area, u64::from(capacity));
            area += u64::from(network.cables[*cable as usize].area);
            let units = area.div_ceil(u64::from(capacity));
            if units > before.max(1) {
                groups.push((bundle[..=i].to_vec(), units));
            }
        }
    }
    groups
        .iter_mut()
        .for_each(|(cables, _)| cables.sort_unstable());
    groups.sort_unstable();
    groups.dedup();
    let source = |cable: &u32| network.cables[*cable as usize].source;
    let group = |(cables, units): (Vec<u32>, u64)| Group {
        sources: cables.iter().map(source).collect(),
        units,
        capacity,
    };
    groups.into_iter().map(group).collect()
}

/// The capacity found most often among the crossings that one bore may not serve.
fn common_capacity(network: &Network, paths: &[(usize, Vec<u32>)]) -> Option<u32> {
    let total: u64 = paths
        .iter()
        .map(|(cable, _)| u64::from(network.cables[*cable].area))
        .sum();
    let small = network
        .crossings
        .iter()
        .map(|c| c.capacity)
        .filter(|c| u64::from(*c) < total);
    let mut small: Vec<u32> = small.collect();
    small.sort_unstable();
    small
        .chunk_by(|a, b| a == b)
        .max_by_key(|same| same.len())
        .map(|same| same[0])
}

/// For every node that paths pass the cables that pass it.
fn bundles(network: &Network, paths: &[(usize, Vec<u32>)]) -> Vec<Vec<u32>> {
    let mut through: Vec<Vec<u32>> = vec![Vec::new(); network.nodes as usize];
    for (cable, path) in paths {
        through[network.cables[*cable].source as usize].push(*cable as u32);
        for arc in path {
            let cables = &mut through[network.arcs[*arc as usize].to as usize];
            if cables.last() != Some(&(*cable as u32)) {
                cables.push(*cable as u32);
            }
        }
    }
    through.retain(|cables| cables.len() > 1);
    through
}

#[cfg(test)]
mod tests {
    use super::super::sample::Sample;
    use super::*;

    #[test]
    fn every_group_needs_its_units_and_the_wide_bore_counts_for_more() {
        let problem = Sample {
            seed: 2,
            width: 7,
            height: 6,
            cables: 9,
            per_bore: 2,
        }
        .problem();
        let network = Network::new(&problem).unwrap();
        let path = |i: usize| {
            network
                .linear
                .path(&network, network.cables[i].source)
                .unwrap()
        };
        let paths: Vec<_> = (0..9).map(|i| (i, path(i))).collect();
        let groups = groups(&network, &paths);
        assert!(groups.len() >= 3);
        for group in groups {
            assert_eq!(group.capacity, 6_000);
            assert!(group.units > 1 && group.sources.len() as u64 >= group.units);
            assert_eq!(group.passes(6_000), 1);
            assert_eq!(group.passes(6_001), 2);
            assert_eq!(group.passes(u32::MAX), group.units);
        }
    }
}
