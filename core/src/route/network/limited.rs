//! The cheapest way to the sink that is not too long.
//!
//! A label-setting search: partial ways are taken by the least price still possible, and one that
//! reaches a node no shorter than a cheaper one did is dropped. Exact, as long as the number of
//! partial ways stays under a bound; past it [`within`] gives the shortest way of all, which is never
//! too long unless every way is, and [`proven`] says that it gave up.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::graph::{Arc, NONE, Network};

/// Partial ways kept before the search gives up: about 6 MB.
const MOST_LABELS: usize = 1 << 18;

/// The same for a search that is asked again and again by the lower bound.
const MOST_LABELS_OF_MANY: usize = 1 << 14;

/// A search kept too many partial ways to go on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct GaveUp;

struct Label {
    price: u64,
    length: u64,
    node: u32,
    arrival: u32,
    before: u32,
}

/// The cheapest way from `from` to the sink within `budget_mm`; `None` if every way is longer.
/// `ahead` must never overstate the price still to come.
pub(super) fn within(
    network: &Network,
    from: u32,
    budget_mm: u64,
    price: impl Fn(&Arc, u32) -> u64,
    ahead: impl Fn(u32) -> u64,
) -> Option<Vec<u32>> {
    search(network, from, budget_mm, (price, ahead), MOST_LABELS)
        .unwrap_or_else(|GaveUp| network.nearest().path(network, from))
}

/// The same, but nothing in place of a way that was not found to be the cheapest.
///
/// # Errors
/// [`GaveUp`] where too many partial ways are as good as one another.
pub(super) fn proven(
    network: &Network,
    from: u32,
    budget_mm: u64,
    price: impl Fn(&Arc, u32) -> u64,
    ahead: impl Fn(u32) -> u64,
) -> Result<Option<Vec<u32>>, GaveUp> {
    search(
        network,
        from,
        budget_mm,
        (price, ahead),
        MOST_LABELS_OF_MANY,
    )
}

fn search(
    network: &Network,
    from: u32,
    budget_mm: u64,
    (price, ahead): (impl Fn(&Arc, u32) -> u64, impl Fn(u32) -> u64),
    most_labels: usize,
) -> Result<Option<Vec<u32>>, GaveUp> {
    let shortest = &network.nearest().distance;
    if shortest[from as usize] > budget_mm {
        return Ok(None);
    }
    let mut labels = vec![Label {
        price: 0,
        length: 0,
        node: from,
        arrival: NONE,
        before: NONE,
    }];
    let mut least = vec![u64::MAX; network.nodes as usize];
    let mut heap = BinaryHeap::from([Reverse((ahead(from), shortest[from as usize], 0u32))]);
    while let Some(Reverse((_, _, at))) = heap.pop() {
        let Label {
            price: paid,
            length,
            node,
            arrival,
            ..
        } = labels[at as usize];
        if node == network.sink {
            return Ok(Some(trace(&labels, at)));
        }
        if length >= least[node as usize] {
            continue;
        }
        least[node as usize] = length;
        for i in network.leaving(node) {
            let arc = &network.arcs[i];
            let (to, length) = (arc.to as usize, length + u64::from(network.length(i)));
            let whole = length.saturating_add(shortest[to]);
            if whole > budget_mm || length >= least[to] {
                continue;
            }
            let paid = paid + price(arc, arrival);
            let next = labels.len() as u32;
            heap.push(Reverse((paid.saturating_add(ahead(arc.to)), whole, next)));
            let (node, arrival) = (arc.to, i as u32);
            labels.push(Label {
                price: paid,
                length,
                node,
                arrival,
                before: at,
            });
        }
        if labels.len() > most_labels {
            return Err(GaveUp);
        }
    }
    Ok(None)
}

fn trace(labels: &[Label], last: u32) -> Vec<u32> {
    let mut path = Vec::new();
    let mut label = &labels[last as usize];
    while label.before != NONE {
        path.push(label.arrival);
        label = &labels[label.before as usize];
    }
    path.reverse();
    path
}

#[cfg(test)]
mod tests {
    use super::super::sample::Sample;
    use super::*;

    /// The least price of all ways without a loop, by trying them.
    fn by_trial(network: &Network, node: u32, budget: u64, seen: &mut Vec<u32>) -> Option<u64> {
        if node == network.sink {
            return Some(0);
        }
        seen.push(node);
        let mut best: Option<u64> = None;
        for i in network.leaving(node) {
            let (arc, length) = (network.arcs[i], u64::from(network.length(i)));
            if length <= budget && !seen.contains(&arc.to) {
                let rest = by_trial(network, arc.to, budget - length, seen);
                best = best
                    .into_iter()
                    .chain(rest.map(|rest| rest + price(&arc)))
                    .min();
            }
        }
        seen.pop();
        best
    }

    /// Odd enough that short ways are not the cheap ones.
    fn price(arc: &Arc) -> u64 {
        u64::from(arc.cost) * u64::from(arc.cost) % 977
    }

    #[test]
    fn it_is_the_cheapest_of_all_ways_that_are_short_enough() {
        for seed in 0..6 {
            let sample = Sample {
                seed,
                width: 4,
                height: 4,
                cables: 1,
                per_bore: 3,
            };
            let network = Network::new(&sample.problem()).unwrap();
            let shortest = network.nearest().distance[15];
            for budget in (0..8).map(|i| shortest + i * 200 - 200) {
                let found = within(&network, 15, budget, |arc, _| price(arc), |_| 0);
                let cost = found.as_ref().map(|path| {
                    assert!(network.path_length(path) <= budget);
                    path.iter()
                        .map(|arc| price(&network.arcs[*arc as usize]))
                        .sum::<u64>()
                });
                assert_eq!(cost, by_trial(&network, 15, budget, &mut Vec::new()));
            }
        }
    }
}
