//! What is lost when the browser's process is killed at chance moments.

use crate::figure::print;
use crate::session::{DURABLE, play};

/// So many sessions.
const SESSIONS: u64 = 200;

/// Prints the section.
pub fn print_all() {
    let (mut made, mut old, mut lost) = (0, 0, 0);
    for seed in 1..=SESSIONS {
        let outcome = play(seed);
        made += outcome.made;
        old += outcome.lost_old;
        lost += outcome.lost;
    }
    let how =
        format!("Chromium killed {SESSIONS} times in a session of bursts and rests, {made} edits");
    let name = format!("edits older than {} ms lost", DURABLE.as_millis());
    print(&name, old as f64, "edits", "0", &how);
    print("edits lost at any age", lost as f64, "edits", "-", &how);
}
