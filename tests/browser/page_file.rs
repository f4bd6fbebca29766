//! Story: one page with everything in it opens from a disk, with no network.

use crate::links::tally;
use borewright_tests::{Page, Size};

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_page_with_the_plan_in_it_opens_from_a_disk() {
    let page = Page::open("page-file", Size::Desk);
    page.see("of the best possible");
    page.see_no_more("improving");
    let counts = tally(&page);
    page.labelled("Job: Quince House, plot 9").tap();
    let saved = page.download(|page| page.button("Save as a page that opens anywhere").tap());
    let reader = page.visitor(Size::Phone, "");
    reader.button("22 drops");
    reader.offline(true);
    reader.go_to(&format!("file://{}", saved.display()));
    // A phone shows it to read first.
    reader.see("From a file, to look at.");
    reader.button("Agree to D1");
    reader.button("Show the drawing").tap();
    reader.see_no_more("improving");
    assert_eq!(tally(&reader), counts);
    reader.button("Drawing").tap();
    reader.labelled("Scan");
    reader.picture();
    // It can be handed on as it was handed over.
    reader.button("Take over as a copy").tap();
    reader.labelled("Job: Quince House, plot 9").tap();
    let again = reader.download(|reader| {
        reader.button("Save as a page that opens anywhere").tap();
    });
    let size = |file: &std::path::Path| std::fs::metadata(file).unwrap().len();
    let (first, second) = (size(&saved), size(&again));
    assert!(first < 4_000_000, "{first} bytes");
    assert!(
        second.abs_diff(first) < first / 5,
        "{first}, then {second} bytes"
    );
}
