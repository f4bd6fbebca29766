//! The cheapest tree by brute force, for tests: exact where every bore holds all cables.
//!
//! Send-and-split (Erickson, Monma and Veinott, Mathematics of Operations Research 12(4), 1987):
//! `f(S, v)` is the least cost of bringing the cables `S` together at `v`. With one sink and a
//! price that is concave in what an edge carries some optimum is a tree, so this is the optimum;
//! with stepped bores it is the best tree, which is never below the optimum. Needs crossings of
//! one edge, no pins and no binding limit.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::graph::Network;
use super::problem::Problem;

/// Cost of the cheapest tree; `None` if a cable cannot reach the sink. At most 12 cables.
pub(super) fn cheapest_tree(problem: &Problem) -> Option<u64> {
    let network = Network::new(problem).unwrap();
    assert!(network.cables.len() <= 12 && network.shared.iter().all(|shared| !shared));
    let sets = 1usize << network.cables.len();
    let mut table: Vec<Vec<u64>> = vec![Vec::new(); sets];
    for set in 1..sets {
        let mut best = vec![u64::MAX; network.nodes as usize];
        if set.is_power_of_two() {
            best[network.cables[set.trailing_zeros() as usize].source as usize] = 0;
        }
        let mut part = (set - 1) & set;
        while part > set ^ part {
            join(&mut best, &table[part], &table[set ^ part]);
            part = (part - 1) & set;
        }
        send(&network, set, &mut best);
        table[set] = best;
    }
    match table
        .last()
        .and_then(|last| last.get(network.sink as usize))
    {
        Some(&u64::MAX) => None,
        Some(cost) => Some(*cost),
        None => Some(0),
    }
}

fn join(best: &mut [u64], one: &[u64], other: &[u64]) {
    for (best, (one, other)) in best.iter_mut().zip(one.iter().zip(other)) {
        *best = (*best).min(one.saturating_add(*other));
    }
}

fn send(network: &Network, set: usize, best: &mut [u64]) {
    let cables = || (network.cables.iter().enumerate()).filter(|(i, _)| set >> i & 1 == 1);
    let area: u64 = cables().map(|(_, cable)| u64::from(cable.area)).sum();
    let count = cables().count() as u64;
    let mut heap: BinaryHeap<_> = (best.iter().enumerate())
        .filter(|(_, cost)| **cost < u64::MAX)
        .map(|(node, cost)| Reverse((*cost, node as u32)))
        .collect();
    while let Some(Reverse((cost, node))) = heap.pop() {
        if cost > best[node as usize] {
            continue;
        }
        for i in network.leaving(node) {
            let arc = network.arcs[i];
            let bore = network.crossings.get(arc.crossing as usize);
            let bores = bore.map_or(0, |c| area.div_ceil(c.capacity.into()) * u64::from(c.price));
            let reached = cost + count * u64::from(arc.cost) + bores;
            if reached < best[arc.to as usize] {
                best[arc.to as usize] = reached;
                heap.push(Reverse((reached, arc.to)));
            }
        }
    }
}
