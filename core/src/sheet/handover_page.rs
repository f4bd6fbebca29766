//! The handover record: four counts, how far every part of the work is, what is still open, and where
//! to sign.

use super::table::{Cell, Line, Table, column};
use super::test_page::written;
use super::{Draft, Kind, Paper, list};
use crate::design::Design;
use crate::plan::{Drop, Mark, Plan};
use crate::schedule::{Phase, counts, test_lines};

/// The handover record's pages; none as long as nothing was noted on site.
pub(super) fn pages(plan: &Plan, design: &Design, paper: &Paper) -> Vec<Draft> {
    if plan.record.is_empty() {
        return Vec::new();
    }
    let heading = list::Heading {
        kind: Kind::Handover,
        title: String::from("Handover record"),
        subtitle: String::from(
            "How the job stands against the plan of this revision. Test record, plans, boxes and closet follow.",
        ),
        name: String::from("Handover record"),
        corner: String::from("Handover"),
    };
    let mut lines = four_counts(plan);
    lines.extend(work(plan));
    lines.extend(open(plan, design));
    lines.extend(signed(plan));
    let table = Table {
        columns: vec![
            column("what", 62.0, 1.0),
            column("how it stands", 40.0, 0.8),
            column("date and name", 56.0, 0.6),
        ],
        lines,
    };
    list::pages(plan, paper, &heading, &table)
}

fn row(what: &str, stands: String, who: Cell) -> Line {
    Line::Row(vec![
        Cell::Text(what.to_string()),
        Cell::Strong(stands),
        who,
    ])
}

fn empty() -> Cell {
    Cell::Text(String::new())
}

fn four_counts(plan: &Plan) -> Vec<Line> {
    let counts = counts(plan);
    let verdict = match counts.agree() {
        true => "Four counts · all agree",
        false => "Four counts · they do not all agree",
    };
    let tested = match counts.spare {
        0 => counts.tested.to_string(),
        spare => format!("{}, {spare} spare not tested", counts.tested),
    };
    let mut lines = vec![
        Line::Break(String::from(verdict)),
        row("cables on the plan", counts.on_plan.to_string(), empty()),
        row("cables in the wall", counts.in_wall.to_string(), empty()),
        row(
            "labelled on both ends",
            counts.labelled.to_string(),
            empty(),
        ),
        row("lines in the test record", tested, empty()),
    ];
    if !counts.told.is_empty() {
        lines.push(Line::Note(counts.told));
    }
    lines
}

fn work(plan: &Plan) -> Vec<Line> {
    let mut lines = vec![Line::Break(String::from("The work"))];
    let parts = Phase::ALL
        .into_iter()
        .filter(|phase| *phase != Phase::Handover);
    lines.extend(parts.map(|phase| {
        let progress = phase.progress(plan);
        let stands = match progress.of {
            0 => String::from("nothing"),
            of => format!("{} of {of} done", progress.done),
        };
        row(phase.name(), stands, empty())
    }));
    lines
}

/// Open punch items, faults, and lengths far off the plan.
fn open(plan: &Plan, design: &Design) -> Vec<Line> {
    let mut lines = Vec::new();
    for item in plan.record.punch.iter().filter(|item| item.done.is_none()) {
        let drop = item.drop.and_then(|id| plan.drop(id));
        let about = drop.map_or_else(|| String::from("job"), Drop::label);
        let what = format!("{} · {about}", item.label());
        lines.push(row(&what, item.text.clone(), empty()));
    }
    for line in test_lines(plan, &design.cut_list) {
        let name = plan.cable_label(line.cable);
        let fault = plan.record.test(line.cable).filter(|test| !test.is_good());
        if let Some(test) = fault {
            lines.push(row(
                &format!("{name} · fault"),
                test.fault.clone(),
                written(Some(test.date.clone())),
            ));
        }
        if let Some(words) = line.words(plan).filter(|_| line.is_far_off) {
            lines.push(row(&format!("{name} · length"), words, empty()));
        }
    }
    match lines.is_empty() {
        true => lines,
        false => std::iter::once(Line::Break(String::from("Still open")))
            .chain(lines)
            .collect(),
    }
}

fn signed(plan: &Plan) -> Vec<Line> {
    let record = &plan.record;
    let mark = |what: &str, mark: &Option<Mark>| {
        let stands = mark.as_ref().map_or("not yet", |_| "done");
        let who = mark.as_ref().map(words);
        row(what, stands.to_string(), written(who))
    };
    let mut lines = vec![
        Line::Break(String::from("Inspected and handed over")),
        mark("inspected before cover", &record.inspected),
        mark("handed over", &record.handed_over),
    ];
    if !record.photos.is_empty() {
        lines.push(row("pictures before cover", record.photos.clone(), empty()));
    }
    for who in ["signed, for the contractor", "signed, for the owner"] {
        lines.push(row(who, String::new(), Cell::Blank));
    }
    lines
}

/// "2026-09-04, Pat Example".
fn words(mark: &Mark) -> String {
    let parts = [mark.date.as_str(), mark.who.as_str()];
    let parts: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    parts.join(", ")
}
