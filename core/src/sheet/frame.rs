//! What every page carries: its name, the level and revision at the outer corner, the foot with
//! job, cautions and page number, and a bar to check the printer by.

use super::paper::{Area, Extent};
use super::table::{BODY, ID, text, two_lines};
use super::{Draft, caution};
use crate::picture::font::{self, MM_PER_POINT, Weight};
use crate::picture::{Anchor, Ink, Item, Picture, Shape};
use crate::plan::Plan;
use crate::shape::Pos;

/// Margins at the top, the inner side and the bottom: what printers can reach, and a little more.
const MARGIN: f64 = 11.0;
/// The outer margin, wide for a red pencil.
const OUTER: f64 = 24.0;
/// From the top of the page to the top of the body, under its heading.
const HEADING: f64 = 24.5;
/// Distance between lines of the foot.
const LEADING: f64 = BODY * 1.15;
/// Width of the job's name in the foot, and of the page number.
const SIDES: (f64, f64) = (52.0, 28.0);
/// Length of the check bar.
pub(super) const CHECK_BAR: f64 = 100.0;
/// Height left under the foot for the check bar.
const UNDER: f64 = 7.0;
/// From the check bar up to the line of the version, clear of the words beside the bar.
const OVER_BAR: f64 = 3.2;
/// The most of the width that the name in the outer corner takes.
const CORNER: f64 = 0.4;

/// The part of a page between heading and foot.
pub(super) fn body(plan: &Plan, extent: Extent) -> Area {
    let foot = foot_height(plan, extent);
    Area::new(
        Pos::new(MARGIN, HEADING),
        Pos::new(
            extent.width - OUTER,
            extent.height - MARGIN - UNDER - foot - 1.5,
        ),
    )
}

/// The job's name on one line, or two where it is long.
fn job_lines(plan: &Plan) -> Vec<String> {
    two_lines(&plan.title, Weight::Bold, ID, SIDES.0)
}

fn foot_lines(plan: &Plan, extent: Extent) -> Vec<String> {
    let room = extent.width - MARGIN - OUTER - SIDES.0 - SIDES.1 - 6.0;
    font::wrap(&caution::short(plan), Weight::Regular, BODY, room)
}

/// Height of the foot: its cautions, or the job's name over the page's.
fn foot_height(plan: &Plan, extent: Extent) -> f64 {
    let cautions = foot_lines(plan, extent).len() as f64 * LEADING;
    let names = job_lines(plan).len() as f64 * ID * 1.1 + LEADING;
    cautions.max(names) + 3.0
}

/// Draws a page's frame: which page it is, counted from 1, of how many, and the version of the plan.
pub(super) fn draw(
    page: &mut Picture,
    plan: &Plan,
    draft: &Draft,
    number: (usize, usize),
    version: &str,
) {
    heading(page, plan, draft);
    foot(page, plan, draft, number);
    check_bar(page, draft.extent);
    let at = Pos::new(
        draft.extent.width - OUTER,
        draft.extent.height - MARGIN - OVER_BAR,
    );
    let words = format!("version {version}");
    page.push(text(at, Anchor::End, BODY, Weight::Bold, &words));
}

fn heading(page: &mut Picture, plan: &Plan, draft: &Draft) {
    let right = draft.extent.width - MARGIN;
    let corner = 20.0 * MM_PER_POINT;
    let revision = format!("rev {}", plan.revision);
    let most = (right - MARGIN) * CORNER;
    let named = font::shorten(&draft.corner, Weight::Bold, corner, most);
    let wide = font::width(&named, Weight::Bold) * corner;
    let room = right - MARGIN - wide - 8.0;
    page.push(text(
        Pos::new(right, MARGIN + corner * font::CAP_HEIGHT),
        Anchor::End,
        corner,
        Weight::Bold,
        &named,
    ));
    page.push(text(
        Pos::new(right, MARGIN + 12.5),
        Anchor::End,
        ID,
        Weight::Bold,
        &revision,
    ));
    let big = 16.0 * MM_PER_POINT;
    let title = font::shorten(&draft.title, Weight::Bold, big, room);
    page.push(text(
        Pos::new(MARGIN, MARGIN + 4.2),
        Anchor::Start,
        big,
        Weight::Bold,
        &title,
    ));
    let room = room.min(right - MARGIN - 30.0);
    let under = font::shorten(&draft.subtitle, Weight::Regular, BODY, room);
    page.push(text(
        Pos::new(MARGIN, MARGIN + 10.5),
        Anchor::Start,
        BODY,
        Weight::Regular,
        &under,
    ));
}

fn foot(page: &mut Picture, plan: &Plan, draft: &Draft, (number, of): (usize, usize)) {
    let extent = draft.extent;
    let (left, right) = (MARGIN, extent.width - OUTER);
    let lines = foot_lines(plan, extent);
    let top = extent.height - MARGIN - UNDER - foot_height(plan, extent);
    let rule = vec![Pos::new(left, top), Pos::new(right, top)];
    page.push(Item::plain(Ink::Heavy, Shape::Line(rule)));
    let base = |line: usize| top + 1.5 + BODY * font::ASCENT + line as f64 * LEADING;
    let job = job_lines(plan);
    let mut put = |x, y, anchor, size, weight, words: &str| {
        if words.is_empty() {
            return;
        }
        page.push(text(Pos::new(x, y), anchor, size, weight, words));
    };
    for (place, line) in job.iter().enumerate() {
        let y = base(0) + 0.6 + place as f64 * ID * 1.1;
        put(left, y, Anchor::Start, ID, Weight::Bold, line);
    }
    let under = base(1) + 1.0 + (job.len().max(1) - 1) as f64 * ID * 1.1;
    let name = font::shorten(&draft.name, Weight::Regular, BODY, SIDES.0);
    put(left, under, Anchor::Start, BODY, Weight::Regular, &name);
    for (place, line) in lines.iter().enumerate() {
        put(
            left + SIDES.0 + 3.0,
            base(place),
            Anchor::Start,
            BODY,
            Weight::Regular,
            line,
        );
    }
    let page_number = format!("{number} of {of}");
    put(
        right,
        base(0) + 0.6,
        Anchor::End,
        ID,
        Weight::Bold,
        &page_number,
    );
    let date = font::shorten(&plan.date, Weight::Regular, BODY, SIDES.1);
    put(
        right,
        base(1) + 1.0,
        Anchor::End,
        BODY,
        Weight::Regular,
        &date,
    );
}

/// A bar of 100 mm: whoever measures it knows whether the printer kept the scale.
fn check_bar(page: &mut Picture, extent: Extent) {
    let y = extent.height - MARGIN;
    let (left, right) = (MARGIN, MARGIN + CHECK_BAR);
    let mut line = |from: (f64, f64), to: (f64, f64)| {
        let ends = vec![Pos::new(from.0, from.1), Pos::new(to.0, to.1)];
        page.push(Item::plain(Ink::Heavy, Shape::Line(ends)));
    };
    line((left, y), (right, y));
    line((left, y - 1.2), (left, y + 1.2));
    line((right, y - 1.2), (right, y + 1.2));
    let words = "100 mm on paper. If not, print at 100 %.";
    let at = Pos::new(right + 2.0, y + BODY * font::CAP_HEIGHT / 2.0);
    page.push(text(at, Anchor::Start, BODY, Weight::Regular, words));
}
