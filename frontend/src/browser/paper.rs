//! Printing.

/// Asks the browser to print the page as it stands; the style sheet leaves only the pages.
pub fn print() {
    // A browser without printing says so itself.
    let _ = gloo::utils::window().print();
}
