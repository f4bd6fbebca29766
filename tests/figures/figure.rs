//! One line of figures, and how a browser's time is compared with known work.

use borewright_tests::Page;

/// A million square roots, each waiting for the one before, timed in milliseconds.
const KNOWN_WORK: &str = "
    const times = [];
    for (let run = 0; run < 9; run++) {
        const start = performance.now();
        let value = 2;
        for (let step = 0; step < 1e6; step++) value = Math.sqrt(value + 1);
        times.push(performance.now() - start + (value > 1 ? 0 : 1e9));
    }
    return times.sort((a, b) => a - b)[4];";

/// Prints one line.
pub fn print(name: &str, value: f64, unit: &str, goal: &str, how: &str) {
    println!("{name} | {} | {unit} | {goal} | {how}", rounded(value));
}

/// Says in the place of a line that there is none, and why.
pub fn print_absent(name: &str, why: &str) {
    println!("{name} | not measured | - | - | {why}");
}

/// Prints the median of times in milliseconds, and beside it the ratio to known work in the
/// browser that `page` has open.
pub fn print_times(page: &Page, name: &str, mut times: Vec<f64>, goal: &str, how: &str) {
    times.sort_by(f64::total_cmp);
    let Some(&median) = times.get(times.len() / 2) else {
        return print_absent(name, "the page told no such time");
    };
    let known = page.run(KNOWN_WORK).as_f64().expect("a time");
    let how = format!("{how}; median of {}", times.len());
    print(&format!("{name}, time"), median, "ms", goal, &how);
    let how = "the same; one is a million square roots in a row by the same browser";
    print(&format!("{name}, ratio"), median / known, "times", "-", how);
}

/// Four digits are enough to compare, and few enough to read.
fn rounded(value: f64) -> String {
    match value.abs() {
        size if size >= 1_000.0 => format!("{value:.0}"),
        size if size >= 100.0 => format!("{value:.1}"),
        size if size >= 1.0 => format!("{value:.2}"),
        _ => format!("{value:.4}"),
    }
}
