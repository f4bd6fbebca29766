//! A looser copy of a network, for the lower bound.
//!
//! Where all edges of a shared crossing meet in one node, as several ways down to one hole do, the
//! copy leads them to a node of their own first and gives the crossing a single edge from there to
//! the meeting. A way over one of the edges costs the same as before; a way over two of them, which
//! turns round in the hole, costs less. So nothing gets dearer, and each crossing is paid once.

use super::graph::{NONE, Network};
use super::problem::{Edge, Pin, Problem};

/// The copy and where each crossing of the network went.
pub(super) struct Relaxed {
    pub network: Network,
    pub crossings: Vec<u32>,
}

/// Loosens every shared crossing whose edges meet in one node.
pub(super) fn relaxed(network: &Network) -> Relaxed {
    let mut hubs = Hubs::of(network);
    let mut problem = Problem {
        nodes: hubs.nodes,
        sink: network.sink,
        edges: Vec::new(),
        crossings: network.crossings.clone(),
        cables: network.cables.clone(),
        pins: pins(network),
    };
    for (i, arc) in network
        .arcs
        .iter()
        .enumerate()
        .filter(|(i, _)| *i < network.back(*i) as usize)
    {
        let length_mm = network.length(i);
        let edge = |u, v, crossing| Edge {
            u,
            v,
            cost: arc.cost,
            length_mm,
            crossing,
        };
        match hubs.hub(arc.crossing) {
            Some((hub, meeting)) => {
                let end = if arc.from == meeting {
                    arc.to
                } else {
                    arc.from
                };
                problem.edges.push(edge(end, hub, None));
            }
            None => {
                let crossing = (arc.crossing != NONE).then_some(arc.crossing);
                hubs.note(arc.crossing, problem.edges.len());
                problem.edges.push(edge(arc.from, arc.to, crossing));
            }
        }
    }
    hubs.join(&mut problem);
    match Network::new(&problem) {
        Ok(copy) => {
            let crossing = |edge: &u32| copy.crossing_of(*edge);
            Relaxed {
                crossings: hubs.edges.iter().map(crossing).collect(),
                network: copy,
            }
        }
        Err(_) => Relaxed {
            network: network.clone(),
            crossings: (0..network.crossings.len() as u32).collect(),
        },
    }
}

fn pins(network: &Network) -> Vec<Pin> {
    let cables = network.cables.iter().zip(&network.pins);
    cables
        .flat_map(|(cable, nodes)| {
            nodes.iter().map(|node| Pin {
                cable: cable.id,
                node: *node,
            })
        })
        .collect()
}

/// The nodes put before shared crossings.
struct Hubs {
    nodes: u32,
    /// For each crossing its hub and the node where its edges meet.
    hubs: Vec<Option<(u32, u32)>>,
    /// For each crossing an edge of the copy that has it.
    edges: Vec<u32>,
}

impl Hubs {
    fn of(network: &Network) -> Self {
        let mut nodes = network.nodes;
        let mut hub = |j: u32| {
            let meeting = meeting(network, j).filter(|_| network.shared[j as usize])?;
            nodes += 1;
            Some((nodes - 1, meeting))
        };
        let count = network.crossings.len() as u32;
        let hubs = (0..count).map(&mut hub).collect();
        Self {
            nodes,
            hubs,
            edges: vec![NONE; count as usize],
        }
    }

    fn hub(&self, crossing: u32) -> Option<(u32, u32)> {
        *self.hubs.get(crossing as usize)?
    }

    fn note(&mut self, crossing: u32, edge: usize) {
        if let Some(place) = self.edges.get_mut(crossing as usize) {
            *place = edge as u32;
        }
    }

    fn join(&mut self, problem: &mut Problem) {
        for (j, hub) in self.hubs.iter().enumerate() {
            if let Some((u, v)) = *hub {
                self.edges[j] = problem.edges.len() as u32;
                problem.edges.push(Edge {
                    u,
                    v,
                    cost: 0,
                    length_mm: 0,
                    crossing: Some(j as u32),
                });
            }
        }
    }
}

/// The node that all edges of a crossing have in common.
fn meeting(network: &Network, crossing: u32) -> Option<u32> {
    let arcs = || {
        network
            .arcs_through(crossing)
            .iter()
            .map(|i| network.arcs[*i as usize])
    };
    let first = arcs().next()?;
    let common = |node: &u32| arcs().all(|arc| arc.from == *node || arc.to == *node);
    [first.to, first.from].into_iter().find(common)
}

#[cfg(test)]
mod tests {
    use super::super::problem::{Cable, Crossing};
    use super::*;

    /// Two ways down to one hole at node 2, another crossing shared by edges that do not meet, and
    /// one that is not shared.
    fn network() -> Network {
        let edge = |u, v, crossing| Edge {
            u,
            v,
            cost: 10 + u,
            length_mm: 10,
            crossing,
        };
        let crossing = |price| Crossing::poured(price, 50);
        let problem = Problem {
            nodes: 6,
            sink: 5,
            edges: vec![
                edge(0, 2, Some(0)),
                edge(1, 2, Some(0)),
                edge(2, 3, Some(1)),
                edge(4, 5, Some(1)),
                edge(3, 4, Some(2)),
            ],
            crossings: vec![crossing(100), crossing(200), crossing(300)],
            cables: vec![Cable {
                id: 1,
                source: 0,
                area: 10,
                max_length_mm: u32::MAX,
            }],
            pins: vec![Pin { cable: 1, node: 2 }],
        };
        Network::new(&problem).unwrap()
    }

    #[test]
    fn edges_that_meet_get_one_crossing_and_others_keep_theirs() {
        let network = network();
        let Relaxed {
            network: copy,
            crossings,
        } = relaxed(&network);
        assert_eq!(copy.nodes, 7);
        assert_eq!(copy.pins, network.pins);
        let edges = |j: usize| copy.arcs_through(crossings[j]).len() / 2;
        for (j, crossing) in network.crossings.iter().enumerate() {
            assert_eq!(copy.crossings[crossings[j] as usize], *crossing);
            assert_eq!(edges(j), if crossing.price == 200 { 2 } else { 1 });
        }
        assert_eq!(copy.linear.distance[..6], network.linear.distance[..6]);
    }
}
