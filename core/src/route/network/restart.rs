//! How much is tried, and the loop that tries it: restarts on disturbed prices, and tearing out a
//! cluster of cables to lay it anew.
//!
//! The budget is a number of restarts, never a time, so that the same effort gives the same answer
//! on every machine.

use super::answer::Answer;
use super::graph::Network;
use super::improve::improve;
use super::random::Random;
use super::router::{Reach, Router};
use super::{start, warm};

/// How hard to try. More never gives a dearer answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort {
    /// Whether the first paths are improved by local search.
    pub polish: bool,
    /// How many restarts follow.
    pub restarts: u32,
}

impl Effort {
    /// Only lay what has no path; for a frame in which walls move.
    pub const REPAIR: Self = Self {
        polish: false,
        restarts: 0,
    };
    /// One local search; for every edit.
    pub const LIVE: Self = Self {
        polish: true,
        restarts: 0,
    };
    /// A few milliseconds on a graph of 150 nodes; for a plan at rest.
    pub const CAREFUL: Self = Self {
        polish: true,
        restarts: 60,
    };
    /// For a worker in the background.
    pub const LONG: Self = Self {
        polish: true,
        restarts: 600,
    };
}

/// Routes every cable from nothing.
pub fn solve(network: &Network, effort: Effort) -> Answer {
    run(Improver::new(network, effort.polish), effort)
}

/// Routes every cable, starting from paths it had: for each cable of the caller's list the edges
/// from its source to the sink. A path that no longer holds is dropped and laid anew.
pub fn solve_from(network: &Network, previous: &[Vec<u32>], effort: Effort) -> Answer {
    run(Improver::from(network, previous, effort.polish), effort)
}

fn run(mut improver: Improver<'_>, effort: Effort) -> Answer {
    for _ in 0..effort.restarts {
        improver.step();
    }
    improver.answer()
}

/// The search in steps, for a worker that reports progress and can be stopped between them.
#[derive(Clone, Debug)]
pub struct Improver<'n> {
    router: Router<'n>,
    reach: Vec<Reach>,
    best: Vec<Option<Vec<u32>>>,
    cost: u64,
    random: Random,
    steps: u32,
}

impl<'n> Improver<'n> {
    /// First paths from nothing, improved by local search if `polish`; never dearer than every
    /// cable going its own cheapest way.
    pub fn new(network: &'n Network, polish: bool) -> Self {
        let mut improver = Self::blank(network);
        start::lay_alone(&mut improver.router, &improver.reach);
        let alone = improver.router.state.clone();
        improver.clear();
        start::lay_missing(&mut improver.router, &improver.reach);
        improver.settle(polish);
        if alone.cost() < improver.cost {
            improver.router.state = alone;
            improver.settle(polish);
        }
        improver
    }

    /// First paths from those that the cables had; see [`solve_from`].
    pub fn from(network: &'n Network, previous: &[Vec<u32>], polish: bool) -> Self {
        let mut improver = Self::blank(network);
        warm::lay_previous(&mut improver.router, &improver.reach, previous);
        improver.router.look_ahead();
        start::lay_missing(&mut improver.router, &improver.reach);
        improver.settle(polish);
        improver
    }

    /// One restart; true if it found something cheaper.
    pub fn step(&mut self) -> bool {
        let before = self.cost;
        match self.steps % 2 {
            0 => self.disturb(),
            _ => self.tear_out(),
        }
        improve(&mut self.router);
        self.keep();
        self.steps += 1;
        self.cost < before
    }

    /// What the best paths so far cost.
    pub fn cost(&self) -> u64 {
        self.cost
    }

    /// The restarts made so far.
    pub fn steps(&self) -> u32 {
        self.steps
    }

    /// The best paths so far.
    pub fn answer(&self) -> Answer {
        Answer::of(self.router.network, &self.reach, &self.best, self.cost)
    }
}

impl<'n> Improver<'n> {
    fn blank(network: &'n Network) -> Self {
        let mut router = Router::new(network);
        let reach = (0..network.cables.len())
            .map(|cable| router.reach(cable))
            .collect();
        let best = vec![None; network.cables.len()];
        Self {
            router,
            reach,
            best,
            cost: u64::MAX,
            random: Random::new(0),
            steps: 0,
        }
    }

    fn clear(&mut self) {
        for cable in 0..self.best.len() {
            self.router.state.lift(cable);
        }
        self.router.look_ahead();
    }

    fn settle(&mut self, polish: bool) {
        if polish {
            improve(&mut self.router);
        }
        self.keep();
    }

    fn keep(&mut self) {
        if self.router.state.cost() < self.cost {
            self.cost = self.router.state.cost();
            self.best.clone_from(&self.router.state.paths);
        }
    }

    /// Lays every cable along one tree of ways at disturbed prices.
    fn disturb(&mut self) {
        let factors: Vec<u64> = self
            .router
            .network
            .crossings
            .iter()
            .map(|_| self.random.below(512) as u64)
            .collect();
        self.clear();
        start::lay_tree(&mut self.router, &self.reach, &factors);
    }

    /// Tears a cluster of cables out of the best paths and lays them in another order.
    fn tear_out(&mut self) {
        self.router.state.replace(&self.best);
        let mut cluster = self.cluster();
        for cable in &cluster {
            self.router.state.lift(*cable);
        }
        self.router.look_ahead();
        self.random.shuffle(&mut cluster);
        for cable in cluster {
            start::lay_best(&mut self.router, cable);
        }
    }

    /// Some of the cables that pass a node of a cable's path, both at random.
    fn cluster(&mut self) -> Vec<usize> {
        let laid: Vec<usize> = (0..self.best.len())
            .filter(|i| self.best[*i].is_some())
            .collect();
        let Some(first) = laid.get(self.random.below(laid.len())) else {
            return Vec::new();
        };
        let arcs = &self.router.network.arcs;
        let path = self.best[*first].as_deref().unwrap_or(&[]);
        let node = path
            .get(self.random.below(path.len()))
            .map(|arc| arcs[*arc as usize].from);
        let passes = |cable: &usize| {
            let path = self.best[*cable].as_deref().unwrap_or(&[]);
            path.iter()
                .any(|arc| Some(arcs[*arc as usize].from) == node)
        };
        let mut cluster: Vec<usize> = laid.into_iter().filter(passes).collect();
        self.random.shuffle(&mut cluster);
        cluster.truncate(2 + self.random.below(6));
        cluster
    }
}

#[cfg(test)]
mod tests {
    use super::super::oracle::cheapest_tree;
    use super::super::problem::Problem;
    use super::super::sample::Sample;
    use super::*;

    fn grid(seed: u64, per_bore: u32) -> Problem {
        Sample {
            seed,
            width: 9,
            height: 7,
            cables: 7,
            per_bore,
        }
        .problem()
    }

    fn solved(problem: &Problem, effort: Effort) -> Answer {
        let answer = solve(&Network::new(problem).unwrap(), effort);
        assert_eq!(answer.check(problem), Ok(answer.cost));
        answer
    }

    #[test]
    fn careful_finds_the_proven_optimum_where_bores_hold_all() {
        for seed in 0..12 {
            let problem = grid(seed, 100);
            let best = cheapest_tree(&problem).unwrap();
            let answer = solved(&problem, Effort::CAREFUL);
            assert!(answer.cost >= best);
            assert!(
                answer.cost * 1_000 <= best * 1_005,
                "seed {seed}: {} {best}",
                answer.cost
            );
        }
    }

    #[test]
    fn careful_is_no_worse_than_the_best_tree_where_bores_step() {
        for seed in 0..12 {
            let problem = grid(seed, 3);
            let tree = cheapest_tree(&problem).unwrap();
            let answer = solved(&problem, Effort::CAREFUL);
            assert!(
                answer.cost * 1_000 <= tree * 1_005,
                "seed {seed}: {} {tree}",
                answer.cost
            );
        }
    }
}
