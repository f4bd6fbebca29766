//! The test record: every cable once, by its port, planned against measured.

use super::table::{Cell, Column, Line, Table, centred, column, figures};
use super::whither::Whither;
use super::{Draft, Kind, Paper, list};
use crate::design::Design;
use crate::plan::Plan;
use crate::schedule::{Port, ports, test_line};

/// The test record's pages.
pub(super) fn pages(plan: &Plan, design: &Design, paper: &Paper) -> Vec<Draft> {
    let heading = list::Heading {
        kind: Kind::TestRecord,
        title: String::from("Test record"),
        subtitle: String::from(
            "Wiremap, or continuity on coaxial cable. Planned is path and slack at both ends, as a tester reads it.",
        ),
        name: String::from("Test record"),
        corner: String::from("Test"),
    };
    let whither = Whither::of(plan, &design.framing);
    let table = Table {
        columns: columns(),
        lines: ports(plan)
            .iter()
            .map(|port| line(plan, design, &whither, port))
            .collect(),
    };
    list::pages(plan, paper, &heading, &table)
}

fn columns() -> Vec<Column> {
    vec![
        column("cable", 19.0, 0.0),
        column("port", 13.0, 0.0),
        column("to", 37.0, 2.0),
        figures("planned", 21.0),
        figures("measured", 22.0),
        centred("good", 12.0),
        column("fault, or off the plan", 34.0, 0.4),
        column("date", 20.0, 0.2),
    ]
}

fn line(plan: &Plan, design: &Design, whither: &Whither, port: &Port) -> Line {
    let line = test_line(plan, &design.cut_list, port.drop, port.cable);
    let test = plan.record.test(port.cable);
    let is_good = test.is_some_and(|test| test.is_good());
    let drop = plan.drop(port.drop);
    let spare = drop
        .is_some_and(|drop| drop.spare)
        .then(|| String::from("spare"));
    let fault = test
        .filter(|test| !test.is_good())
        .map(|test| test.fault.clone());
    let off = line.words(plan).filter(|_| line.is_far_off);
    let said: Vec<String> = [spare, fault, off].into_iter().flatten().collect();
    Line::Row(vec![
        Cell::Id(plan.cable_label(port.cable)),
        Cell::Text(port.name.clone()),
        Cell::Text(drop.map_or_else(String::new, |drop| whither.words(drop))),
        Cell::Text(match line.planned {
            Some(length) => plan.units.path(length),
            None => String::from("no way"),
        }),
        written(line.measured.map(|length| plan.units.path(length))),
        Cell::ticked(is_good),
        written((!said.is_empty()).then(|| said.join("; "))),
        written(test.map(|test| test.date.clone())),
    ])
}

/// What was noted, or a line to write it on.
pub(super) fn written(words: Option<String>) -> Cell {
    match words.filter(|words| !words.is_empty()) {
        Some(words) => Cell::Text(words),
        None => Cell::Blank,
    }
}
