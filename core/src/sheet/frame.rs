//! What every page carries: its name, the level and revision at the outer corner, the foot with
//! job, cautions and page number, and a bar to check the printer by.

use super::caution;
use super::paper::{Area, Extent};
use super::table::{BODY, ID, text};
use super::{Draft, Kind};
use crate::picture::font::{self, MM_PER_POINT, Weight};
use crate::picture::{Anchor, Ink, Item, Picture, Shape};
use crate::plan::Plan;
use crate::shape::Pos;
use crate::tongue::Tongue;

/// Margins at the top, the inner side and the bottom: what printers can reach, and a little more.
const MARGIN: f64 = 9.5;
/// The outer margin, wide for a red pencil.
pub(super) const OUTER: f64 = 24.0;
/// From the top of the heading to the base line of the title, and of what stands under it.
const TITLE: (f64, f64) = (4.2, 10.5);
/// From the base line of the heading's last line to the body.
const CLEAR: f64 = 2.4;
/// Distance between lines of the foot and of the heading.
const LEADING: f64 = BODY * 1.15;
/// Width of the job's name in the foot.
const JOB: f64 = 48.0;
/// Length of the check bar.
pub(super) const CHECK_BAR: f64 = 100.0;
/// Height left under the foot for the check bar.
const UNDER: f64 = 4.6;
/// The most of the width that the name in the outer corner takes.
const CORNER: f64 = 0.4;
/// Width kept for the revision beside what stands under the title.
const REVISION: f64 = 30.0;
/// Sizes a title is tried at, points.
const TITLES: [f64; 3] = [16.0, 13.0, 10.0];
/// Sizes the name in the outer corner is tried at, points.
const CORNERS: [f64; 4] = [20.0, 16.0, 13.0, 10.0];
/// Between the revision and the name in the corner beside it.
const BESIDE: f64 = 4.0;
/// The most lines that a job's name takes in the foot.
const JOB_LINES: usize = 8;

/// What stands over a page and in its foot.
#[derive(Clone, Debug)]
pub(super) struct Heading {
    /// What the page is.
    pub kind: Kind,
    /// Over it, in large type.
    pub title: String,
    /// Under the title.
    pub subtitle: String,
    /// What the page is called in the preview.
    pub name: String,
    /// At the outer corner.
    pub corner: String,
    /// The tongue of its fixed words.
    pub tongue: Tongue,
}

impl Heading {
    /// The heading in its tongue.
    pub fn said(self) -> Self {
        let say = |words: &str| self.tongue.say(words);
        Self {
            title: say(&self.title),
            subtitle: say(&self.subtitle),
            name: say(&self.name),
            corner: say(&self.corner),
            ..self
        }
    }

    /// The heading of a page that goes on from the one before: what holds for all of them is said on the first.
    pub fn going_on(&self) -> Self {
        Self {
            subtitle: String::new(),
            ..self.clone()
        }
    }
}

/// The part of a page between heading and foot.
pub(super) fn body(plan: &Plan, extent: Extent, heading: &Heading) -> Area {
    let foot = Foot::of(plan, extent, heading);
    Area::new(
        Pos::new(MARGIN, MARGIN + Head::of(extent, heading).height()),
        Pos::new(
            extent.width - OUTER,
            extent.height - MARGIN - UNDER - foot.height() - 1.5,
        ),
    )
}

/// A heading with other words at the outer corner; `None` where they would be cut, or take room from the body.
pub(super) fn cornered(extent: Extent, heading: &Heading, corner: String) -> Option<Heading> {
    let room = (extent.width - 2.0 * MARGIN) * CORNER;
    let (_, lines) = sized(&corner, &CORNERS, room);
    let other = Heading {
        corner,
        ..heading.clone()
    };
    let height = |heading| Head::of(extent, heading).height();
    (lines.len() == 1 && height(&other) <= height(heading)).then_some(other)
}

/// Draws a page's frame: which page it is, counted from 1, of how many, and the version of the plan.
pub(super) fn draw(
    page: &mut Picture,
    plan: &Plan,
    draft: &Draft,
    number: (usize, usize),
    version: &str,
) {
    let tongue = draft.heading.tongue;
    Head::of(draft.extent, &draft.heading).draw(page, plan, draft.extent, tongue);
    Foot::of(plan, draft.extent, &draft.heading).draw(page, draft.extent, number, tongue);
    check_bar(page, draft.extent, tongue);
    let at = Pos::new(
        MARGIN + CHECK_BAR + 4.0,
        draft.extent.height - MARGIN + BODY * font::CAP_HEIGHT / 2.0,
    );
    let words = tongue.say(&format!("version {version}"));
    page.push(text(at, Anchor::Start, BODY, Weight::Bold, &words));
}

/// Bold words at the first of some sizes at which they fit one line, else wrapped at the last.
fn sized(words: &str, points: &[f64], room: f64) -> (f64, Vec<String>) {
    let wide = font::width(words, Weight::Bold) * MM_PER_POINT;
    let fits = points.iter().find(|points| wide * **points <= room);
    let last = points.last().copied().unwrap_or(10.0);
    let size = fits.copied().unwrap_or(last) * MM_PER_POINT;
    (size, font::wrap(words, Weight::Bold, size, room))
}

/// The heading as it is set.
struct Head {
    corner: (f64, String),
    title: (f64, Vec<String>),
    under: Vec<String>,
}

impl Head {
    fn of(extent: Extent, heading: &Heading) -> Self {
        let wide = extent.width - 2.0 * MARGIN;
        let (size, lines) = sized(&heading.corner, &CORNERS, wide * CORNER);
        let corner = match lines.as_slice() {
            [one] => one.clone(),
            // What is longer than a corner can hold stands in the title and in the foot.
            _ => font::shorten(&heading.corner, Weight::Bold, size, wide * CORNER),
        };
        let taken = font::width(&corner, Weight::Bold) * size;
        let revised = match heading.subtitle.is_empty() {
            true => REVISION,
            false => 0.0,
        };
        let room = (wide - taken - revised - 8.0).max(wide * 0.3);
        let under = room.min(wide - REVISION);
        Self {
            corner: (size, corner),
            title: sized(&heading.title, &TITLES, room),
            under: font::wrap(&heading.subtitle, Weight::Regular, BODY, under),
        }
    }

    /// Base line of the first line under the title.
    fn under_at(&self) -> f64 {
        TITLE.1 + self.title.1.len().saturating_sub(1) as f64 * LEADING
    }

    /// Whether nothing stands under the title.
    fn is_going_on(&self) -> bool {
        self.under.iter().all(String::is_empty)
    }

    fn height(&self) -> f64 {
        let lines = self.under.len().saturating_sub(1) as f64 * LEADING;
        match self.is_going_on() {
            true => self.under_at() - (TITLE.1 - TITLE.0) + CLEAR,
            false => self.under_at() + lines + CLEAR,
        }
    }

    fn draw(&self, page: &mut Picture, plan: &Plan, extent: Extent, tongue: Tongue) {
        let right = extent.width - MARGIN;
        let (size, corner) = &self.corner;
        let cap = 20.0 * MM_PER_POINT * font::CAP_HEIGHT;
        let mut put = |x: f64, y: f64, anchor, size, weight, words: &str| {
            page.push(text(Pos::new(x, MARGIN + y), anchor, size, weight, words));
        };
        put(right, cap, Anchor::End, *size, Weight::Bold, corner);
        let revision = tongue.say(&format!("rev {}", plan.revision));
        // Beside the name in the corner where nothing stands under the title.
        let (x, y) = match self.is_going_on() {
            true => (
                right - font::width(corner, Weight::Bold) * size - BESIDE,
                cap,
            ),
            false => (right, 12.5),
        };
        put(x, y, Anchor::End, ID, Weight::Bold, &revision);
        let (size, title) = &self.title;
        for (down, line) in title.iter().enumerate() {
            let y = TITLE.0 + down as f64 * LEADING;
            put(MARGIN, y, Anchor::Start, *size, Weight::Bold, line);
        }
        for (down, line) in self.under.iter().enumerate() {
            let y = self.under_at() + down as f64 * LEADING;
            put(MARGIN, y, Anchor::Start, BODY, Weight::Regular, line);
        }
    }
}

/// The foot as it is set.
struct Foot {
    job: (f64, Vec<String>),
    /// The date, where there is one, and what to mind.
    cautions: Vec<String>,
}

impl Foot {
    fn of(plan: &Plan, extent: Extent, heading: &Heading) -> Self {
        let room = extent.width - MARGIN - OUTER - JOB - 3.0;
        let cautions = heading.tongue.say(&caution::short(plan));
        let dated = match plan.date.trim().is_empty() {
            true => cautions,
            false => format!("{} · {cautions}", plan.date),
        };
        Self {
            job: job(plan),
            cautions: font::wrap(&dated, Weight::Regular, BODY, room),
        }
    }

    /// Height of the lines of the job's name.
    fn job_height(&self) -> f64 {
        self.job.1.len().max(1) as f64 * self.job.0 * 1.1
    }

    fn height(&self) -> f64 {
        let text = |lines: usize| lines as f64 * LEADING;
        text(self.cautions.len()).max(self.job_height()) + 3.0
    }

    fn draw(
        &self,
        page: &mut Picture,
        extent: Extent,
        (number, of): (usize, usize),
        tongue: Tongue,
    ) {
        let (left, right) = (MARGIN, extent.width - OUTER);
        let top = extent.height - MARGIN - UNDER - self.height();
        let rule = vec![Pos::new(left, top), Pos::new(right, top)];
        page.push(Item::plain(Ink::Heavy, Shape::Line(rule)));
        let base = top + 1.5 + BODY * font::ASCENT;
        let mut put = |x: f64, y: f64, anchor, size, weight, lines: &[String], step: f64| {
            for (down, words) in lines.iter().enumerate() {
                let at = Pos::new(x, y + down as f64 * step);
                page.push(text(at, anchor, size, weight, words));
            }
        };
        let (size, job) = &self.job;
        let (start, end) = (Anchor::Start, Anchor::End);
        let (plain, bold) = (Weight::Regular, Weight::Bold);
        put(left, base + 0.6, start, *size, bold, job, size * 1.1);
        let beside = left + JOB + 3.0;
        put(beside, base, start, BODY, plain, &self.cautions, LEADING);
        let number = [tongue.say(&format!("{number} of {of}"))];
        let y = extent.height - MARGIN + ID * font::CAP_HEIGHT / 2.0;
        put(right, y, end, ID, bold, &number, LEADING);
    }
}

/// The job's name on two lines, smaller on more lines where it is long.
fn job(plan: &Plan) -> (f64, Vec<String>) {
    let lines = font::wrap(&plan.title, Weight::Bold, ID, JOB);
    if lines.len() <= 2 {
        return (ID, lines);
    }
    let mut lines = font::wrap(&plan.title, Weight::Bold, BODY, JOB);
    if lines.len() > JOB_LINES {
        lines.truncate(JOB_LINES);
        if let Some(last) = lines.last_mut() {
            *last = font::shorten(&format!("{last} …"), Weight::Bold, BODY, JOB);
        }
    }
    (BODY, lines)
}

/// A bar of 100 mm: whoever measures it knows whether the printer kept the scale.
fn check_bar(page: &mut Picture, extent: Extent, tongue: Tongue) {
    let y = extent.height - MARGIN;
    let (left, right) = (MARGIN, MARGIN + CHECK_BAR);
    let mut line = |from: (f64, f64), to: (f64, f64)| {
        let ends = vec![Pos::new(from.0, from.1), Pos::new(to.0, to.1)];
        page.push(Item::plain(Ink::Heavy, Shape::Line(ends)));
    };
    line((left, y), (right, y));
    line((left, y - 1.2), (left, y + 1.2));
    line((right, y - 1.2), (right, y + 1.2));
    let words = tongue.say("100 mm at 100 %");
    let at = Pos::new((left + right) / 2.0, y - 0.8);
    page.push(text(at, Anchor::Middle, BODY, Weight::Regular, &words));
}
