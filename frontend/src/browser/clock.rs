//! The time since the page was opened, and the moments the page tells of (the browser's User Timing),
//! for whoever measures it.

use web_sys::Performance;

/// Milliseconds since the page was opened; never runs backwards.
pub fn now_ms() -> f64 {
    performance().map_or(0.0, |clock| clock.now())
}

/// Notes that a moment has come. Measuring is no reason to fail: where it is not possible, nothing
/// is noted.
pub fn mark(name: &str) {
    if let Some(clock) = performance() {
        let _ = clock.mark(name);
    }
}

/// Does something and notes how long it took.
pub fn measured<T>(name: &str, work: impl FnOnce() -> T) -> T {
    let begun = format!("{name} begun");
    mark(&begun);
    let done = work();
    if let Some(clock) = performance() {
        let _ = clock.measure_with_start_mark(name, &begun);
    }
    done
}

/// The date of this device, year first.
pub fn today() -> String {
    let now = js_sys::Date::new_0();
    format!(
        "{}-{:02}-{:02}",
        now.get_full_year(),
        now.get_month() + 1,
        now.get_date()
    )
}

fn performance() -> Option<Performance> {
    gloo::utils::window().performance()
}
