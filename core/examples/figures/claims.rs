//! What is claimed of the ways of a plan, held against what it can be held against: false claims, counted.

use borewright_core::design::Design;
use borewright_core::framing::Framing;
use borewright_core::plan::Plan;
use borewright_core::route::Routing;
use borewright_core::route::network::{Answer, Bounder, Effort, Network, solve};

/// How many plans made claims, and which of those are false.
#[derive(Default)]
pub struct Claims {
    /// Plans with cables to route.
    pub plans: u32,
    /// Each false claim, in words.
    pub wrong: Vec<String>,
}

impl Claims {
    /// Claims of ways of a search as short as this and a bound of so many rounds.
    pub fn hold(&mut self, name: &str, plan: &Plan, effort: Effort, rounds: u32) {
        let framing = Framing::of(plan);
        let routing = Routing::of(plan, &framing);
        let network = routing.problem().and_then(|p| Network::new(p).ok());
        let Some(network) = network else { return };
        let answer = solve(&network, effort);
        let mut bounder = Bounder::new(&network, &answer);
        for _ in 0..rounds {
            bounder.step();
        }
        let bound = (bounder.bound() > 0).then_some(bounder.bound());
        let answer = Answer { bound, ..answer };
        self.hold_answer(name, plan, &answer);
    }

    /// The claims of an answer: what it costs, that its finished holes take that, and that no ways cost less
    /// than its bound. Ways sought in the moment and ways with no search at all are held against that too.
    pub fn hold_answer(&mut self, name: &str, plan: &Plan, answer: &Answer) {
        let framing = Framing::of(plan);
        let routing = Routing::of(plan, &framing);
        let Some(problem) = routing.problem() else {
            return;
        };
        self.plans += 1;
        let mut wrong = |what: String| self.wrong.push(format!("{name}: {what}"));
        let without_bound = Answer {
            bound: None,
            ..answer.clone()
        };
        if let Err(fault) = without_bound.check(problem) {
            wrong(format!("does not cost {}: {fault:?}", answer.cost));
        }
        if let Some(design) = Design::taking(plan, Some(answer)) {
            let off = design.totals.price.difference;
            if off != 0 {
                wrong(format!("its holes take {off} other than claimed"));
            }
        }
        let others = [Effort::REPAIR, Effort::LIVE].map(|effort| routing.answer(effort));
        let costs = others.iter().flatten().map(|other| other.cost);
        let least = costs.fold(answer.cost, u64::min);
        if let Some(bound) = answer.bound.filter(|bound| *bound > least) {
            wrong(format!("no ways under {bound}, but some cost {least}"));
        }
    }
}
