//! How many pages a job takes on each paper, and how many of them are labels.

use borewright_core::design::Design;
use borewright_core::sheet::{Kind, Paper, Sheets, Size};

use crate::figure;
use crate::saved::plans;

/// Prints the section.
pub fn print() {
    for (name, plan) in plans() {
        let design = Design::long(&plan);
        for size in Size::ALL {
            let pages = Sheets::of(&plan, &design, &Paper::of(size));
            let labels = pages.iter().filter(|page| page.kind == Kind::Labels);
            let how = format!("all sheets, {} of them labels", labels.count());
            let what = format!("Pages of {name} on {}", size.name());
            figure::print(&what, pages.len() as f64, "pages", "-", &how);
        }
    }
}
