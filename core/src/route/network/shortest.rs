//! Shortest ways: one search towards a node, or one sweep from a node over the whole graph.
//!
//! The price of an arc is whatever the caller says; among equal ways the order of nodes and arcs
//! decides, so the same graph always gives the same way. Knows no cable and no bore.

use super::graph::{Arc, NONE, Network};
use super::queue::Queue;

/// Distance to one node from every other, and the arc by which each is best left.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Field {
    /// `u64::MAX` where there is no way.
    pub distance: Vec<u64>,
    /// The arc towards the target; `NONE` at the target and where there is no way.
    pub next: Vec<u32>,
}

#[derive(Clone, Copy, Debug)]
struct Label {
    distance: u64,
    arrival: u32,
    round: u32,
}

/// Scratch space for searches from a node; one is reused for all of them.
#[derive(Clone, Debug)]
pub(super) struct Search {
    labels: Vec<Label>,
    queue: Queue,
    round: u32,
    /// Nodes taken up so far, by all searches.
    pub work: u64,
}

impl Search {
    pub fn new(network: &Network) -> Self {
        let blank = Label {
            distance: u64::MAX,
            arrival: NONE,
            round: 0,
        };
        Self {
            labels: vec![blank; network.nodes as usize],
            queue: Queue::new(),
            round: 0,
            work: 0,
        }
    }

    /// The least price from any of the nodes `from` to `to`. `ahead` must never overstate the price still to come,
    /// nor fall by more than an arc's price along that arc. `price` gets an arc, its index and
    /// the arc before it. `None` if there is no way for less than `under`.
    pub fn run(
        &mut self,
        network: &Network,
        from: &[u32],
        to: u32,
        price: impl Fn(usize, &Arc, u32) -> u64,
        ahead: impl Fn(u32) -> u64,
        under: u64,
    ) -> Option<u64> {
        self.begin(from, &ahead);
        while let Some((estimate, node)) = self.queue.pop() {
            self.work += 1;
            let Label {
                distance, arrival, ..
            } = self.labels[node as usize];
            if node == to {
                return Some(distance);
            }
            if estimate > distance.saturating_add(ahead(node)) {
                continue;
            }
            for i in network.leaving(node) {
                let arc = &network.arcs[i];
                let reached = distance + price(i, arc, arrival);
                let estimate = reached.saturating_add(ahead(arc.to));
                if estimate < under && self.improves(arc.to, reached, i as u32) {
                    self.queue.push(estimate, arc.to);
                }
            }
        }
        None
    }

    /// Appends the arcs from the last search's start to `to`.
    pub fn trace(&self, network: &Network, to: u32, path: &mut Vec<u32>) {
        let from = path.len();
        let mut arrival = self.labels[to as usize].arrival;
        while arrival != NONE {
            path.push(arrival);
            arrival = self.labels[network.arcs[arrival as usize].from as usize].arrival;
        }
        path[from..].reverse();
    }

    /// What the last search paid to a node it looked at; the least price if it took the node up.
    pub fn reached(&self, node: u32) -> Option<u64> {
        let label = self.labels[node as usize];
        (label.round == self.round).then_some(label.distance)
    }

    fn begin(&mut self, from: &[u32], ahead: impl Fn(u32) -> u64) {
        self.round = self.round.wrapping_add(1);
        if self.round == 0 {
            self.labels.iter_mut().for_each(|label| label.round = 0);
            self.round = 1;
        }
        self.queue.clear();
        for node in from {
            if self.improves(*node, 0, NONE) {
                self.queue.push(ahead(*node), *node);
            }
        }
    }

    fn improves(&mut self, node: u32, distance: u64, arrival: u32) -> bool {
        let label = &mut self.labels[node as usize];
        if label.round == self.round && label.distance <= distance {
            return false;
        }
        *label = Label {
            distance,
            arrival,
            round: self.round,
        };
        true
    }
}

/// One sweep: what every node pays to reach `target`. `price` gets an arc and its index.
pub(super) fn field(network: &Network, target: u32, price: impl Fn(usize, &Arc) -> u64) -> Field {
    let mut field = Field::unknown(network);
    field.distance[target as usize] = 0;
    let mut queue = Queue::new();
    queue.push(0, target);
    field.spread(network, &mut queue, price);
    field
}

impl Field {
    pub fn unknown(network: &Network) -> Self {
        let nodes = network.nodes as usize;
        Self {
            distance: vec![u64::MAX; nodes],
            next: vec![NONE; nodes],
        }
    }

    /// Carries improved distances on from the nodes in the queue, and leaves it empty.
    pub fn spread(
        &mut self,
        network: &Network,
        queue: &mut Queue,
        price: impl Fn(usize, &Arc) -> u64,
    ) {
        while let Some((distance, node)) = queue.pop() {
            if distance > self.distance[node as usize] {
                continue;
            }
            for i in network.leaving(node) {
                let arc = &network.arcs[i];
                let reached = distance + price(i, arc);
                if reached < self.distance[arc.to as usize] {
                    self.distance[arc.to as usize] = reached;
                    self.next[arc.to as usize] = network.back(i);
                    queue.push(reached, arc.to);
                }
            }
        }
        queue.clear();
    }

    /// The arcs from `node` to the target; `None` where there is no way.
    pub fn path(&self, network: &Network, node: u32) -> Option<Vec<u32>> {
        Some(self.arcs(network, node)?.collect())
    }

    /// The same, one after the other.
    pub fn arcs(&self, network: &Network, node: u32) -> Option<impl Iterator<Item = u32>> {
        if *self.distance.get(node as usize)? == u64::MAX {
            return None;
        }
        let first = self.next[node as usize];
        let onward = |arc: &u32| self.next[network.arcs[*arc as usize].to as usize];
        let known = |arc: u32| (arc != NONE).then_some(arc);
        Some(std::iter::successors(known(first), move |arc| {
            known(onward(arc))
        }))
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::Sample;
    use super::*;

    fn network(seed: u64) -> Network {
        let sample = Sample {
            seed,
            width: 9,
            height: 8,
            cables: 1,
            per_bore: 3,
        };
        Network::new(&sample.problem()).unwrap()
    }

    fn price(_: usize, arc: &Arc, _: u32) -> u64 {
        u64::from(arc.cost) + u64::from(arc.crossing != NONE) * 700
    }

    #[test]
    fn a_search_and_a_sweep_agree_and_their_ways_cost_what_they_say() {
        let network = network(1);
        let field = field(&network, network.sink, |i, arc| price(i, arc, NONE));
        let mut search = Search::new(&network);
        for node in 0..network.nodes {
            let ahead = |node: u32| network.linear.distance[node as usize];
            let found = search.run(&network, &[node], network.sink, price, ahead, u64::MAX);
            assert_eq!(found, Some(field.distance[node as usize]));
            let mut path = Vec::new();
            search.trace(&network, network.sink, &mut path);
            for path in [path, field.path(&network, node).unwrap()] {
                let paid = path
                    .iter()
                    .map(|arc| price(0, &network.arcs[*arc as usize], NONE));
                assert_eq!(Some(paid.sum()), found);
            }
        }
    }

    #[test]
    fn from_several_nodes_it_starts_at_the_best() {
        let network = network(2);
        let mut search = Search::new(&network);
        let mut run = |from: &[u32]| search.run(&network, from, 0, price, |_| 0, u64::MAX);
        let single = [40, 60, 71].map(|node| run(&[node]));
        assert_eq!(run(&[40, 60, 71]), single.into_iter().min().unwrap());
    }

    #[test]
    fn it_gives_up_at_the_price_it_must_stay_under() {
        let network = network(3);
        let mut search = Search::new(&network);
        let least = search
            .run(&network, &[50], 0, price, |_| 0, u64::MAX)
            .unwrap();
        assert_eq!(search.run(&network, &[50], 0, price, |_| 0, least), None);
        assert_eq!(
            search.run(&network, &[50], 0, price, |_| 0, least + 1),
            Some(least)
        );
    }
}
