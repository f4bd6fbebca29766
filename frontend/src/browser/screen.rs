//! What kind of screen the page is on.

/// The width under which the style sheet lays things out for a phone.
const NARROW: &str = "(max-width: 43rem)";

/// Whether the window is as narrow as a phone.
pub fn is_narrow() -> bool {
    let asked = gloo::utils::window().match_media(NARROW);
    asked.ok().flatten().is_some_and(|answer| answer.matches())
}
