//! How many pages a job takes on each paper: all of them, and each stack.

use borewright_core::design::Design;
use borewright_core::file::link;
use borewright_core::sheet::{Kind, Paper, Sheets, Size, Stack};

use crate::figure;
use crate::saved::{plans, two_storeys};

/// What a crew's stack of house B may take on letter: a stack that is carried in one pocket.
const CREW_OF_B: &str = "24";

/// Prints the section.
pub fn print() {
    for (name, plan) in plans().into_iter().chain([two_storeys()]) {
        let design = Design::long(&plan);
        // With the codes that a crew's stack carries.
        let link = link::write(&plan, link::Privacy::Everything).unwrap_or_default();
        let link = format!(
            "https://borewright.example/#{}",
            link::encode_qr_text(&link)
        );
        for size in Size::ALL {
            let paper = Paper::of(size);
            let pages = Sheets::of(&plan, &design, &paper);
            let labels = pages.iter().filter(|page| page.kind == Kind::Labels);
            let how = format!("all sheets, {} of them labels", labels.count());
            let what = format!("Pages of {name} on {}", size.name());
            figure::print(&what, pages.len() as f64, "pages", "-", &how);
            for stack in Stack::FOR {
                let pages = Sheets::stack(&plan, &design, &paper, stack, Some(&link)).len();
                let is_goal = (stack, size) == (Stack::Crew, Size::Letter) && name.contains('B');
                let goal = if is_goal { CREW_OF_B } else { "-" };
                let what = format!("Pages of {name} on {}, {}", size.name(), stack.name());
                figure::print(&what, pages as f64, "pages", goal, stack.words());
            }
        }
    }
}
