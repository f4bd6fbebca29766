//! Story: what is kept is cleared or harmed under an open page, and nothing is lost that can be kept.

use crate::jobs::{QUINCE, list};
use crate::keeping::change;
use borewright_tests::{Page, Size};
use std::path::Path;

/// Does something to every table of every data base of this host, and tells once it is done.
fn in_storage(page: &Page, harm: &str) {
    let script = "window.harmed = false;
        const opened = (name) => new Promise((done) => {
            const asked = indexedDB.open(name);
            asked.onsuccess = () => done(asked.result);
        });
        const harm = async () => {
            for (const { name } of await indexedDB.databases()) {
                const base = await opened(name);
                const written = base.transaction([...base.objectStoreNames], 'readwrite');
                const ended = new Promise((done) => { written.oncomplete = done; });
                for (const table of base.objectStoreNames) {
                    const store = written.objectStore(table);
                    HARM
                }
                await ended;
                base.close();
            }
            window.harmed = true;
        };
        harm();";
    page.run(&script.replace("HARM", harm));
    page.until("the storage is harmed", || {
        page.run("return window.harmed") == true
    });
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_storage_that_is_cleared_under_the_page_is_written_anew() {
    let page = Page::open("cleared", Size::Desk);
    change(&page);
    page.see("kept on this device");
    in_storage(&page, "store.clear();");
    page.tap_at(page.labelled("Sheet").at(0.345, 0.608));
    page.button("24 drops");
    page.see("kept on this device");
    page.reload();
    page.button("24 drops");
    page.button("Undo: placed D24").tap();
    page.button("Undo: placed D23");
    // The drawing came back with it.
    page.button("Drawing").tap();
    page.labelled("Scan");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn an_archive_brings_a_job_back_that_was_harmed() {
    let page = Page::open("harmed", Size::Desk);
    change(&page);
    page.see("kept on this device");
    list(&page, QUINCE);
    let saved = page.download(|page| page.button("Save all jobs to one file").tap());
    let zeros = "if (table === 'journal') {
        store.openCursor().onsuccess = ({ target: { result } }) => {
            if (result) { result.update(new Uint8Array(40)); result.continue(); }
        };
    }";
    in_storage(&page, zeros);
    page.reload();
    // What lies there instead is the example; nothing offers it as what is left of the job.
    page.see("This job is too damaged to be read. What is left of it stays on this device");
    assert!(!page.has("button", "Save it to a file now"));
    page.picture();
    list(&page, QUINCE);
    page.upload("Bring jobs back from such a file", &saved);
    page.see("1 job came back.");
    page.button("At hand, 2");
    // Both bear one name; the one that cannot be read says so and leaves the list where it is.
    let open = format!("Open {QUINCE}");
    for place in 0..2 {
        if page.has("button", "23 drops") {
            break;
        }
        let all = page.all("button").into_iter();
        let mut named = all.filter(|(name, _)| *name == open);
        named.nth(place).unwrap().1.tap();
        page.until("it is opened, or said why not", || {
            page.has("button", "23 drops") || page.text().contains("too damaged")
        });
    }
    page.button("23 drops");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn words_in_a_field_count_when_the_page_is_left_and_a_long_name_is_saved() {
    let page = Page::open("typed", Size::Desk);
    page.labelled(&format!("Job: {QUINCE}")).tap();
    page.button("Settings").tap();
    let title = "Quince House ".repeat(30);
    page.field("Job title").fill(title.trim());
    page.reload();
    page.labelled(&format!("Job: {}", title.trim())).tap();
    let saved = page.download(|page| page.button("Save to a file").tap());
    let name = Path::new(&saved).file_name().and_then(|name| name.to_str());
    assert!(name.is_some_and(|name| name.starts_with("quince-house-quince") && name.len() < 150));
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_drawing_that_cannot_be_shown_is_told() {
    let page = Page::open("broken-drawing", Size::Desk);
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("../static/demo/demo.json");
    let text = std::fs::read_to_string(demo).unwrap();
    let mut plan: serde_json::Value = serde_json::from_str(&text).unwrap();
    plan["scans"][0]["base64"] = "AAAA".into();
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("broken.json");
    std::fs::write(&file, plan.to_string()).unwrap();
    page.labelled(&format!("Job: {QUINCE}")).tap();
    page.upload("Open a file", &file);
    page.see("The drawing under this level cannot be shown: its file is damaged.");
    page.button("Drawing").tap();
    assert!(!page.has("img", "Scan"));
    page.button("22 drops");
}
