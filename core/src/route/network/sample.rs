//! Random grids for the tests of this room.

use super::problem::{Cable, Crossing, Edge, Problem};
use super::random::Random;

/// How a sample is drawn.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sample {
    pub seed: u64,
    pub width: u32,
    pub height: u32,
    pub cables: u32,
    /// Cables of the mean area that fit one bore.
    pub per_bore: u32,
}

impl Sample {
    /// A grid in which about two of three edges go through a hole, with its sink in a corner.
    pub fn problem(self) -> Problem {
        let mut random = Random::new(self.seed);
        let nodes = self.width * self.height;
        let mut problem = Problem {
            nodes,
            ..Problem::default()
        };
        for node in 0..nodes {
            let right = (node % self.width + 1 < self.width).then_some(node + 1);
            let up = Some(node + self.width).filter(|up| *up < nodes);
            for to in right.into_iter().chain(up) {
                self.join(&mut problem, &mut random, node, to);
            }
        }
        problem.cables = (0..self.cables)
            .map(|i| cable(i, nodes, &mut random))
            .collect();
        problem
    }

    fn join(self, problem: &mut Problem, random: &mut Random, u: u32, v: u32) {
        let length_mm = 200 + random.below(600) as u32;
        let cost = length_mm + random.below(300) as u32;
        let crossing = (random.below(3) > 0).then_some(problem.crossings.len() as u32);
        if crossing.is_some() {
            let price = 500 + random.below(4_000) as u32;
            let crossing = Crossing::poured(price, self.per_bore * 3_000);
            problem.crossings.push(crossing);
        }
        problem.edges.push(Edge {
            u,
            v,
            cost,
            length_mm,
            crossing,
        });
    }
}

fn cable(i: u32, nodes: u32, random: &mut Random) -> Cable {
    let area = 2_000 + random.below(2_000) as u32;
    let source = nodes / 3 + random.below((nodes - nodes / 3) as usize) as u32;
    Cable {
        id: u64::from(i) * 10,
        source,
        area,
        max_length_mm: 90_000,
    }
}
