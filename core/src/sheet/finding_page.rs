//! The list of findings: what, what to do, by which rule, and why one was set aside.

use super::list::{self, List};
use super::mark::Laid;
use super::paper::{Area, Lie};
use super::table::{BODY, Cell, Line, Table, column, text};
use super::{Draft, Kind, Paper, frame};
use crate::design::Design;
use crate::finding::{Finding, Severity};
use crate::picture::font::{self, Weight};
use crate::picture::{Anchor, Ink, Item, Picture, Shape};
use crate::plan::Plan;
use crate::shape::Pos;

/// Distance between lines.
const LEADING: f64 = BODY * 1.2;
/// Width of the weight's mark and word.
const WEIGHT: f64 = 22.0;
/// Space between findings.
const GAP: f64 = 3.0;

/// Findings that are open, a line each, for those who work by the sheets alone; `None` where none is.
pub(super) fn open(design: &Design) -> Option<List> {
    let open = design.findings.iter().filter(|f| f.dismissed.is_none());
    let row = |finding: &Finding| {
        let what = finding.what.trim_end_matches('.');
        Line::Row(vec![Cell::Text(what.to_string())])
    };
    let lines: Vec<Line> = open.map(row).collect();
    let heading = list::Heading {
        kind: Kind::Findings,
        title: String::from("Findings, in short"),
        subtitle: String::from(
            "Open when this was printed. What to do about each, and by which rule, the office knows.",
        ),
        name: String::from("Findings"),
        corner: String::from("Findings"),
    };
    let columns = vec![column("finding", 80.0, 1.0)];
    let table = Table { columns, lines };
    (!table.lines.is_empty()).then_some(List { heading, table })
}

/// The pages of findings; none where there are none.
pub(super) fn pages(plan: &Plan, design: &Design, paper: &Paper) -> Vec<Draft> {
    let extent = paper.extent(Lie::Portrait);
    let heading = |title: String| frame::Heading {
        kind: Kind::Findings,
        title,
        subtitle: String::from(
            "What to look at before work starts, gravest first, each with its rule and source.",
        ),
        name: String::from("Findings"),
        corner: String::from("Findings"),
        tongue: paper.tongue,
    };
    let body = frame::body(plan, extent, &heading(String::from("Findings, 888 of 888")));
    let mut pages: Vec<Picture> = Vec::new();
    let mut top = f64::INFINITY;
    for finding in &design.findings {
        let lines = lines(finding, body.width() - WEIGHT);
        let height = lines.len() as f64 * LEADING + GAP;
        if top + height > body.high.y {
            pages.push(Picture::at_scale(1.0));
            top = body.low.y + 4.0;
        }
        if let Some(page) = pages.last_mut() {
            draw(page, body, top, finding, &lines);
        }
        top += height;
    }
    let count = pages.len();
    let numbered = pages.into_iter().enumerate();
    numbered
        .map(|(place, picture)| Draft {
            heading: heading(match count {
                1 => String::from("Findings"),
                _ => format!("Findings, {} of {count}", place + 1),
            }),
            extent,
            layers: vec![Laid {
                picture,
                origin: Pos::default(),
            }],
            scale: None,
            goes_on: place > 0,
        })
        .collect()
}

/// What, what to do, source, and the reason it was set aside.
fn lines(finding: &Finding, room: f64) -> Vec<(Weight, String)> {
    let mut lines = Vec::new();
    let mut put = |words: &str, weight| {
        let wrapped = font::wrap(words, weight, BODY, room);
        lines.extend(wrapped.into_iter().map(|line| (weight, line)));
    };
    put(&finding.what, Weight::Bold);
    put(&finding.todo, Weight::Regular);
    if !finding.source.is_empty() {
        put(&format!("Source: {}.", finding.source), Weight::Regular);
    }
    if let Some(reason) = &finding.dismissed {
        put(&format!("Set aside: {reason}"), Weight::Regular);
    }
    lines
}

fn draw(page: &mut Picture, body: Area, top: f64, finding: &Finding, lines: &[(Weight, String)]) {
    let base = top + BODY * font::ASCENT;
    let middle = Pos::new(body.low.x + 2.0, base - BODY * font::CAP_HEIGHT / 2.0);
    mark(page, finding.severity, middle);
    let word = match finding.dismissed {
        Some(_) => "set aside",
        None => finding.severity.name(),
    };
    let at = Pos::new(body.low.x + 5.0, base);
    page.push(text(at, Anchor::Start, BODY, Weight::Bold, word));
    for (place, (weight, line)) in lines.iter().enumerate() {
        let at = Pos::new(body.low.x + WEIGHT, base + place as f64 * LEADING);
        page.push(text(at, Anchor::Start, BODY, *weight, line));
    }
}

/// Told by shape as well as by word: a filled square, an open triangle, an open ring.
fn mark(page: &mut Picture, severity: Severity, at: Pos) {
    let chain = |points: &[(f64, f64)]| points.iter().map(|(x, y)| at + Pos::new(*x, *y)).collect();
    let item = match severity {
        Severity::Stop => {
            let corners = chain(&[(-1.4, -1.4), (1.4, -1.4), (1.4, 1.4), (-1.4, 1.4)]);
            Item::plain(Ink::Solid, Shape::Area(corners))
        }
        Severity::Warn => {
            let corners = chain(&[(0.0, -1.6), (1.6, 1.3), (-1.6, 1.3), (0.0, -1.6)]);
            Item::plain(Ink::Box, Shape::Line(corners))
        }
        Severity::Note => Item::plain(Ink::Box, Shape::Circle { at, radius: 1.3 }),
    };
    page.push(item);
}
