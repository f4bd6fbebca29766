//! How long a person waits for the drawing, the first time and the next.

use crate::figure::{print, print_absent, print_times};
use crate::weight::{Weights, kilobytes};
use borewright_tests::{Page, Size};

/// Opened so often for one median.
const TIMES: usize = 5;

/// From the start of the navigation to the mark `drawn`, in milliseconds, once it is set.
const DRAWN: &str = "return performance.getEntriesByName('drawn')[0]?.startTime ?? null";

/// What this page fetched, as paths from its own address.
const FETCHED: &str = "
    const base = location.href.split(/[?#]/)[0];
    const all = performance.getEntriesByType('resource').map((one) => one.name);
    return all.filter((name) => name.startsWith(base)).map((name) => name.slice(base.length));";

/// Prints the section.
pub fn print_all(weights: &Weights) {
    let page = Page::blank("figures", Size::Desk);
    page.go("");
    print_first_opening(&page, weights);
    let cold = (0..TIMES)
        .filter_map(|_| drawn(&Page::open("figures-cold", Size::Desk)))
        .collect();
    let how = "Chromium, fresh profile, release served on this machine; from navigation to `drawn`";
    print_times(&page, "cold load", cold, "-", how);
    let warm = (0..TIMES).filter_map(|_| {
        page.reload();
        drawn(&page)
    });
    let warm = warm.collect();
    print_times(
        &page,
        "warm load",
        warm,
        "-",
        "the same, loaded again in the same browser",
    );
}

fn drawn(page: &Page) -> Option<f64> {
    page.until_some(|| page.run(DRAWN).as_f64())
}

/// The weight of what the first opening fetches.
fn print_first_opening(page: &Page, weights: &Weights) {
    if drawn(page).is_none() {
        print_absent("drawing on the screen", "the page sets no mark `drawn`");
    }
    let fetched = page.run(FETCHED);
    let names = fetched
        .as_array()
        .into_iter()
        .flatten()
        .filter_map(|name| name.as_str());
    let bytes: u64 = names
        .chain(["index.html"])
        .filter_map(|name| weights.get(name))
        .sum();
    let how = "brotli, the page and what it had fetched once drawn";
    print(
        "weight of the first opening",
        kilobytes(bytes),
        "kB",
        "-",
        how,
    );
}
