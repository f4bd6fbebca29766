//! The ways are improved beside the page, which stays alive meanwhile.

use borewright_tests::{Page, Size};

#[test]
#[ignore = "needs the served page: cargo verify"]
fn the_ways_come_close_to_the_best_possible() {
    let page = Page::open("improves", Size::Desk);
    page.button("Drops").tap();
    // The page answers while the worker is at work.
    page.button("Larger").tap();
    page.see("of the best possible");
    page.see_no_more("improving");
    page.button("of the best possible").tap();
    page.see("Of the ways this model knows, no other set costs over");
    page.picture();
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn what_was_settled_is_there_at_once_the_next_time() {
    let page = Page::open("improves-kept", Size::Desk);
    // All numbers, as soon as the last of them stands there.
    let tally = "
        const numbers = [...document.querySelectorAll('.TallyNumber b')];
        const all = numbers.map((number) => number.textContent).join(', ');
        return document.querySelector('.TallyBest') ? all : null;";
    page.see("of the best possible");
    let settled = page.run(tally);
    page.picture();
    page.reload();
    let first = page.until_some(|| page.run(tally).as_str().map(String::from));
    assert_eq!(first.as_deref(), settled.as_str());
    page.see("of the best possible");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn the_search_can_be_stopped_and_taken_up_again() {
    let page = Page::open("improves-stopped", Size::Desk);
    page.button("Stop improving the ways").tap();
    page.see("not improved");
    page.button("not improved").tap();
    page.button("Look for better ways").tap();
    page.see("of the best possible");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn what_is_half_typed_stays_while_the_ways_are_improved() {
    let page = Page::open("improves-typing", Size::Desk);
    page.see("of the best possible");
    page.button("Drops").tap();
    page.button("Choose").tap();
    page.labelled("D2 outlet, Bedroom 1").tap();
    page.button("Add a cable").tap();
    let field = page.field("Note");
    field.tap();
    page.keys("Behind the bed");
    page.see("of the best possible");
    assert_eq!(field.value(), "Behind the bed");
}
