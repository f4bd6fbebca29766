//! The house as a graph: places cable can be, and the moves between them.
//!
//! Every edge knows what it does and what it goes through, so that a way can be told in words and
//! its holes drilled.

use super::network;
use super::way::{Crossing, MoveKind, Place3};

/// A place cable can be.
pub(super) type Node = u32;

/// A move between two places.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Step {
    pub from: Node,
    pub to: Node,
    pub kind: MoveKind,
    pub length: f64,
    pub cost: u32,
    pub hole: Option<usize>,
}

/// Something paid once for all cables that share it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Shared {
    /// The crossing it makes; `None` for supports, of which there are several times more: hence boxed.
    pub crossing: Option<Box<Crossing>>,
    pub tariff: network::Crossing,
}

/// Places and moves of a house.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Graph {
    pub places: Vec<Place3>,
    pub steps: Vec<Step>,
    pub shared: Vec<Shared>,
    /// The closet, once it is in the graph.
    pub sink: Option<Node>,
    /// Where each drop's cables start; `None` for a drop that is on no wall or in no bay.
    pub sources: Vec<Option<Node>>,
}

impl Graph {
    pub fn place(&mut self, place: Place3) -> Node {
        self.places.push(place);
        (self.places.len() - 1) as Node
    }

    pub fn share(&mut self, crossing: Option<Crossing>, tariff: network::Crossing) -> usize {
        self.shared.push(Shared {
            crossing: crossing.map(Box::new),
            tariff,
        });
        self.shared.len() - 1
    }

    pub fn step(&mut self, step: Step) {
        self.steps.push(step);
    }

    /// The edges and crossings as the router wants them.
    pub fn edges(&self) -> Vec<network::Edge> {
        let edge = |step: &Step| network::Edge {
            u: step.from,
            v: step.to,
            cost: step.cost,
            length_mm: step.length.round().max(0.0) as u32,
            crossing: step.hole.map(|hole| hole as u32),
        };
        self.steps.iter().map(edge).collect()
    }

    pub fn crossings(&self) -> Vec<network::Crossing> {
        self.shared.iter().map(|shared| shared.tariff).collect()
    }
}
