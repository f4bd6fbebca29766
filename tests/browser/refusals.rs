//! Story: lengths, walls, doors and drops that cannot be are told in one sentence, and the plan
//! stays as it was.

use crate::sketch::{plans, take};
use borewright_tests::{Page, Size};

/// A sentence is said, and what can be undone is what could be before.
fn told(page: &Page, sentence: &str, undo: &str) {
    page.see(sentence);
    page.button(undo);
    page.button("Put this away").tap();
    page.see_no_more(sentence);
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn impossible_scales_are_told() {
    let page = Page::open("refused-scale", Size::Desk);
    page.labelled("Job: Quince House, plot 9").tap();
    page.button("New job").tap();
    page.upload("Open a drawing", &plans("scrap.webp"));
    let scan = page.labelled("Scan");
    take(&page, "Known length");
    let (one, other) = (scan.svg_at(20.0, 20.0), scan.svg_at(280.0, 20.0));
    page.tap_at(one);
    page.tap_at(one);
    told(
        &page,
        "Both ends are at the same place.",
        "Undo: opened a drawing",
    );
    page.drag(one, other);
    for (typed, sentence) in [
        ("0", "The length is zero. Type how long it really is."),
        ("-4'", "A length cannot be below zero."),
        ("four", "is not a length"),
        ("12'6\"7", "is not a length"),
    ] {
        page.field("Length").fill(&format!("{typed}\n"));
        told(&page, sentence, "Undo: opened a drawing");
    }
    page.field("Length").fill("12' 6 1/2\"\n");
    page.see("sets the scale");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn impossible_walls_doors_and_drops_are_told() {
    let page = Page::open("refused-walls", Size::Desk);
    page.labelled("Job: Quince House, plot 9").tap();
    page.button("New job").tap();
    page.button("Trace without a drawing").tap();
    let sheet = page.labelled("Sheet");
    let (one, other) = (sheet.at(0.3, 0.4), sheet.at(0.5, 0.4));
    page.tap_at(one);
    page.tap_at(one);
    page.see("0 drops");
    assert!(!page.button("Undo").is_enabled(), "nothing was drawn");
    page.tap_at(one);
    page.move_to(other);
    page.keys("0\n");
    told(&page, "The length is zero.", "Undo");
    page.tap_at(other);
    page.button("Undo: drew W1");
    page.press("Escape");
    take(&page, "Door");
    page.tap_at(sheet.at(0.8, 0.8));
    told(&page, "There is no wall there.", "Undo: drew W1");
    page.field("Width").fill("300'\n");
    page.tap_at(one.towards(other, 0.5));
    told(&page, "wide", "Undo: drew W1");
    page.button("Drops").tap();
    take(&page, "Outlet");
    page.tap_at(sheet.at(0.8, 0.8));
    told(&page, "There is no wall there.", "Undo: drew W1");
    page.button("0 drops");
}
