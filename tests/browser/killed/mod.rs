//! Story: the browser's process dies in the middle of the work, or the page is left at once. `cargo figures`
//! plays many more sessions.

mod leaving;
mod session;

use borewright_tests::{Page, Size};

/// So many sessions; each starts two browsers.
const SESSIONS: u64 = 10;

/// The page is left so often.
const LEAVINGS: u64 = 20;

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_browser_that_is_killed_has_lost_nothing_old() {
    let mut made = 0;
    for seed in 1..=SESSIONS {
        let outcome = session::play(seed);
        let (lost, all) = (outcome.lost, outcome.made);
        let window = outcome.window.unwrap_or_default();
        eprintln!("session {seed}: {lost} of {all} edits lost, {window:?} old at most");
        assert_eq!(outcome.lost_old, 0, "session {seed}: {outcome:?}");
        made += all;
    }
    assert!(made > 0, "no session placed anything");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_page_that_is_left_after_an_edit_has_lost_nothing() {
    let page = Page::open("leaving", Size::Desk);
    let mut chance = session::Chance::new(3);
    let lost = leaving::leave(&page, LEAVINGS, |end| chance.below(end));
    assert_eq!(lost, 0, "of {LEAVINGS} edits");
}
