//! One line of figures, and how times are taken.

use std::hint::black_box;
use std::time::Duration;

#[cfg(not(target_family = "wasm"))]
pub use std::time::Instant;
#[cfg(target_family = "wasm")]
pub use wasm_bindgen_test::Instant;

/// Prints one line: name, value, unit, goal, how it was measured.
pub fn print(name: &str, value: f64, unit: &str, goal: &str, how: &str) {
    let line = format!("{name} | {} | {unit} | {goal} | {how}", rounded(value));
    #[cfg(target_family = "wasm")]
    wasm_bindgen_test::console_log!("{line}");
    #[cfg(not(target_family = "wasm"))]
    println!("{line}");
}

/// Prints a time, and beside it the ratio to [`known_work`] measured just before.
pub fn print_time(name: &str, goal: &str, how: &str, work: impl FnMut()) {
    let known = median(9, known_work);
    let time = median(9, work);
    let ratio = time.as_secs_f64() / known.as_secs_f64();
    print(
        &format!("{name}, time"),
        time.as_secs_f64() * 1e3,
        "ms",
        goal,
        how,
    );
    let how = format!("{how}; one is a million square roots in a row, in the same run");
    print(&format!("{name}, ratio"), ratio, "times", "-", &how);
}

/// A million square roots, each waiting for the one before.
fn known_work() {
    let mut value = black_box(2.0_f64);
    for _ in 0..1_000_000 {
        value = (value + 1.0).sqrt();
    }
    black_box(value);
}

fn median(times: usize, mut work: impl FnMut()) -> Duration {
    let mut all: Vec<Duration> = (0..times).map(|_| timed(&mut work)).collect();
    all.sort_unstable();
    all[times / 2]
}

fn timed(work: &mut impl FnMut()) -> Duration {
    let start = Instant::now();
    work();
    start.elapsed()
}

/// Four digits are enough to compare, and few enough to read.
fn rounded(value: f64) -> String {
    match value.abs() {
        0.0 => "0".into(),
        size if size >= 1_000.0 => format!("{value:.0}"),
        size if size >= 1.0 => format!("{value:.2}"),
        size if size >= 1e-3 => format!("{value:.4}"),
        _ => format!("{value:.1e}"),
    }
}
