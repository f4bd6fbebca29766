//! Story: somebody opens the page for the first time.

use borewright_tests::{Page, Size};

#[test]
#[ignore = "needs the served page: cargo verify"]
fn the_page_opens_at_every_size() {
    for size in [Size::Desk, Size::Tablet, Size::Phone] {
        let page = Page::open("opens", size);
        page.labelled("Sheet");
        assert!(
            page.title().contains("Borewright"),
            "the title is `{}`",
            page.title()
        );
        page.picture();
    }
}
