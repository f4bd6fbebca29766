//! Pulls: what they take by branch of the trunk, and what they would take by length.

use borewright_core::design::Design;
use borewright_core::plan::Plan;
use borewright_core::schedule::PullTally;

use crate::saved::{plans, two_storeys};
use crate::{by_length, figure};

/// One figure of a tally.
type Figure = fn(&PullTally) -> f64;

/// Prints the section.
pub fn print() {
    for (name, plan) in plans().into_iter().chain([two_storeys()]) {
        print_house(name, &plan);
    }
}

fn print_house(name: &str, plan: &Plan) {
    let design = Design::long(plan);
    let now = design.cut_list.tally(plan, &design.ways);
    let before = by_length::tally(plan, &design);
    print_better(name, &now, &before);
    let lines: [(&str, &str, Figure); 4] = [
        ("boxes visited again", "boxes", |tally| {
            tally.visited_again as f64
        }),
        ("trunk walked", "m", |tally| tally.walked.f64() / 1_000.0),
        ("pulls", "pulls", |tally| tally.pulls as f64),
        ("set-ups of reels", "set-ups", |tally| tally.set_ups as f64),
    ];
    for (what, unit, of) in lines {
        let how = format!("by branch; by length it would be {:.0}", of(&before));
        figure::print(&format!("{what}, {name}"), of(&now), unit, "-", &how);
    }
}

/// How much better the pulls are by what they are sought by: fewest walks of the trunk, then fewest set-ups.
fn print_better(name: &str, now: &PullTally, before: &PullTally) {
    let walked = |tally: &PullTally| tally.walked.f64() / 1_000.0;
    let saved = match walked(before) {
        0.0 => 0.0,
        before => (1.0 - walked(now) / before) * 100.0,
    };
    let how = format!(
        "{:.0} m and {} set-ups by branch, {:.0} m and {} by length; boxes visited again count before both",
        walked(now),
        now.set_ups,
        walked(before),
        before.set_ups
    );
    figure::print(
        &format!("trunk walked less than by length, {name}"),
        saved,
        "%",
        "-",
        &how,
    );
}
