//! A table over as many pages as it needs.

use super::mark::Laid;
use super::paper::{Area, Lie};
use super::table::{BODY, Fitted, Table, text};
use super::{Draft, Kind, Paper, frame};
use crate::picture::font::Weight;
use crate::picture::{Anchor, Picture};
use crate::plan::Plan;
use crate::shape::Pos;
use crate::tongue::Tongue;

/// Space between columns of rows.
const GUTTER: f64 = 6.0;

/// What stands over a list.
pub(super) struct Heading {
    pub kind: Kind,
    pub title: String,
    pub subtitle: String,
    pub name: String,
    pub corner: String,
}

impl Heading {
    /// The heading of a page with this title, in a tongue.
    fn framed(&self, title: String, tongue: Tongue) -> frame::Heading {
        let heading = frame::Heading {
            kind: self.kind,
            title,
            subtitle: self.subtitle.clone(),
            name: self.name.clone(),
            corner: self.corner.clone(),
            tongue,
        };
        heading.said()
    }
}

/// Lays a table out over pages: upright where its columns fit, else lying.
pub(super) fn pages(plan: &Plan, paper: &Paper, heading: &Heading, table: &Table) -> Vec<Draft> {
    let tongue = paper.tongue;
    let table = table.said(tongue);
    // The page number is added to the title last: room is kept for a long one.
    let longest = heading.framed(format!("{}, 888 of 888", heading.title), tongue);
    let extents = paper.extents(Lie::Portrait);
    let fits = |extent: &&super::Extent| {
        frame::body(plan, **extent, &longest).width() >= table.least_width()
    };
    let landscape = paper.size.landscape();
    let extent = extents.iter().find(fits).or(extents.last()).copied();
    let extent = extent.unwrap_or(landscape);
    let body = frame::body(plan, extent, &longest);
    let (table, across) = fitted(&table, body);
    let columns = table.pages(body.height());
    let pages: Vec<_> = columns.chunks(across).collect();
    let count = pages.len();
    let mut drafts = Vec::new();
    for (place, columns) in pages.into_iter().enumerate() {
        let mut picture = Picture::at_scale(1.0);
        for (column, lines) in columns.iter().enumerate() {
            table.draw(&mut picture, part(body, across, column), lines);
        }
        if columns.iter().all(|lines| lines.is_empty()) {
            let at = body.low + Pos::new(0.0, 16.0);
            let words = tongue.say("Nothing to list yet.");
            picture.push(text(at, Anchor::Start, BODY, Weight::Regular, &words));
        }
        let title = match count {
            1 => heading.title.clone(),
            count => format!("{}, {} of {count}", heading.title, place + 1),
        };
        drafts.push(Draft {
            heading: heading.framed(title, tongue),
            extent,
            layers: vec![Laid {
                picture,
                origin: Pos::default(),
            }],
            scale: None,
        });
    }
    drafts
}

/// A table wrapped to the page, or to as many columns of it as find room side by side where that saves
/// pages, and how many these are.
fn fitted(table: &Table, body: Area) -> (Fitted, usize) {
    let most = ((body.width() + GUTTER) / (table.least_width() + GUTTER)).floor();
    let most = (most as usize).clamp(1, 3);
    let of = |across: usize| {
        let fitted = table.fitted(part(body, across, 0).width());
        let pages = fitted.pages(body.height()).len().div_ceil(across);
        (pages, fitted, across)
    };
    let best = (1..=most)
        .map(of)
        .min_by_key(|(pages, _, across)| (*pages, *across));
    best.map_or_else(
        || (table.fitted(body.width()), 1),
        |(_, fitted, across)| (fitted, across),
    )
}

/// One of so many columns of a page.
fn part(body: Area, across: usize, column: usize) -> Area {
    let wide = (body.width() + GUTTER) / across as f64;
    let left = body.low.x + column as f64 * wide;
    Area::new(
        Pos::new(left, body.low.y),
        Pos::new(left + wide - GUTTER, body.high.y),
    )
}
