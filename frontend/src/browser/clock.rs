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
    date(&js_sys::Date::new_0())
}

/// The date and the time of day of this device, year first: "2026-06-03 14:05".
pub fn now() -> String {
    let now = js_sys::Date::new_0();
    format!(
        "{} {:02}:{:02}",
        date(&now),
        now.get_hours(),
        now.get_minutes()
    )
}

/// This moment, milliseconds since 1970 by this device's clock.
pub fn moment() -> u64 {
    js_sys::Date::now().max(0.0) as u64
}

/// A moment in words: "today 14:05", "2026-06-03".
pub fn told(moment: u64) -> String {
    let then = js_sys::Date::new(&(moment as f64).into());
    let date = date(&then);
    match date == today() {
        true => format!("today {}:{:02}", then.get_hours(), then.get_minutes()),
        false => date,
    }
}

fn date(date: &js_sys::Date) -> String {
    format!(
        "{}-{:02}-{:02}",
        date.get_full_year(),
        date.get_month() + 1,
        date.get_date()
    )
}

fn performance() -> Option<Performance> {
    gloo::utils::window().performance()
}
