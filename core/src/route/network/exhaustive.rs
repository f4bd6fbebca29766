//! The optimum of very small problems by trying everything, for tests: any bores, any areas.
//!
//! Every choice of one way without a loop for each cable is priced. Needs crossings of one edge and
//! no pins; ways longer than a cable's limit are left out.

use super::graph::{NONE, Network};
use super::problem::Problem;

/// The least cost of all choices of ways.
pub(super) fn optimum(problem: &Problem) -> u64 {
    let network = Network::new(problem).unwrap();
    assert!(network.shared.iter().all(|shared| !shared));
    let ways: Vec<Vec<Vec<u32>>> = network
        .cables
        .iter()
        .map(|cable| {
            let mut ways = Vec::new();
            collect(
                &network,
                cable.source,
                &mut Vec::new(),
                &mut vec![],
                &mut ways,
            );
            ways.retain(|way| network.path_length(way) <= u64::from(cable.max_length_mm));
            ways
        })
        .collect();
    let mut loads = vec![0u64; network.crossings.len()];
    cheapest(&network, &ways, &mut loads, 0)
}

fn collect(
    network: &Network,
    node: u32,
    path: &mut Vec<u32>,
    seen: &mut Vec<u32>,
    ways: &mut Vec<Vec<u32>>,
) {
    if node == network.sink {
        return ways.push(path.clone());
    }
    seen.push(node);
    for i in network.leaving(node) {
        let to = network.arcs[i].to;
        if !seen.contains(&to) {
            path.push(i as u32);
            collect(network, to, path, seen, ways);
            path.pop();
        }
    }
    seen.pop();
}

/// The least that the cables from this one on cost on top of those before them.
fn cheapest(network: &Network, ways: &[Vec<Vec<u32>>], loads: &mut [u64], cable: usize) -> u64 {
    let Some(own) = ways.get(cable) else { return 0 };
    let unit = network.loads.unit(network.cables[cable].area);
    let mut best = u64::MAX;
    for way in own {
        let mut paid = 0;
        for arc in way.iter().map(|arc| network.arcs[*arc as usize]) {
            paid += u64::from(arc.cost);
            if arc.crossing != NONE {
                let (j, c) = (
                    arc.crossing as usize,
                    network.crossings[arc.crossing as usize],
                );
                let price = |load| network.loads.price(&c, load);
                paid += price(loads[j] + unit) - price(loads[j]);
                loads[j] += unit;
            }
        }
        best = best.min(paid.saturating_add(cheapest(network, ways, loads, cable + 1)));
        for arc in way.iter().map(|arc| network.arcs[*arc as usize]) {
            if let Some(load) = loads.get_mut(arc.crossing as usize) {
                *load -= unit;
            }
        }
    }
    best
}
