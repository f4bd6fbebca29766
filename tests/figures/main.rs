//! Prints the figures of the page, one line each: `name | value | unit | goal | how it was measured`.
//!
//! Called by `cargo figures`, which builds and serves the release and names it in `BOREWRIGHT_SITE`
//! (its address) and `BOREWRIGHT_FOLDER` (its files). Times are medians, and each is printed again
//! as a ratio to known work done by the same browser in the same run, because machines differ and
//! are seldom idle. Nothing here decides whether a goal is met; the reader does.
//!
//! Words behind the command choose sections: `load`, `edit`, `drag`, `stops`, `job`, `killed`,
//! `left`.
//!
//! The page tells its own moments by the browser's User Timing: the mark `drawn` once the drawing
//! is on the screen, and a measure `design` around each derivation of everything from a plan.

#![expect(
    clippy::print_stdout,
    clippy::expect_used,
    reason = "this prints figures, and may stop at the first surprise"
)]

#[path = "../../core/examples/figures/crowded.rs"]
mod crowded;
mod drag;
mod edit;
mod figure;
mod job;
mod killed;
#[path = "../browser/killed/leaving.rs"]
mod leaving;
mod load;
#[path = "../browser/killed/session.rs"]
mod session;
mod stops;
mod weight;

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let is_asked = |name: &str| words.is_empty() || words.iter().any(|word| word == name);
    if is_asked("load") {
        let weights = weight::print_all();
        load::print_all(&weights);
    }
    let sections: [(&str, fn()); 6] = [
        ("edit", edit::print_all),
        ("drag", drag::print_all),
        ("stops", stops::print_all),
        ("job", job::print_all),
        ("killed", killed::print_all),
        ("left", killed::print_left),
    ];
    for (name, print) in sections {
        if is_asked(name) {
            print();
        }
    }
}
