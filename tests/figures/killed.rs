//! What is lost when the browser's process is killed at chance moments, and when the page is left.

use crate::figure::print;
use crate::leaving::leave;
use crate::session::{Chance, DURABLE, play};
use borewright_tests::{Page, Size};
use std::time::Duration;

/// So many sessions, and so many times the page is left.
const SESSIONS: u64 = 200;

/// Prints the section.
pub fn print_all() {
    let (mut made, mut old, mut lost) = (0, 0, 0);
    let mut window = Duration::ZERO;
    for seed in 1..=SESSIONS {
        let outcome = play(seed);
        made += outcome.made;
        old += outcome.lost_old;
        lost += outcome.lost;
        // Half an hour of it is worth a word now and then.
        if seed % 20 == 0 {
            eprintln!(
                "{seed} of {SESSIONS} sessions: {old} of {made} edits lost that were old, {lost} of any age"
            );
        }
        window = window.max(outcome.window.unwrap_or_default());
    }
    let how =
        format!("Chromium killed {SESSIONS} times in a session of bursts and rests, {made} edits");
    let name = format!("edits older than {} ms lost", DURABLE.as_millis());
    print(&name, old as f64, "edits", "0", &how);
    print("edits lost at any age", lost as f64, "edits", "-", &how);
    let oldest = window.as_millis() as f64;
    let how = format!("{how}; how old the oldest edit that was lost was, 0 where none was");
    print("loss window", oldest, "ms", "100", &how);
}

/// Prints what is lost by leaving.
pub fn print_left() {
    let page = Page::open("figures-leaving", Size::Desk);
    let mut chance = Chance::new(1);
    let gone = leave(&page, SESSIONS, |end| chance.below(end));
    let how = format!(
        "Chromium, {SESSIONS} times loaded again, gone from or closed 0 to 300 ms after an edit"
    );
    print("edits lost by leaving", gone as f64, "edits", "0", &how);
}
