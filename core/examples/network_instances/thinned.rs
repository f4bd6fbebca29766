//! A saved house made small enough to be proven: some of its cables, small bores, and only the
//! moves near those cables' ways.

use borewright_core::file;
use borewright_core::framing::Framing;
use borewright_core::route::Routing;
use borewright_core::route::network::{Crossing, Edge, Problem};

/// How a house is thinned.
#[derive(Clone, Copy)]
pub struct Thinned {
    /// The saved plan's file.
    pub house: &'static str,
    /// The first cable kept, and then each so many after it.
    pub first: usize,
    /// See `first`.
    pub every: usize,
    /// What a bore through wood holds, in hundredths of a square millimetre.
    pub capacity: u32,
    /// A move stays if some cable's way over it is at most this many hundredths longer.
    pub detour: u64,
}

impl Thinned {
    /// The problem that is left.
    pub fn problem(self) -> Result<Problem, Box<dyn std::error::Error>> {
        let path = format!(
            "{}/../tests/plans/{}",
            env!("CARGO_MANIFEST_DIR"),
            self.house
        );
        let plan = file::read(&std::fs::read(path)?)?.plan;
        let framing = Framing::of(&plan);
        let routing = Routing::of(&plan, &framing);
        let mut problem = routing
            .problem()
            .ok_or("This house has no closet.")?
            .clone();
        problem.pins.clear();
        let mut place = 0;
        problem.cables.retain(|_| {
            place += 1;
            place > self.first && (place - 1 - self.first).is_multiple_of(self.every)
        });
        let supports = u32::try_from(1_000_000_000)?;
        for crossing in problem
            .crossings
            .iter_mut()
            .filter(|c| c.capacity < supports)
        {
            *crossing = Crossing::poured(crossing.price, self.capacity);
        }
        self.keep_near(&mut problem);
        drop_dead_ends(&mut problem);
        number_anew(&mut problem);
        Ok(problem)
    }

    fn keep_near(self, problem: &mut Problem) {
        let by_weight = |from| distances(problem, from, |edge| weight(problem, edge));
        let home = by_weight(problem.sink);
        let cables: Vec<(u64, Vec<u64>)> = problem
            .cables
            .iter()
            .map(|cable| (home[cable.source as usize], by_weight(cable.source)))
            .collect();
        let prices: Vec<u64> = problem
            .edges
            .iter()
            .map(|edge| weight(problem, edge))
            .collect();
        let mut prices = prices.into_iter();
        problem.edges.retain(|edge| {
            let own = prices.next().unwrap_or(0);
            cables.iter().any(|(least, from)| {
                let over = |u: u32, v: u32| {
                    from[u as usize]
                        .saturating_add(own)
                        .saturating_add(home[v as usize])
                };
                let way = over(edge.u, edge.v).min(over(edge.v, edge.u));
                way.saturating_mul(100) <= least.saturating_mul(100 + self.detour)
            })
        });
    }
}

/// A move with a share of its bore, as if a few cables went together.
fn weight(problem: &Problem, edge: &Edge) -> u64 {
    let bore = edge
        .crossing
        .map_or(0, |j| problem.crossings[j as usize].price);
    u64::from(edge.cost) + u64::from(bore) / 3
}

/// From a node to every other, by repeated passes over all edges; a house is small.
pub fn distances(problem: &Problem, from: u32, weight: impl Fn(&Edge) -> u64) -> Vec<u64> {
    let mut distance = vec![u64::MAX; problem.nodes as usize];
    distance[from as usize] = 0;
    let mut changed = true;
    while changed {
        changed = false;
        for edge in &problem.edges {
            for (a, b) in [(edge.u, edge.v), (edge.v, edge.u)] {
                let reached = distance[a as usize].saturating_add(weight(edge));
                if reached < distance[b as usize] {
                    distance[b as usize] = reached;
                    changed = true;
                }
            }
        }
    }
    distance
}

/// Nothing ends at a place that only one move leads to, unless a cable does.
fn drop_dead_ends(problem: &mut Problem) {
    loop {
        let mut degree = vec![0u32; problem.nodes as usize];
        for end in problem.edges.iter().flat_map(|edge| [edge.u, edge.v]) {
            degree[end as usize] += 1;
        }
        degree[problem.sink as usize] += 2;
        for cable in &problem.cables {
            degree[cable.source as usize] += 2;
        }
        let before = problem.edges.len();
        let open = |edge: &Edge| degree[edge.u as usize] > 1 && degree[edge.v as usize] > 1;
        problem.edges.retain(open);
        if problem.edges.len() == before {
            return;
        }
    }
}

fn number_anew(problem: &mut Problem) {
    let ends = problem.edges.iter().flat_map(|edge| [edge.u, edge.v]);
    let sources = problem.cables.iter().map(|cable| cable.source);
    let nodes = sorted(ends.chain(sources).chain([problem.sink]).collect());
    let crossings = sorted(
        problem
            .edges
            .iter()
            .filter_map(|edge| edge.crossing)
            .collect(),
    );
    let number = |known: &[u32], old: u32| known.partition_point(|one| *one < old) as u32;
    for edge in &mut problem.edges {
        edge.u = number(&nodes, edge.u);
        edge.v = number(&nodes, edge.v);
        edge.crossing = edge.crossing.map(|j| number(&crossings, j));
    }
    for cable in &mut problem.cables {
        cable.source = number(&nodes, cable.source);
    }
    problem.sink = number(&nodes, problem.sink);
    problem.crossings = crossings
        .iter()
        .map(|j| problem.crossings[*j as usize])
        .collect();
    problem.nodes = nodes.len() as u32;
}

fn sorted(mut all: Vec<u32>) -> Vec<u32> {
    all.sort_unstable();
    all.dedup();
    all
}
