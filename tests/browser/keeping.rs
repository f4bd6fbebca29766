//! Story: what is on the table is kept, on this device and in a file; where it cannot be kept, the
//! page says so and goes on.

use crate::links::tally;
use crate::sketch::plans;
use borewright_tests::{Page, Size};

/// Places an outlet on the demo.
pub fn change(page: &Page) {
    page.button("Drops").tap();
    page.tap_at(page.labelled("Sheet").at(0.3155, 0.608));
    page.button("23 drops");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_file_carries_the_plan_with_its_drawing_to_another_device() {
    let page = Page::open("file", Size::Desk);
    change(&page);
    let counts = tally(&page);
    page.labelled("Job: Quince House, plot 9").tap();
    let saved = page.download(|page| page.button("Save to a file").tap());
    let other = page.visitor(Size::Desk, "");
    other.labelled("Job: Quince House, plot 9").tap();
    other.upload("Open a file", &saved);
    other.button("23 drops");
    assert_eq!(tally(&other), counts);
    other.button("Drawing").tap();
    other.labelled("Scan");
    // It is another job on that device, and its history begins with it.
    assert!(!other.button("Undo").is_enabled());
    other.see("kept on this device");
    let other = other.reopen();
    other.button("23 drops");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn storage_that_is_full_forbidden_or_silent_is_told() {
    let full = "IDBObjectStore.prototype.put = () => {
        throw new DOMException('no room', 'QuotaExceededError') }";
    let forbidden = "IDBFactory.prototype.open = () => {
        throw new DOMException('not here', 'SecurityError') }";
    let silent = "IDBFactory.prototype.open = () => new EventTarget()";
    for (harm, sentence) in [
        (full, "There is no room left on this device."),
        (forbidden, "This browser keeps nothing for this page."),
        (silent, "The storage of this browser does not answer."),
    ] {
        let page = Page::blank("no-room", Size::Desk);
        page.run_first(harm);
        page.go("");
        change(&page);
        page.see("only in this window");
        page.see(sentence);
        page.picture();
        page.labelled("Job: Quince House, plot 9").tap();
        // The work goes on, and the file is the way out.
        let saved = page.download(|page| page.button("Save it to a file now").tap());
        assert!(std::fs::metadata(saved).unwrap().len() > 1000);
        // What is nowhere else makes room for nothing unasked.
        page.button("New job").tap();
        page.see("Quince House, plot 9 is in this window alone, and would be gone.");
        page.button("Stay with it").tap();
        page.button("23 drops");
        page.button("Example of two storeys").tap();
        page.button("Go on without it").tap();
        page.see("Larch House, plot 4");
    }
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_job_is_kept_where_short_notes_are_refused() {
    let refused = "for (const notes of ['localStorage', 'sessionStorage']) {
        Object.defineProperty(window, notes, {
            get() { throw new DOMException('not here', 'SecurityError') },
        });
    }";
    let page = Page::blank("no-notes", Size::Desk);
    page.run_first(refused);
    page.go("");
    change(&page);
    page.see("kept on this device");
    page.reload();
    page.button("23 drops");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn the_page_works_without_a_network() {
    let page = Page::open("offline", Size::Desk);
    page.button("22 drops");
    is_kept_for_later(&page);
    page.offline(true);
    page.reload();
    change(&page);
    page.labelled("Job: Quince House, plot 9").tap();
    page.upload("Open a file", &plans("house-b.json"));
    page.see("House B");
}

fn is_kept_for_later(page: &Page) {
    page.until("the page is kept for later", || {
        page.run("return Boolean(navigator.serviceWorker.controller)") == true
    });
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_newer_release_says_so_and_is_taken_over_by_a_press() {
    let page = Page::open("newer", Size::Desk);
    page.button("22 drops");
    is_kept_for_later(&page);
    assert_eq!(page.installability_errors(), Vec::<String>::new());
    // The same release under another address is a newer one to the browser.
    page.run("navigator.serviceWorker.register('./sw.js?newer'); window.isBefore = true;");
    page.see("A newer version of this page is on this device.");
    page.picture();
    page.button("Take it over").tap();
    page.until("the page is loaded anew", || {
        page.run("return window.isBefore === undefined") == true
    });
    page.button("22 drops");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn an_address_that_is_not_the_page_stays_unknown() {
    let page = Page::open("unknown-address", Size::Desk);
    page.button("22 drops");
    is_kept_for_later(&page);
    page.expect_error("404");
    page.go("no/such/page");
    page.see("no file at");
    page.offline(true);
    page.expect_error("504");
    page.go("no/such/page");
    page.see("This address is not kept on this device");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn the_licences_of_every_part_are_handed_over() {
    let page = Page::open("licences", Size::Desk);
    page.labelled("Job: Quince House, plot 9").tap();
    page.button("Settings").tap();
    let licences = page.download(|page| page.button("Save the licences of all parts").tap());
    let licences = std::fs::read_to_string(licences).unwrap();
    assert!(licences.contains("SIL OPEN FONT LICENSE") && licences.contains("\nyew "));
}
