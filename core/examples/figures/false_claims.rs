//! How many claims about ways are false, of all that were held against something.

use std::path::Path;

use borewright_core::plan::edit::sample;
use borewright_core::route::network::{Bounder, Effort, Instance, Network, solve};

use crate::claims::Claims;
use crate::figure;
use crate::saved::two_storeys;

/// So many houses of random edits.
const INVENTED: u64 = 200;

/// Prints the section, beginning with the claims of the houses as the page's worker settles them.
pub fn print(mut claims: Claims) {
    let (name, plan) = two_storeys();
    claims.hold(name, &plan, Effort::CAREFUL, 200);
    for seed in 0..INVENTED {
        let name = format!("invented house {seed}");
        claims.hold(&name, &sample::plan(seed, 160), Effort::CAREFUL, 60);
    }
    let (instances, mut wrong) = against_optima();
    wrong.extend(claims.wrong);
    let how = format!(
        "{} plans (A, B, C, both demos, 60 drops, invented ones): the cost of their ways worked out anew, \
         what their finished holes take, and their bound beside the cheapest ways found; and {instances} \
         instances beside the optimum that HiGHS proved{}",
        claims.plans,
        wrong
            .iter()
            .map(|what| format!("; {what}"))
            .collect::<String>(),
    );
    figure::print("false claims found", wrong.len() as f64, "", "0", &how);
}

/// Instances with a proven optimum, and those whose ways are said to cost less or whose bound is above it.
fn against_optima() -> (usize, Vec<String>) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/outside/networks");
    let optima = std::fs::read_to_string(folder.join("optima.txt")).unwrap();
    let mut wrong = Vec::new();
    let lines: Vec<&str> = optima.lines().skip(1).collect();
    for line in &lines {
        let (name, optimum) = line.split_once(' ').unwrap();
        let optimum: u64 = optimum.parse().unwrap();
        let text = std::fs::read_to_string(folder.join(format!("{name}.json"))).unwrap();
        let network = Network::new(&Instance::read(&text).unwrap().problem).unwrap();
        let answer = solve(&network, Effort::CAREFUL);
        let mut bounder = Bounder::new(&network, &answer);
        for _ in 0..120 {
            bounder.step();
        }
        if answer.cost < optimum || bounder.bound() > optimum {
            let (cost, bound) = (answer.cost, bounder.bound());
            wrong.push(format!("{name}: {bound} to {cost}, not {optimum}"));
        }
    }
    (lines.len(), wrong)
}
