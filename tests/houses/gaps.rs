//! How good the ways of whole houses are: the live answer beside a longer search, and a bound that no
//! plan of ways can beat. Numbers of restarts and rounds are fixed, so a slow machine changes nothing.

use borewright_core::framing::Framing;
use borewright_core::route::Routing;
use borewright_core::route::network::{Answer, Bounder, Effort, Network, solve};

use crate::claims::Claims;
use crate::plan;
use crate::price::plans;

/// House, and how far the bound may lie under the cost after 120 rounds, per cent. What `cargo
/// figures` prints is after 800.
const HOUSES: [(&str, f64); 3] = [("house-a", 1.5), ("house-b", 4.5), ("house-c", 1.5)];

#[test]
fn whole_houses_are_near_a_long_search_and_near_their_bound() {
    for (house, most) in HOUSES {
        let plan = plan(house);
        let framing = Framing::of(&plan);
        let routing = Routing::of(&plan, &framing);
        let network = Network::new(routing.problem().unwrap()).unwrap();
        let live = solve(&network, Effort::LIVE);
        let long = solve(&network, Effort::CAREFUL);
        let over = (live.cost as f64 / long.cost as f64 - 1.0) * 100.0;
        assert!((0.0..=1.0).contains(&over), "{house}: {over} % over");
        let mut bounder = Bounder::new(&network, &long);
        while bounder.steps() < 120 {
            bounder.step();
        }
        let under = (long.cost as f64 / bounder.bound() as f64 - 1.0) * 100.0;
        assert!((0.0..=most).contains(&under), "{house}: {under} % under");
    }
}

/// The law: what ways are said to cost is what they cost, and no ways that are found cost less than the bound
/// says any can.
#[test]
fn no_claim_about_ways_is_false() {
    let mut claims = Claims::default();
    for (name, plan) in plans() {
        claims.hold(&name, &plan, Effort::LIVE, 12);
    }
    assert!(claims.plans > 100, "{}", claims.plans);
    assert!(claims.wrong.is_empty(), "{:#?}", claims.wrong);
}

/// A bound that is too high, a price that is too low: the count sees both.
#[test]
fn a_false_claim_is_counted() {
    let plan = plan("house-a");
    let framing = Framing::of(&plan);
    let answer = Routing::of(&plan, &framing).answer(Effort::LIVE).unwrap();
    let mut claims = Claims::default();
    claims.hold_answer("as it is", &plan, &answer);
    assert_eq!((claims.plans, claims.wrong.len()), (1, 0));
    let bound = Some(answer.cost + 1);
    claims.hold_answer(
        "bound",
        &plan,
        &Answer {
            bound,
            ..answer.clone()
        },
    );
    assert_eq!(claims.wrong.len(), 1, "{:?}", claims.wrong);
    let cost = answer.cost - 1;
    claims.hold_answer("price", &plan, &Answer { cost, ..answer });
    assert_eq!(claims.wrong.len(), 2, "{:?}", claims.wrong);
}
