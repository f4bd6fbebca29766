//! How good the ways of whole houses are: the live answer beside a longer search, and a bound that no
//! plan of ways can beat. Numbers of restarts and rounds are fixed, so a slow machine changes nothing.

use borewright_core::framing::Framing;
use borewright_core::route::Routing;
use borewright_core::route::network::{Bounder, Effort, Network, solve};

use crate::plan;

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
