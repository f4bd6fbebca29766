//! A table over as many pages as it needs.

use super::mark::Laid;
use super::paper::Lie;
use super::table::{BODY, Table, text};
use super::{Draft, Kind, Paper, frame};
use crate::picture::font::Weight;
use crate::picture::{Anchor, Picture};
use crate::plan::Plan;
use crate::shape::Pos;

/// What stands over a list.
pub(super) struct Heading {
    pub kind: Kind,
    pub title: String,
    pub subtitle: String,
    pub name: String,
    pub corner: String,
}

/// Lays a table out over pages: upright where its columns fit, else lying.
pub(super) fn pages(plan: &Plan, paper: &Paper, heading: &Heading, table: &Table) -> Vec<Draft> {
    let extents = paper.extents(Lie::Portrait);
    let fits = |extent: &&super::Extent| frame::body(plan, **extent).width() >= table.least_width();
    let landscape = paper.size.landscape();
    let extent = extents.iter().find(fits).or(extents.last()).copied();
    let extent = extent.unwrap_or(landscape);
    let body = frame::body(plan, extent);
    let table = table.clone().fitted(body.width());
    let pages = table.pages(body.height());
    let count = pages.len();
    let mut drafts = Vec::new();
    for (place, lines) in pages.into_iter().enumerate() {
        let mut picture = Picture::at_scale(1.0);
        table.draw(&mut picture, body, lines);
        if lines.is_empty() {
            let at = body.low + Pos::new(0.0, 16.0);
            let words = "Nothing to list yet.";
            picture.push(text(at, Anchor::Start, BODY, Weight::Regular, words));
        }
        drafts.push(Draft {
            kind: heading.kind,
            title: match count {
                1 => heading.title.clone(),
                count => format!("{}, {} of {count}", heading.title, place + 1),
            },
            subtitle: heading.subtitle.clone(),
            name: heading.name.clone(),
            corner: heading.corner.clone(),
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
