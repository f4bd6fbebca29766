//! The long improvement of a plan's ways, in steps, and how close to the best possible it comes.
//!
//! A worker makes the steps one after the other, reports and can be stopped between any two; run
//! to the end it gives the same answer everywhere. It never looks at a clock.

use super::network::{Answer, Bounder, Effort, Improver, Network};

/// Rounds of the bound at most. On the saved houses it came to within 2 % by then, on most of them to
/// within 0.02 %.
const ROUNDS: u32 = 800;

/// After so many rounds the bound is looked at again: if they raised it by less than one part of the
/// cost in so many, it is left there.
const LOOK: u32 = 50;
const WORTH_IT: u64 = 6_000;

/// The bound takes up so many nodes for each cable at most, so that its time grows as the cables do.
/// Invented houses of 40 cables need about as many for all rounds, the saved houses fewer.
const NODES_A_CABLE: u64 = 500_000;

/// Improves the ways of all cables and then proves how little better they could be.
///
/// ```
/// # use borewright_core::route::Improvement;
/// # use borewright_core::route::network::{Network, Problem, ProblemError};
/// # let problem = Problem { nodes: 1, ..Problem::default() };
/// let network = Network::new(&problem)?;
/// let mut improvement = Improvement::new(&network);
/// while improvement.step() {
///     // Report `improvement.done()`, or stop.
/// }
/// assert!(improvement.answer().check(&problem).is_ok());
/// # Ok::<(), ProblemError>(())
/// ```
#[derive(Clone, Debug)]
pub struct Improvement<'n> {
    network: &'n Network,
    improver: Improver<'n>,
    bounder: Option<Bounder>,
    /// The bound when it was looked at last.
    seen: u64,
    has_settled: bool,
}

impl<'n> Improvement<'n> {
    /// Begins with the ways that every edit gets.
    pub fn new(network: &'n Network) -> Self {
        Self {
            network,
            improver: Improver::new(network, true),
            bounder: None,
            seen: 0,
            has_settled: false,
        }
    }

    /// One restart of the search, or one round of the bound; false once there is nothing more to do.
    pub fn step(&mut self) -> bool {
        if self.improver.steps() < Effort::LONG.restarts {
            self.improver.step();
            return true;
        }
        let (network, answer) = (self.network, || self.improver.answer());
        let bounder = self
            .bounder
            .get_or_insert_with(|| Bounder::new(network, &answer()));
        bounder.step();
        let (steps, bound) = (bounder.steps(), bounder.bound());
        if steps.is_multiple_of(LOOK) {
            self.has_settled = (bound - self.seen) * WORTH_IT < self.improver.cost();
            self.seen = bound;
        }
        let most_work = NODES_A_CABLE * self.network.cables() as u64;
        let goes_on = !self.has_settled && bounder.work() < most_work;
        steps < ROUNDS && bound < self.improver.cost() && goes_on
    }

    /// How much of the work is done, per cent.
    pub fn done(&self) -> u8 {
        let rounds = self.bounder.as_ref().map_or(0, Bounder::steps);
        let (made, all) = (
            self.improver.steps() + rounds,
            Effort::LONG.restarts + ROUNDS,
        );
        (made * 100 / all).min(100) as u8
    }

    /// The best ways so far, with the bound as far as it was raised.
    pub fn answer(&self) -> Answer {
        let bound = self.bounder.as_ref().map(Bounder::bound);
        Answer {
            bound: bound.filter(|bound| *bound > 0),
            ..self.improver.answer()
        }
    }

    /// The answer once all steps are made.
    pub fn finished(mut self) -> Answer {
        while self.step() {}
        self.answer()
    }
}

#[cfg(test)]
mod tests {
    use super::super::network::{Cable, Crossing, Edge, Problem};
    use super::*;

    /// Two ways from each of two places: one hole for both, or one each.
    fn problem() -> Problem {
        let edge = |u, v, cost, crossing| Edge {
            u,
            v,
            cost,
            length_mm: cost,
            crossing,
        };
        let cable = |id, source| Cable {
            id,
            source,
            area: 10,
            max_length_mm: 90_000,
        };
        let bore = Crossing::poured(2_000, 20);
        Problem {
            nodes: 4,
            sink: 3,
            edges: vec![
                edge(0, 1, 300, None),
                edge(0, 3, 900, Some(0)),
                edge(1, 3, 900, Some(1)),
                edge(2, 1, 400, None),
            ],
            crossings: vec![bore, bore],
            cables: vec![cable(1, 0), cable(2, 2)],
            pins: vec![],
        }
    }

    #[test]
    fn it_ends_at_once_where_the_answer_is_proven() {
        let problem = problem();
        let network = Network::new(&problem).unwrap();
        let answer = Improvement::new(&network).finished();
        // Worked by hand: both share the second hole, 300 + 900 + 400 + 900 + 2,000.
        assert_eq!(answer.check(&problem), Ok(4_500));
        assert_eq!(answer.bound, Some(4_500));
    }

    #[test]
    fn it_counts_on_and_stopping_early_still_gives_an_answer() {
        let problem = problem();
        let network = Network::new(&problem).unwrap();
        let mut improvement = Improvement::new(&network);
        assert_eq!(improvement.done(), 0);
        assert!(improvement.step());
        assert_eq!(improvement.answer().bound, None);
        assert!(improvement.answer().check(&problem).is_ok());
        let mut before = 0;
        while improvement.step() {
            assert!(improvement.done() >= before);
            before = improvement.done();
        }
        assert!(before > 50);
    }
}
