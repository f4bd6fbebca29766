//! How much is tried for an answer, and the two ways to ask for one.
//!
//! The budget is a number of restarts, never a time, so that the same effort gives the same answer
//! on every machine.

use super::answer::Answer;
use super::graph::Network;
use super::improver::Improver;

/// How hard to try.
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
    /// Local search and a few restarts; for every edit.
    pub const LIVE: Self = Self {
        polish: true,
        restarts: 4,
    };
    /// Local search and more restarts, from paths that were known; for every edit of a house, so that what is
    /// shown at once is near what a worker then settles.
    pub const AFTER: Self = Self {
        polish: true,
        restarts: 16,
    };
    /// With more cables than this [`Self::AFTER`] takes more than the moment there is.
    pub const MOST_CABLES_AFTER: usize = 100;
    /// A few milliseconds on a graph of 150 nodes; for a plan at rest.
    pub const CAREFUL: Self = Self {
        polish: true,
        restarts: 250,
    };
    /// For a worker in the background.
    pub const LONG: Self = Self {
        polish: true,
        restarts: 2_200,
    };
}

/// Routes every cable from nothing. The cost is never above that of every cable going its own
/// cheapest way.
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
