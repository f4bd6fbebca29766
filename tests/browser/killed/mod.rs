//! Story: the browser's process dies in the middle of the work. `cargo figures` plays many more sessions.

mod session;

/// So many sessions; each starts two browsers.
const SESSIONS: u64 = 4;

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_browser_that_is_killed_has_lost_nothing_old() {
    let mut made = 0;
    for seed in 1..=SESSIONS {
        let outcome = session::play(seed);
        let (lost, all) = (outcome.lost, outcome.made);
        eprintln!("session {seed}: {lost} of {all} edits lost, of any age");
        assert_eq!(outcome.lost_old, 0, "session {seed}: {outcome:?}");
        made += all;
    }
    assert!(made > 0, "no session placed anything");
}
