//! Plain grids with random prices: hard for their size, and far from any house.

use borewright_core::route::network::{Crossing, Edge, Problem};

use super::cable::cable;
use super::random::Random;

/// How a grid is drawn.
#[derive(Clone, Copy)]
pub struct Grid {
    /// Decides every random choice.
    pub seed: u64,
    /// Nodes from left to right.
    pub width: u32,
    /// Nodes from bottom to top.
    pub height: u32,
    /// Number of cables.
    pub cables: u32,
    /// What a bore holds, in hundredths of a square millimetre.
    pub capacity: u32,
    /// Stretches every length, so that limits bind.
    pub stretch: u32,
    /// Of a hundred crossings so many are shared with the edge before.
    pub shared: u32,
}

impl Grid {
    /// A hole on three of four edges; the sink is at the middle of the lower side.
    pub fn problem(self) -> Problem {
        let mut random = Random(self.seed);
        let nodes = self.width * self.height;
        let mut problem = Problem {
            nodes,
            sink: self.width / 2,
            ..Problem::default()
        };
        for node in 0..nodes {
            let right = (node % self.width + 1 < self.width).then_some(node + 1);
            let up = Some(node + self.width).filter(|up| *up < nodes);
            for to in right.into_iter().chain(up) {
                let edge = self.edge(node, to, &mut problem.crossings, &mut random);
                problem.edges.push(edge);
            }
        }
        for i in 0..self.cables {
            let source = random.between(nodes / 3, nodes);
            problem
                .cables
                .push(cable(u64::from(i), source, &mut random));
        }
        problem
    }

    fn edge(self, u: u32, v: u32, crossings: &mut Vec<Crossing>, random: &mut Random) -> Edge {
        let length = random.between(300, 900);
        let crossing = match random.below(100) {
            0..25 => None,
            _ if !crossings.is_empty() && random.below(100) < self.shared => {
                Some(crossings.len() as u32 - 1)
            }
            _ => {
                let price = random.between(800, 3_200);
                crossings.push(Crossing::poured(price, self.capacity));
                Some(crossings.len() as u32 - 1)
            }
        };
        // Pulling is slower where it is awkward, so cost and length part ways.
        let cost = length * random.between(60, 140) / 100;
        Edge {
            u,
            v,
            cost,
            length_mm: length * self.stretch,
            crossing,
        }
    }
}
