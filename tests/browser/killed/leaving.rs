//! The page is left a moment after an edit: loaded again, gone from, or its tab closed. Then it is opened
//! again, and the edit is there.

use super::session::drops;
use borewright_tests::Page;
use std::time::Duration;

/// Drops of the example, and of the example with one more.
const BARE: usize = 22;

/// Leaves the page so often, each time so many milliseconds after an edit as chance has it, and gives how many
/// edits were gone afterwards. An edit is one outlet placed, or the same taken back.
pub fn leave(page: &Page, times: u64, mut below: impl FnMut(u64) -> u64) -> u64 {
    page.button("22 drops");
    let mut lost = 0;
    for time in 0..times {
        let before = drops(page);
        edit(page, before);
        let after = if before == BARE { BARE + 1 } else { BARE };
        page.until("the edit is seen", || drops(page) == after);
        std::thread::sleep(Duration::from_millis(below(300)));
        match time % 3 {
            0 => page.reload(),
            1 => page.go(""),
            _ => close(page),
        }
        page.until("the job is open again", || drops(page) > 0);
        lost += u64::from(drops(page) != after);
    }
    lost
}

fn edit(page: &Page, drops: usize) {
    if drops > BARE {
        return page.press("Control+z");
    }
    page.button("Drops").tap();
    page.button("Outlet").tap();
    page.tap_at(page.labelled("Sheet").at(0.3155, 0.608));
}

/// Closes the tab at once; another one is open already, so that the browser lives on.
fn close(page: &Page) {
    let left = page.tab();
    let other = page.blank_tab();
    page.look_at(&left);
    page.close_tab(&other);
    page.go("");
}
