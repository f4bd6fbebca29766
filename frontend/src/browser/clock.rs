//! The time since the page was opened.

/// Milliseconds since the page was opened; never runs backwards.
pub fn now_ms() -> f64 {
    gloo::utils::window()
        .performance()
        .map_or(0.0, |clock| clock.now())
}
