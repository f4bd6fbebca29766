//! Story: the program stops by a fault of its own, on the page or beside it; what is safe is said, and the plan
//! goes out as a file.

use crate::keeping::change;
use borewright_core::file;
use borewright_tests::{Page, Size};

/// A browser that makes no more elements, which nothing on the page can go on without.
const BREAK: &str = "const no = () => { throw new Error('no more elements') };
    Document.prototype.createElement = no;
    Document.prototype.createElementNS = no;
    Node.prototype.cloneNode = no;";

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_program_that_stops_says_what_is_safe_and_hands_out_the_plan() {
    let page = Page::open("stops", Size::Desk);
    change(&page);
    page.see("kept on this device");
    page.expect_error("panicked");
    page.expect_error("unreachable");
    page.run(BREAK);
    page.labelled("Job: Quince House, plot 9").tap();
    page.see("Borewright has stopped");
    page.see("The plan is kept on this device as it was before that.");
    page.picture();
    let saved = page.download(|page| page.role("link", "Save the plan to a file").tap());
    let opened = file::read(&std::fs::read(saved).unwrap()).unwrap();
    assert!(opened.losses.is_empty());
    assert_eq!(opened.plan.drops.len(), 23);
    page.reload();
    page.button("23 drops");
}

/// Workers that come to an end by a fault as soon as they are asked for something.
const BREAK_BESIDE: &str = "const Whole = window.Worker;
    window.Worker = class extends Whole {
        postMessage() {
            this.terminate();
            const fault = new ErrorEvent('error', { message: 'Uncaught Error: a fault' });
            setTimeout(() => this.dispatchEvent(fault), 0);
        }
    };";

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_fault_beside_the_page_is_told_and_nothing_waits_for_it() {
    let page = Page::blank("stops-beside", Size::Desk);
    for part in [
        "no timers",
        "panicked",
        "unreachable",
        "improve.js",
        "Uncaught",
    ] {
        page.expect_error(part);
    }
    page.run_first(BREAK_BESIDE);
    page.go("");
    page.button("22 drops");
    page.see("The search for better ways has ended by a fault, so they were not improved.");
    page.see("not improved");
    page.picture();
    // Nothing waits for it: lists would be written there too, and say why there are none.
    page.button("Sheets").tap();
    page.see("A fault in this program ended the laying out of the sheets.");
    change(&page);
    page.see("kept on this device");
    page.reload();
    page.button("23 drops");
}
