//! What was found: a way for every cable or the reason why there is none, and its cost.
//!
//! [`Answer::check`] knows nothing of how the answer was found; it recounts from the problem.

use std::error::Error;
use std::fmt;

use super::graph::Network;
use super::problem::{Edge, Problem};
use super::router::Reach;
use super::tariff::Loads;
use serde::{Deserialize, Serialize};

/// A way for every cable, in the caller's order, and what they cost together.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Answer {
    /// Cost of all the ways that were found, in thousandths.
    pub cost: u64,
    /// No answer can cost less than this; `None` until a [`Bounder`](super::Bounder) has run.
    pub bound: Option<u64>,
    /// For each cable of the caller's list its way.
    pub ways: Vec<Way>,
}

/// One cable's way.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Way {
    /// The caller's edges from the source to the sink, and their length in millimetres.
    Found {
        /// Indices of the caller's edges.
        edges: Vec<u32>,
        /// Their length together.
        length_mm: u64,
    },
    /// No edges lead from the source (past the pins) to the sink.
    NoPath,
    /// There are ways, but even the shortest is over the cable's limit.
    TooLong {
        /// Length of the shortest way in millimetres.
        shortest_mm: u64,
    },
}

impl Way {
    /// Whether there is a way.
    pub fn is_found(&self) -> bool {
        matches!(self, Self::Found { .. })
    }

    /// The edges; none where no way was found.
    pub fn edges(&self) -> &[u32] {
        match self {
            Self::Found { edges, .. } => edges,
            Self::NoPath | Self::TooLong { .. } => &[],
        }
    }
}

/// Why an answer does not hold. Cables are counted as in the problem.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// There is not one way for each cable.
    Count,
    /// This cable's edges do not lead from its source to the sink.
    Broken(usize),
    /// This cable misses one of its pins.
    Unpinned(usize),
    /// This cable's length is not what its edges add up to, or over its limit.
    Length(usize),
    /// The paths cost this and not what the answer says.
    Cost(u64),
    /// The bound is above the cost.
    Bound,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Count => write!(f, "There is not one way for each cable."),
            Self::Broken(i) => write!(f, "The way of cable {i} does not lead to the sink."),
            Self::Unpinned(i) => write!(f, "The way of cable {i} misses a pin."),
            Self::Length(i) => write!(f, "The way of cable {i} is too long or wrongly measured."),
            Self::Cost(cost) => write!(f, "The ways cost {cost}, not what the answer says."),
            Self::Bound => write!(f, "The bound is above the cost."),
        }
    }
}

impl Error for Fault {}

impl Answer {
    pub(super) fn of(
        network: &Network,
        reach: &[Reach],
        paths: &[Option<Vec<u32>>],
        cost: u64,
    ) -> Self {
        let mut ways = vec![Way::NoPath; paths.len()];
        for (cable, path) in paths.iter().enumerate() {
            ways[network.place(cable)] = way(network, reach[cable], path.as_deref());
        }
        Self {
            cost,
            bound: None,
            ways,
        }
    }

    /// The edges of every way, as [`solve_from`](super::solve_from) takes them.
    pub fn paths(&self) -> Vec<Vec<u32>> {
        self.ways.iter().map(|way| way.edges().to_vec()).collect()
    }

    /// Recounts the answer from the problem alone and gives its cost.
    ///
    /// # Errors
    /// The first thing that does not hold.
    pub fn check(&self, problem: &Problem) -> Result<u64, Fault> {
        if self.ways.len() != problem.cables.len() {
            return Err(Fault::Count);
        }
        for (cable, way) in self.ways.iter().enumerate() {
            if let Way::Found { edges, length_mm } = way {
                check_way(problem, cable, edges, *length_mm)?;
            }
        }
        let cost = linear_cost(problem, &self.ways) + bore_cost(problem, &self.ways);
        if cost != self.cost {
            return Err(Fault::Cost(cost));
        }
        match self.bound.is_some_and(|bound| bound > cost) {
            true => Err(Fault::Bound),
            false => Ok(cost),
        }
    }
}

fn way(network: &Network, reach: Reach, path: Option<&[u32]>) -> Way {
    match (reach, path) {
        (_, Some(path)) => Way::Found {
            edges: path.iter().map(|arc| network.edge(*arc)).collect(),
            length_mm: network.path_length(path),
        },
        (Reach::TooLong(shortest_mm), None) => Way::TooLong { shortest_mm },
        (Reach::Open | Reach::NoPath, None) => Way::NoPath,
    }
}

fn check_way(problem: &Problem, i: usize, edges: &[u32], length_mm: u64) -> Result<(), Fault> {
    let cable = problem.cables[i];
    let mut pins = problem
        .pins
        .iter()
        .filter(|pin| pin.cable == cable.id)
        .peekable();
    let mut node = cable.source;
    let mut length = 0;
    while pins.next_if(|pin| pin.node == node).is_some() {}
    for index in edges {
        let edge = problem.edges.get(*index as usize).ok_or(Fault::Broken(i))?;
        node = far_end(edge, node).ok_or(Fault::Broken(i))?;
        length += u64::from(edge.length_mm);
        while pins.next_if(|pin| pin.node == node).is_some() {}
    }
    let over = cable.max_length_mm != u32::MAX && length > u64::from(cable.max_length_mm);
    match (node == problem.sink, pins.next()) {
        (false, _) => Err(Fault::Broken(i)),
        (_, Some(_)) => Err(Fault::Unpinned(i)),
        _ if over || length != length_mm => Err(Fault::Length(i)),
        _ => Ok(()),
    }
}

fn far_end(edge: &Edge, node: u32) -> Option<u32> {
    match node {
        _ if node == edge.u => Some(edge.v),
        _ if node == edge.v => Some(edge.u),
        _ => None,
    }
}

fn linear_cost(problem: &Problem, ways: &[Way]) -> u64 {
    let edges = ways.iter().flat_map(|way| way.edges());
    edges
        .map(|edge| u64::from(problem.edges[*edge as usize].cost))
        .sum()
}

/// A cable that passes a crossing more than once is held by it once.
fn bore_cost(problem: &Problem, ways: &[Way]) -> u64 {
    let all = Loads::of(&problem.cables);
    let mut loads = vec![0u64; problem.crossings.len()];
    for (cable, way) in problem.cables.iter().zip(ways) {
        let crossing = |edge: &u32| problem.edges[*edge as usize].crossing;
        let mut met: Vec<u32> = way.edges().iter().filter_map(crossing).collect();
        met.sort_unstable();
        met.dedup();
        let unit = all.unit(cable.area);
        met.iter().for_each(|j| loads[*j as usize] += unit);
    }
    let bores = problem.crossings.iter().zip(loads);
    bores
        .map(|(crossing, load)| all.price(crossing, load))
        .sum()
}
