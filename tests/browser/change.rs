//! Story: what a later version adds and removes is told against an older file.

use crate::keeping::change;
use crate::links::tally;
use borewright_tests::{Page, Size};

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_change_order_tells_what_was_added() {
    let page = Page::open("change", Size::Desk);
    page.button("22 drops");
    page.labelled("Job: Quince House, plot 9").tap();
    let older = page.download(|page| page.button("Save to a file").tap());
    page.button("Close").tap();
    change(&page);
    page.labelled("Job: Quince House, plot 9").tap();
    page.button("Change order").tap();
    page.upload("Compare with an older file", &older);
    page.see("D23 outlet, Garage: added, 2 cables");
    page.see("+1 drops, from 22 to 23");
    page.see("+2 cables, from 31 to 33");
    page.picture();
    let saved = page.download(|page| page.button("Save as comma-separated text").tap());
    let text = std::fs::read_to_string(saved).unwrap();
    assert!(text.contains("count,drops,22,23,"), "{text}");
    assert!(tally(&page).contains(&"23 drops".to_string()));
}
