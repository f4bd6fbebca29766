//! Stories on the demo: a drop is placed and taken back, the plan is kept, shared and printed.

use borewright_tests::{Page, Size};

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_drop_is_placed_taken_back_and_kept() {
    let page = Page::open("drop", Size::Desk);
    page.button("22 drops");
    page.button("Drops").tap();
    let sheet = page.labelled("Sheet");
    page.tap_at(sheet.at(0.3155, 0.608));
    page.button("23 drops");
    page.button("Undo").tap();
    page.button("22 drops");
    page.button("Redo").tap();
    page.button("23 drops");
    page.picture();
    let page = page.reopen();
    page.button("23 drops");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_link_shows_a_visitor_the_same_totals() {
    let page = Page::open("share", Size::Desk);
    page.button("Sheets").tap();
    page.button("Share").tap();
    page.button("Copy the link").tap();
    let link = page.copied();
    let fragment = link.find('#').map(|at| &link[at..]);
    let visitor = page.visitor(Size::Desk, fragment.unwrap_or_default());
    visitor.see("From a link, to look at.");
    visitor.button("22 drops");
    visitor.button("Take over as a copy").tap();
    visitor.see_no_more("From a link, to look at.");
    visitor.button("22 drops");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn the_sheets_are_shown_and_printed() {
    let page = Page::open("print", Size::Desk);
    page.button("Sheets").tap();
    page.see("Print");
    page.picture();
    let printed = page.print_to_pdf();
    let length = printed.metadata().map_or(0, |file| file.len());
    assert!(length > 20_000, "the print is {length} bytes");
}
