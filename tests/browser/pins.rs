//! A person overrules a way: a cable must go by a wall.

use borewright_tests::{Page, Size};

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_way_is_pinned_to_a_wall_and_let_go_of_again() {
    let page = Page::open("pins", Size::Desk);
    page.see("of the best possible");
    page.button("Ways").tap();
    page.button("Pin a way").tap();
    page.see("Tap a cable or a drop");
    page.tap_at(page.button("D8 outlet").at(0.5, 0.5));
    page.see("Tap a wall or a place overhead");
    // D4 hangs on the wall between bedroom 2 and the kitchen.
    page.tap_at(page.button("D4 outlet").at(0.5, 0.5).by(0.0, 40.0));
    page.see("D8A goes by W");
    page.picture();
    page.press("Control+z");
    page.see_no_more("goes by W");
    page.press("Control+y");
    page.see("goes by W");
    page.button("Take the pin of D8A off").tap();
    page.see_no_more("D8A goes by W");
}
