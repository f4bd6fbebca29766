//! How long everything takes to follow from a plan, in WebAssembly.

use crate::figure::print_times;
use borewright_tests::{Page, Size};

/// Loaded so often for one median.
const TIMES: usize = 5;

/// The duration of the first measure `design`, in milliseconds.
const DESIGN: &str =
    "return performance.getEntriesByName('design', 'measure')[0]?.duration ?? null";

/// Prints the section.
pub fn print_all() {
    let page = Page::open("figures-edit", Size::Desk);
    let designs = (0..TIMES).filter_map(|_| {
        page.reload();
        page.until_some(|| page.run(DESIGN).as_f64())
    });
    let designs = designs.collect();
    let how = "Chromium, release, all that follows from the plan of the demo; measure `design`";
    print_times(&page, "full plan of the demo in wasm", designs, "-", how);
}
