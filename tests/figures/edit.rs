//! How long everything takes to follow from a plan in WebAssembly, and from an edit to its frame.

use crate::figure::print_times;
use borewright_tests::{Page, Size};

/// Measured so often for one median.
const TIMES: usize = 9;

/// The duration of the first measure `design`, in milliseconds.
const DESIGN: &str =
    "return performance.getEntriesByName('design', 'measure')[0]?.duration ?? null";

/// Presses a button and waits for the frame that shows what came of it: a message posted from within a
/// frame arrives once that frame has been handed over.
const EDIT: &str = "
    window.editTook = null;
    const words = arguments[0];
    const press = [...document.querySelectorAll('button')].find((b) => b.textContent.trim().startsWith(words));
    const begun = performance.now();
    press.click();
    requestAnimationFrame(() => {
        const channel = new MessageChannel();
        channel.port1.onmessage = () => { window.editTook = performance.now() - begun; };
        channel.port2.postMessage(0);
    });";

/// Prints the section.
pub fn print_all() {
    let page = Page::open("figures-edit", Size::Desk);
    print_full_plan(&page);
    print_edit(&page);
}

fn print_full_plan(page: &Page) {
    let designs = (0..TIMES).filter_map(|_| {
        page.reload();
        page.until_some(|| page.run(DESIGN).as_f64())
    });
    let designs = designs.collect();
    let how = "Chromium, release, all that follows from the plan of the demo; measure `design`";
    print_times(page, "full plan of the demo in wasm", designs, "-", how);
}

/// An outlet gets one cable after the other; each time all of the demo follows. Undo and redo would show
/// what is known already.
fn print_edit(page: &Page) {
    page.button("Drops").tap();
    page.button("Choose").tap();
    page.labelled("D2 outlet, Bedroom 1").tap();
    let press = EDIT.replace("arguments[0]", "'Add a cable'");
    let times = (0..TIMES).filter_map(|_| {
        page.run(&press);
        page.until_some(|| page.run("return window.editTook").as_f64())
    });
    let times = times.collect();
    let how = "Chromium, release, demo; from the press that adds a cable to an outlet to the frame";
    print_times(page, "one edit to the next frame", times, "-", how);
}
