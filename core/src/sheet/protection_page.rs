//! The protection sheet, before the walls are covered: steel, ties and seals, then every box.

use super::table::{Cell, Column, Line, Table, centred, column};
use super::whither::Whither;
use super::{Draft, Kind, Paper, list};
use crate::bore::DrillRow;
use crate::design::Design;
use crate::plan::{BoxStage, Drop, Plan};

/// The protection sheet's pages: bores, then boxes.
pub(super) fn pages(plan: &Plan, design: &Design, paper: &Paper) -> Vec<Draft> {
    let heading = |what: &str, words: &str| list::Heading {
        kind: Kind::Protection,
        title: format!("Protection sheet, {what}"),
        subtitle: format!("Before the walls are covered: {words}"),
        name: format!("Protection sheet · {what}"),
        corner: String::from("Protect"),
    };
    let bores = heading(
        "bores",
        "steel over every bore near a face, seals at floor and ceiling, photographed.",
    );
    let boxes = heading(
        "boxes",
        "cable tucked back, box closed, height and gang checked, photographed.",
    );
    let mut drafts = list::pages(plan, paper, &bores, &bore_table(design));
    drafts.extend(list::pages(plan, paper, &boxes, &box_table(plan, design)));
    drafts
}

fn bore_table(design: &Design) -> Table {
    let wanted = design
        .drill_list
        .iter()
        .filter(|row| row.nail_plates + row.ties + row.seals > 0);
    Table {
        columns: bore_columns(),
        lines: wanted.map(bore_line).collect(),
    }
}

fn bore_columns() -> Vec<Column> {
    vec![
        column("No.", 13.0, 0.0),
        column("what", 24.0, 0.6),
        column("where", 44.0, 2.0),
        centred("steel", 12.0),
        centred("ties", 11.0),
        centred("seals", 12.0),
        centred("plated", 14.0),
        centred("tied", 12.0),
        centred("sealed", 14.0),
        centred("photo", 13.0),
    ]
}

fn bore_line(row: &DrillRow) -> Line {
    let count = |count: u32| match count {
        0 => Cell::Text(String::new()),
        count => Cell::Strong(count.to_string()),
    };
    let tick = |count: u32| match count {
        0 => Cell::Text(String::new()),
        _ => Cell::Tick,
    };
    Line::Row(vec![
        Cell::Id(row.number.to_string()),
        Cell::Text(row.what.clone()),
        Cell::Text(row.location.clone()),
        count(row.nail_plates),
        count(row.ties),
        count(row.seals),
        tick(row.nail_plates),
        tick(row.ties),
        tick(row.seals),
        Cell::Tick,
    ])
}

fn box_table(plan: &Plan, design: &Design) -> Table {
    let whither = Whither::of(plan, &design.framing);
    let lines = plan.drops.iter().map(|drop| box_line(plan, &whither, drop));
    Table {
        columns: vec![
            column("drop", 17.0, 0.0),
            column("where", 44.0, 2.0),
            centred("tucked", 15.0),
            centred("closed", 15.0),
            centred("checked", 17.0),
            centred("photo", 14.0),
        ],
        lines: lines.collect(),
    }
}

fn box_line(plan: &Plan, whither: &Whither, drop: &Drop) -> Line {
    Line::Row(vec![
        Cell::Id(drop.label()),
        Cell::Text(whither.words(drop)),
        Cell::ticked(plan.record.has_box(drop.id, BoxStage::Tucked)),
        Cell::Tick,
        Cell::Tick,
        Cell::ticked(plan.record.has_box(drop.id, BoxStage::Photographed)),
    ])
}
