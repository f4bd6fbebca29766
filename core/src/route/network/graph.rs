//! The checked problem as arrays a search can run through, in an order of its own.
//!
//! Edges are sorted by what they are and cables by their id, so that the order in which a caller
//! lists them cannot decide between equal ways. It never changes after it is built.

use std::sync::OnceLock;

use super::problem::{Cable, Crossing, Problem, ProblemError};
use super::shortest::{self, Field};
use super::state::Bundle;
use super::tariff::{Loads, Tariffs};

/// Stands for "no crossing", "no arc" and "no edge".
pub(super) const NONE: u32 = u32::MAX;

/// One direction of an edge.
#[derive(Clone, Copy, Debug)]
pub(super) struct Arc {
    pub from: u32,
    pub to: u32,
    pub cost: u32,
    pub crossing: u32,
}

/// A checked [`Problem`] in its own order, with the distances that every search starts from.
#[derive(Clone, Debug)]
pub struct Network {
    pub(super) nodes: u32,
    pub(super) sink: u32,
    pub(super) crossings: Vec<Crossing>,
    /// The same crossings by what they cost.
    pub(super) tariffs: Tariffs,
    /// The loads that cables make up.
    pub(super) loads: Loads,
    /// Whether more than one edge goes through the crossing.
    pub(super) shared: Vec<bool>,
    /// Whether one cable can meet the crossing twice, on two edges or on its way from a pin.
    pub(super) met_twice: Vec<bool>,
    /// Whether there is such a crossing.
    pub(super) any_met_twice: bool,
    pub(super) cables: Vec<Cable>,
    /// For each cable the nodes it must pass, in order.
    pub(super) pins: Vec<Vec<u32>>,
    pub(super) arcs: Vec<Arc>,
    lengths: Vec<u32>,
    edges: Vec<u32>,
    /// For each arc the same edge the other way, beside the arcs of its node: searches ask it at
    /// every step, and to go by the edge would fetch from anywhere.
    backs: Vec<u32>,
    offsets: Vec<u32>,
    crossing_offsets: Vec<u32>,
    crossing_arcs: Vec<u32>,
    /// For each edge of the caller its two arcs, `NONE` for an edge from a node to itself.
    edge_arcs: Vec<[u32; 2]>,
    /// For each cable of ours its place in the caller's list.
    places: Vec<u32>,
    /// Least linear cost to the sink, bores left out.
    pub(super) linear: Field,
    /// Least length to the sink in millimetres, once somebody asks.
    nearest: OnceLock<Field>,
}

impl Network {
    /// Checks the problem and puts it in order.
    ///
    /// # Errors
    /// The first fault found, with the caller's index.
    pub fn new(problem: &Problem) -> Result<Self, ProblemError> {
        problem.validate()?;
        let order = edge_order(problem);
        let mut network = Self::bare(problem);
        network.lay_arcs(problem, &order);
        network.list_crossing_arcs();
        network.tariffs = Tariffs::of(&network.crossings);
        network.met_twice.clone_from(&network.shared);
        if !problem.pins.is_empty() {
            network.met_twice.fill(true);
        }
        network.any_met_twice = network.met_twice.contains(&true);
        let sink = network.sink;
        network.linear = shortest::field(&network, sink, |_, arc| u64::from(arc.cost));
        Ok(network)
    }

    /// Number of nodes.
    pub fn nodes(&self) -> u32 {
        self.nodes
    }

    /// Number of cables.
    pub fn cables(&self) -> usize {
        self.cables.len()
    }

    /// One cable as a bundle.
    pub(super) fn bundle(&self, cable: usize) -> Bundle {
        let area = self.cables[cable].area;
        Bundle {
            count: 1,
            area,
            load: self.loads.unit(area),
        }
    }

    /// Where a cable of ours stands in the caller's list.
    pub(super) fn place(&self, cable: usize) -> usize {
        self.places[cable] as usize
    }

    pub(super) fn leaving(&self, node: u32) -> std::ops::Range<usize> {
        self.offsets[node as usize] as usize..self.offsets[node as usize + 1] as usize
    }

    /// Least length to the sink in millimetres. Most houses keep every limit without it.
    pub(super) fn nearest(&self) -> &Field {
        let by_length = |arc: usize, _: &Arc| u64::from(self.length(arc));
        let swept = || shortest::field(self, self.sink, by_length);
        self.nearest.get_or_init(swept)
    }

    /// The caller's edges at a node, and where each leads from there.
    pub(in crate::route) fn edges_from(&self, node: u32) -> impl Iterator<Item = (u32, u32)> + '_ {
        let arcs = self.leaving(node);
        arcs.map(|arc| (self.edges[arc], self.arcs[arc].to))
    }

    pub(super) fn length(&self, arc: usize) -> u32 {
        self.lengths[arc]
    }

    pub(super) fn edge(&self, arc: u32) -> u32 {
        self.edges[arc as usize]
    }

    /// The same edge the other way.
    pub(super) fn back(&self, arc: usize) -> u32 {
        self.backs[arc]
    }

    /// The crossing of a caller's edge; `NONE` if it has none or is never used.
    pub(super) fn crossing_of(&self, edge: u32) -> u32 {
        let arc = self
            .edge_arcs
            .get(edge as usize)
            .and_then(|arcs| self.arcs.get(arcs[0] as usize));
        arc.map_or(NONE, |arc| arc.crossing)
    }

    /// Both directions of every edge through a crossing.
    pub(super) fn arcs_through(&self, crossing: u32) -> &[u32] {
        let from = self.crossing_offsets[crossing as usize] as usize;
        let to = self.crossing_offsets[crossing as usize + 1] as usize;
        &self.crossing_arcs[from..to]
    }

    /// The arc that takes the caller's edge away from `node`, if that edge touches it.
    pub(super) fn arc_from(&self, node: u32, edge: u32) -> Option<u32> {
        let arcs = self.edge_arcs.get(edge as usize)?;
        arcs.iter()
            .copied()
            .find(|arc| *arc != NONE && self.arcs[*arc as usize].from == node)
    }

    pub(super) fn path_length(&self, path: &[u32]) -> u64 {
        path.iter()
            .map(|arc| u64::from(self.lengths[*arc as usize]))
            .sum()
    }

    fn bare(problem: &Problem) -> Self {
        let mut places: Vec<u32> = (0..problem.cables.len() as u32).collect();
        places.sort_unstable_by_key(|i| problem.cables[*i as usize].id);
        let cables: Vec<Cable> = places.iter().map(|i| problem.cables[*i as usize]).collect();
        let pins = cables
            .iter()
            .map(|cable| pins_of(problem, cable.id))
            .collect();
        Self {
            nodes: problem.nodes,
            sink: problem.sink,
            crossings: Vec::new(),
            tariffs: Tariffs::default(),
            loads: Loads::of(&problem.cables),
            shared: Vec::new(),
            met_twice: Vec::new(),
            any_met_twice: false,
            cables,
            pins,
            arcs: Vec::new(),
            lengths: Vec::new(),
            edges: Vec::new(),
            backs: Vec::new(),
            offsets: Vec::new(),
            crossing_offsets: Vec::new(),
            crossing_arcs: Vec::new(),
            edge_arcs: vec![[NONE; 2]; problem.edges.len()],
            places,
            linear: Field::default(),
            nearest: OnceLock::new(),
        }
    }

    /// Sorts the arcs by the node they leave (a counting sort, so that the edges' order stays).
    fn lay_arcs(&mut self, problem: &Problem, order: &[u32]) {
        let numbers = self.number_crossings(problem, order);
        self.offsets = offsets_by_node(problem, order);
        let total = order.len() * 2;
        self.arcs = vec![
            Arc {
                from: 0,
                to: 0,
                cost: 0,
                crossing: NONE
            };
            total
        ];
        self.lengths = vec![0; total];
        self.edges = vec![NONE; total];
        self.backs = vec![NONE; total];
        let mut next = self.offsets.clone();
        for i in order {
            let edge = problem.edges[*i as usize];
            let crossing = edge.crossing.map_or(NONE, |j| numbers[j as usize]);
            for (side, (from, to)) in [(edge.u, edge.v), (edge.v, edge.u)].into_iter().enumerate() {
                let at = next[from as usize] as usize;
                next[from as usize] += 1;
                self.arcs[at] = Arc {
                    from,
                    to,
                    cost: edge.cost,
                    crossing,
                };
                self.lengths[at] = edge.length_mm;
                self.edges[at] = *i;
                self.edge_arcs[*i as usize][side] = at as u32;
            }
            let [there, back] = self.edge_arcs[*i as usize];
            self.backs[there as usize] = back;
            self.backs[back as usize] = there;
        }
    }

    /// Numbers the crossings as the sorted edges meet them; unused ones drop out.
    fn number_crossings(&mut self, problem: &Problem, order: &[u32]) -> Vec<u32> {
        let mut numbers = vec![NONE; problem.crossings.len()];
        for j in order
            .iter()
            .filter_map(|i| problem.edges[*i as usize].crossing)
        {
            let number = &mut numbers[j as usize];
            if *number == NONE {
                *number = self.crossings.len() as u32;
                self.crossings.push(problem.crossings[j as usize]);
                self.shared.push(false);
            } else {
                self.shared[*number as usize] = true;
            }
        }
        numbers
    }

    fn list_crossing_arcs(&mut self) {
        let mut offsets = vec![0u32; self.crossings.len() + 1];
        for arc in self.arcs.iter().filter(|arc| arc.crossing != NONE) {
            offsets[arc.crossing as usize + 1] += 1;
        }
        accumulate(&mut offsets);
        let mut next = offsets.clone();
        self.crossing_arcs = vec![0; offsets.last().copied().unwrap_or(0) as usize];
        for (i, arc) in self
            .arcs
            .iter()
            .enumerate()
            .filter(|(_, arc)| arc.crossing != NONE)
        {
            self.crossing_arcs[next[arc.crossing as usize] as usize] = i as u32;
            next[arc.crossing as usize] += 1;
        }
        self.crossing_offsets = offsets;
    }
}

/// The edges that join two nodes, sorted by what they are; the caller's index only parts twins.
fn edge_order(problem: &Problem) -> Vec<u32> {
    // By the first node in one pass; few edges share it, and fewer still both.
    let mut next = vec![0u32; problem.nodes as usize + 1];
    let joining = || {
        (0..)
            .zip(&problem.edges)
            .filter(|(_, edge)| edge.u != edge.v)
    };
    for (_, edge) in joining() {
        next[edge.u.min(edge.v) as usize + 1] += 1;
    }
    accumulate(&mut next);
    let mut order = vec![(0u32, 0u32, 0u32); next.last().copied().unwrap_or(0) as usize];
    for (i, edge) in joining() {
        let (first, second) = (edge.u.min(edge.v), edge.u.max(edge.v));
        let at = &mut next[first as usize];
        order[*at as usize] = (first, second, i);
        *at += 1;
    }
    let rest = |(_, second, i): &(u32, u32, u32)| {
        let edge = problem.edges[*i as usize];
        let crossing = edge.crossing.map(|j| problem.crossings[j as usize]);
        (*second, edge.cost, edge.length_mm, crossing, *i)
    };
    for beside in order.chunk_by_mut(|a, b| a.0 == b.0) {
        if beside.len() > 1 {
            beside.sort_unstable_by_key(rest);
        }
    }
    order.into_iter().map(|(.., i)| i).collect()
}

fn offsets_by_node(problem: &Problem, order: &[u32]) -> Vec<u32> {
    let mut offsets = vec![0u32; problem.nodes as usize + 1];
    for i in order {
        let edge = problem.edges[*i as usize];
        offsets[edge.u as usize + 1] += 1;
        offsets[edge.v as usize + 1] += 1;
    }
    accumulate(&mut offsets);
    offsets
}

fn accumulate(offsets: &mut [u32]) {
    let mut total = 0;
    for offset in offsets {
        total += *offset;
        *offset = total;
    }
}

fn pins_of(problem: &Problem, cable: u64) -> Vec<u32> {
    (problem.pins.iter())
        .filter(|pin| pin.cable == cable)
        .map(|pin| pin.node)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::problem::{Edge, Pin};
    use super::*;

    fn triangle() -> Problem {
        let edge = |u, v, cost, crossing| Edge {
            u,
            v,
            cost,
            length_mm: cost * 2,
            crossing,
        };
        Problem {
            nodes: 4,
            sink: 2,
            edges: vec![
                edge(1, 2, 10, Some(1)),
                edge(1, 1, 1, None),
                edge(0, 1, 5, Some(1)),
                edge(2, 0, 20, None),
            ],
            crossings: vec![Crossing::poured(1, 1), Crossing::poured(9, 40)],
            cables: vec![
                Cable {
                    id: 9,
                    source: 0,
                    area: 4,
                    max_length_mm: 90,
                },
                Cable {
                    id: 3,
                    source: 1,
                    area: 4,
                    max_length_mm: 90,
                },
            ],
            pins: vec![Pin { cable: 9, node: 1 }],
        }
    }

    #[test]
    fn arcs_run_both_ways_and_name_the_callers_edge() {
        let network = Network::new(&triangle()).unwrap();
        let arc = network.arc_from(1, 0).unwrap();
        assert_eq!(network.arcs[arc as usize].to, 2);
        assert_eq!(network.edge(arc), 0);
        assert_eq!(network.path_length(&[arc]), 20);
        assert_eq!(network.leaving(0).len(), 2);
        assert_eq!(network.leaving(3).len(), 0);
        assert_eq!(network.arc_from(3, 0), None);
        assert_eq!(
            network.arc_from(1, 1),
            None,
            "an edge from a node to itself is never used"
        );
        assert_eq!(network.arc_from(1, 99), None);
    }

    #[test]
    fn cables_stand_by_id_with_their_pins() {
        let network = Network::new(&triangle()).unwrap();
        assert_eq!(
            network
                .cables
                .iter()
                .map(|cable| cable.id)
                .collect::<Vec<_>>(),
            [3, 9]
        );
        assert_eq!((network.place(0), network.place(1)), (1, 0));
        assert_eq!(network.pins, [vec![], vec![1]]);
    }

    #[test]
    fn crossings_without_an_edge_drop_out_and_shared_ones_are_known() {
        let network = Network::new(&triangle()).unwrap();
        assert_eq!(network.crossings, [Crossing::poured(9, 40)]);
        assert_eq!(network.shared, [true]);
        assert_eq!(network.arcs_through(0).len(), 4);
    }

    #[test]
    fn distances_to_the_sink_leave_bores_out() {
        let network = Network::new(&triangle()).unwrap();
        assert_eq!(network.linear.distance[..3], [15, 10, 0]);
        assert_eq!(network.nearest().distance[..3], [30, 20, 0]);
        assert_eq!(network.linear.distance[3], u64::MAX);
    }
}
