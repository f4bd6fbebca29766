//! Story: every job on this device stays the job it is, whatever comes to the table, and has its own
//! history, which is there on the next day.

use crate::keeping::change;
use crate::links::copied_link;
use crate::sketch::plans;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use borewright_tests::{Page, Size};

pub const QUINCE: &str = "Quince House, plot 9";
const HOUSE_B: &str = "House B, two storeys over a basement";

/// Lays the list of jobs out, from the table of a job.
pub fn list(page: &Page, title: &str) {
    page.labelled(&format!("Job: {title}")).tap();
    page.button("Jobs on this device").tap();
    page.see("Back to the table");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_third_job_pushes_none_out() {
    let page = Page::open("third-job", Size::Desk);
    change(&page);
    page.see("kept on this device");
    list(&page, QUINCE);
    page.button("New job").tap();
    page.button("Trace without a drawing").tap();
    let sheet = page.labelled("Sheet");
    page.tap_at(sheet.at(0.3, 0.4));
    page.tap_at(sheet.at(0.5, 0.4));
    page.button("Undo: drew W1");
    page.press("Escape");
    page.see("kept on this device");
    list(&page, "New job");
    page.upload("Open a file", &plans("house-b.json"));
    page.see("House B");
    page.see("kept on this device");
    let page = page.reopen();
    list(&page, "House B");
    page.button("At hand, 3");
    page.picture();
    page.button("Open New job").tap();
    page.button("Undo: drew W1");
    list(&page, "New job");
    page.button(&format!("Open {QUINCE}")).tap();
    page.button("23 drops");
    page.button("Undo: placed D23");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn the_example_lies_beside_a_house() {
    let page = Page::open("example-beside", Size::Desk);
    change(&page);
    page.see("kept on this device");
    page.labelled(&format!("Job: {QUINCE}")).tap();
    page.button("New job").tap();
    page.button("Example of two storeys").tap();
    page.see("not changed yet");
    let page = page.reopen();
    page.button("23 drops");
    list(&page, QUINCE);
    page.button("At hand, 1");
    page.picture();
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn undo_stops_at_the_beginning_of_its_job_and_survives_the_night() {
    let page = Page::open("undo-own", Size::Desk);
    change(&page);
    page.see("kept on this device");
    let page = page.reopen();
    page.button("Undo: placed D23").tap();
    page.button("22 drops");
    assert!(!page.button("Undo").is_enabled());
    page.press("Control+z");
    page.see("There is nothing to undo.");
    page.button("22 drops");
    page.see("kept on this device");
    let page = page.reopen();
    page.button("22 drops");
    page.button("Redo: placed D23").tap();
    page.button("23 drops");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_list_is_put_in_order_on_a_phone() {
    let page = Page::open("order", Size::Phone);
    page.labelled(&format!("Job: {QUINCE}")).tap();
    page.upload("Open a file", &plans("house-b.json"));
    page.see("kept on this device");
    list(&page, "House B");
    page.button("Duplicate House B").tap();
    page.see(&format!("A copy of {HOUSE_B} is at hand."));
    page.button("Rename Copy of House B").tap();
    page.field("New name of Copy of House B")
        .fill("Alder Court\n");
    page.see(&format!("Copy of {HOUSE_B} is called Alder Court now."));
    page.button("Rename House B").tap();
    page.field("New name of House B").fill("Birch Row\n");
    page.see(&format!("{HOUSE_B} is called Birch Row now."));
    page.picture();
    page.role("searchbox", "Find a job").fill("alder");
    page.until("one job is found", || page.all("listitem").len() == 1);
    page.button("Set aside Alder Court").tap();
    page.see("Alder Court is set aside.");
    page.button("Set aside, 1").tap();
    page.button("Take up again Alder Court").tap();
    page.see("Alder Court is at hand again.");
    page.button("At hand, 2").tap();
    page.button("Delete Alder Court").tap();
    page.see("It can be brought back for 30 days.");
    page.button("Deleted, 1").tap();
    page.see("30 days left to bring it back");
    page.picture();
    page.button("Bring back Alder Court").tap();
    page.button("At hand, 2").tap();
    page.button("Open Alder Court").tap();
    page.see("kept on this device");
    let page = page.reopen();
    list(&page, "Alder Court");
    page.button("Open Birch Row");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn the_job_on_the_table_can_be_deleted_and_brought_back() {
    let page = Page::open("delete-own", Size::Desk);
    change(&page);
    page.see("kept on this device");
    list(&page, QUINCE);
    page.button(&format!("Delete {QUINCE}")).tap();
    page.button("At hand, 0");
    page.button("Undo").tap();
    page.button(&format!("Open {QUINCE}")).tap();
    page.button("23 drops");
    page.button("Undo: placed D23");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_copy_that_was_taken_over_is_there_after_reload() {
    let page = Page::open("taken-over", Size::Desk);
    change(&page);
    let link = copied_link(&page);
    let visitor = page.visitor(Size::Desk, "");
    visitor.go_to(&link);
    visitor.button("Take over as a copy").tap();
    visitor.see("kept on this device");
    let visitor = visitor.reopen();
    visitor.button("23 drops");
    visitor.see("kept on this device");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_page_left_at_once_has_lost_nothing() {
    let page = Page::open("left-at-once", Size::Desk);
    page.button("Drops").tap();
    page.button("22 drops");
    let mut drops = 22;
    for (moment, across) in [(0, 0.3155), (20, 0.345), (90, 0.37), (300, 0.28)] {
        page.tap_at(page.labelled("Sheet").at(across, 0.608));
        drops += 1;
        std::thread::sleep(std::time::Duration::from_millis(moment));
        page.reload();
        page.button(&format!("{drops} drops"));
        page.button("Drops").tap();
        page.button("Outlet").tap();
    }
}

/// Plans as they were kept before there were jobs: the bytes of a version 1 data base.
const OLD: &str = "const [now, before] = ['NOW', 'BEFORE']
    .map((text) => Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0)));
const opened = indexedDB.open('borewright', 1);
opened.onupgradeneeded = () => opened.result.createObjectStore('plans');
opened.onsuccess = () => {
    const written = opened.result.transaction('plans', 'readwrite');
    const plans = written.objectStore('plans');
    plans.put(now, 'now');
    plans.put(before, 'before');
    plans.put(new Uint8Array([1, 2, 3]), 'unread');
    written.oncomplete = () => { opened.result.close(); window.oldIsThere = true };
};";

#[test]
#[ignore = "needs the served page: cargo verify"]
fn plans_kept_before_there_were_jobs_become_jobs() {
    let stored = |name: &str| {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("files");
        STANDARD.encode(std::fs::read(folder.join(name)).unwrap())
    };
    let page = Page::blank("old-storage", Size::Desk);
    page.expect_error("404");
    page.go("nothing-here.txt");
    let script = OLD.replace("NOW", &stored("v1-rich.json"));
    page.run(&script.replace("BEFORE", &stored("v1-house-b.json")));
    page.until("the old plans are stored", || {
        page.run("return window.oldIsThere === true") == true
    });
    page.go("");
    page.see("kept on this device");
    let title = page.all("button").into_iter();
    let title = title
        .map(|(name, _)| name)
        .find(|name| name.starts_with("Job: "));
    list(&page, title.unwrap().trim_start_matches("Job: "));
    page.button("At hand, 2");
    page.button("Open House B");
    page.button("Save the unread plan 1 as it is");
    page.picture();
    // The page of this path keeps them under its own name; other pages of the host find theirs as they were.
    let names = page.run(
        "return indexedDB.databases().then((all) => {
            const path = location.pathname.replace(/\\/$/, '');
            const own = path ? `borewright ${path}` : 'borewright';
            return all.some((base) => base.name === own) && all.some((base) => base.name === 'borewright');
        })",
    );
    assert_eq!(names, true);
    let page = page.reopen();
    page.see("kept on this device");
}

/// Places one more outlet, along the wall to the garage.
pub fn place(page: &Page, across: f64) {
    page.button("Drops").tap();
    page.button("Outlet").tap();
    page.tap_at(page.labelled("Sheet").at(across, 0.608));
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn two_tabs_follow_one_another_and_one_writes() {
    let page = Page::open("two-tabs", Size::Desk);
    change(&page);
    page.see("kept on this device");
    let first = page.tab();
    let second = page.open_tab("");
    page.button("23 drops");
    page.see("Open in another window; here it is to look at.");
    page.picture();
    // It looks on: a hand with an outlet in it places nothing.
    page.button("Drops").tap();
    page.tap_at(page.labelled("Sheet").at(0.345, 0.608));
    page.button("23 drops");
    page.look_at(&first);
    page.press("Escape");
    place(&page, 0.345);
    page.button("24 drops");
    page.see("kept on this device");
    // What the first writes, the second shows.
    page.look_at(&second);
    page.button("24 drops");
    // The second asks for it, and the first looks on from then on.
    page.button("Change it here").tap();
    page.see("This job can be changed in this window now.");
    place(&page, 0.37);
    page.button("25 drops");
    page.look_at(&first);
    page.button("25 drops");
    page.see("Open in another window; here it is to look at.");
    // The second is closed, and the first goes on.
    page.look_at(&second);
    page.see("kept on this device");
    page.close_tab(&first);
    page.see("This job can be changed in this window now.");
    place(&page, 0.28);
    page.button("26 drops");
    page.see("kept on this device");
    let page = page.reopen();
    page.button("26 drops");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_second_tab_goes_on_when_the_first_is_closed() {
    let page = Page::open("second-tab", Size::Desk);
    change(&page);
    page.see("kept on this device");
    let first = page.tab();
    let second = page.open_tab("");
    page.see("Open in another window; here it is to look at.");
    page.look_at(&first);
    page.close_tab(&second);
    page.see("This job can be changed in this window now.");
    place(&page, 0.345);
    page.button("24 drops");
    page.see("kept on this device");
    let page = page.reopen();
    page.button("24 drops");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn two_jobs_in_two_tabs_are_both_kept() {
    let page = Page::open("two-jobs", Size::Desk);
    change(&page);
    page.see("kept on this device");
    let first = page.tab();
    page.open_tab("");
    page.labelled(&format!("Job: {QUINCE}")).tap();
    page.upload("Open a file", &plans("house-b.json"));
    page.see("House B");
    page.see("kept on this device");
    page.look_at(&first);
    page.press("Escape");
    place(&page, 0.345);
    page.button("24 drops");
    page.see("kept on this device");
    let page = page.reopen();
    list(&page, "");
    page.button("At hand, 2");
    page.button(&format!("Open {HOUSE_B}"));
    page.button(&format!("Open {QUINCE}")).tap();
    page.button("24 drops");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn all_jobs_go_into_one_file_and_come_back_with_their_histories() {
    let page = Page::open("archive", Size::Desk);
    change(&page);
    page.see("kept on this device");
    page.labelled(&format!("Job: {QUINCE}")).tap();
    page.upload("Open a file", &plans("house-b.json"));
    page.see("kept on this device");
    list(&page, "House B");
    let saved = page.download(|page| page.button("Save all jobs to one file").tap());
    page.upload("Bring jobs back from such a file", &saved);
    page.see("Every job of that file is on this device already.");
    let other = page.visitor(Size::Phone, "");
    list(&other, QUINCE);
    other.upload("Bring jobs back from such a file", &plans("house-b.json"));
    other.see("This file holds no jobs.");
    other.upload("Bring jobs back from such a file", &saved);
    other.see("2 jobs came back.");
    other.button("At hand, 2");
    other.picture();
    other.button(&format!("Open {QUINCE}")).tap();
    other.button("Undo: placed D23");
    other.button("Drawing").tap();
    other.labelled("Scan");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_printed_plan_is_a_point_to_return_to() {
    let page = Page::open("points", Size::Desk);
    change(&page);
    // Numbers of holes hold from then on if no better ways are awaited.
    page.see("of the best possible");
    copied_link(&page);
    page.press("Escape");
    place(&page, 0.345);
    page.button("24 drops");
    page.see("kept on this device");
    let page = page.reopen();
    page.labelled(&format!("Job: {QUINCE}")).tap();
    page.see("Points to return to");
    page.picture();
    // What was handed on has numbers that hold, and the page says where its holes are others.
    page.see("not as on paper, revision 1");
    page.button("Return to Shared, revision 1, today").tap();
    page.button("23 drops");
    page.see("revision 1 · ");
    page.button("Undo: returned to “Shared, revision 1”").tap();
    page.button("24 drops");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_job_that_ended_the_page_is_offered_as_it_was_before() {
    let page = Page::open("ended", Size::Desk);
    change(&page);
    page.see("kept on this device");
    page.expect_error("404");
    page.go("nothing-here.txt");
    page.run(
        "const names = Object.keys(localStorage);
        const job = names.find((name) => name.startsWith('borewright job'));
        localStorage.setItem(job.replace('job', 'opening'), localStorage.getItem(job));",
    );
    page.go("");
    page.see("The page came to an end while it opened Quince House, plot 9.");
    page.picture();
    page.button("Open it as it was before its last change")
        .tap();
    page.button("22 drops");
    page.button("Redo: placed D23").tap();
    page.button("23 drops");
    page.see("kept on this device");
    let page = page.reopen();
    page.button("23 drops");
}
