//! The record of the site as JSON, and the rows of its tables.

use serde_json::{Value, json};

use crate::design::Design;
use crate::plan::{Cable, CableStage, Drop, Mark, Plan};
use crate::schedule::{Phase, RoomRow, TestLine, counts, room_list, test_line};

/// Everything noted on site, with what follows from it.
pub(super) fn record(plan: &Plan, design: &Design) -> Value {
    let counts = counts(plan);
    let record = &plan.record;
    let phase = |phase: Phase| {
        let progress = phase.progress(plan);
        json!({ "name": phase.name(), "done": progress.done, "of": progress.of })
    };
    let mark = |mark: &Option<Mark>| {
        let mark = mark.as_ref();
        mark.map(|mark| json!({ "date": mark.date, "who": mark.who }))
    };
    json!({
        "counts": {
            "on_plan": counts.on_plan,
            "in_wall": counts.in_wall,
            "labelled": counts.labelled,
            "tested": counts.tested,
            "spare": counts.spare,
            "agree": counts.agree(),
            "told": counts.told,
        },
        "phases": Phase::ALL.map(phase),
        "cables": plan.cables().map(|pair| cable(plan, design, pair)).collect::<Vec<_>>(),
        "boxes": plan.drops.iter().map(|drop| of_box(plan, drop)).collect::<Vec<_>>(),
        "left_in_the_wall": record.left.iter().map(|left| left.name.as_str()).collect::<Vec<_>>(),
        "punch": record.punch.iter().map(|item| json!({
            "item": item.label(),
            "drop": item.drop.and_then(|id| plan.drop(id)).map(Drop::label),
            "text": item.text,
            "done": item.done,
        })).collect::<Vec<_>>(),
        "photos": record.photos,
        "inspected": mark(&record.inspected),
        "handed_over": mark(&record.handed_over),
    })
}

fn cable(plan: &Plan, design: &Design, (drop, cable): (&Drop, &Cable)) -> Value {
    let line = test_line(plan, &design.cut_list, drop.id, cable.id);
    let noted = plan.record.cables.get(&cable.id);
    let at = |stage: CableStage| noted.and_then(|noted| noted.reached.get(&stage));
    let test = plan.record.test(cable.id);
    json!({
        "cable": plan.cable_label(cable.id),
        "drop": drop.label(),
        "pulled": at(CableStage::Pulled),
        "labelled": at(CableStage::Labelled),
        "terminated": at(CableStage::Terminated),
        "tested": test.map(|test| test.date.as_str()),
        "fault": test.filter(|test| !test.is_good()).map(|test| test.fault.as_str()),
        "planned_mm": line.planned.map(|length| length.0),
        "measured_mm": line.measured.map(|length| length.0),
        "too_far_off": line.is_far_off,
    })
}

fn of_box(plan: &Plan, drop: &Drop) -> Value {
    let noted = plan.record.boxes.get(&drop.id);
    let reached = crate::plan::BoxStage::ALL.map(|stage| {
        let date = noted.and_then(|noted| noted.reached.get(&stage));
        (stage.name().to_string(), json!(date))
    });
    json!({
        "drop": drop.label(),
        "reached": reached.into_iter().collect::<serde_json::Map<_, _>>(),
        "note": plan.record.box_note(drop.id),
    })
}

/// The heads of the test record.
pub(super) const TEST_HEADS: [&str; 14] = [
    "cable",
    "drop",
    "level and room",
    "kind",
    "pulled",
    "labelled",
    "terminated",
    "test",
    "fault",
    "tested",
    "planned",
    "measured",
    "unit",
    "against the plan",
];

/// A row of the test record for each cable, in the order of the room list.
pub(super) fn test_rows(plan: &Plan, design: &Design) -> Vec<Vec<String>> {
    let of_drop = |row: RoomRow| -> Vec<Vec<String>> {
        let lines = row.cables.iter();
        let lines = lines.map(|id| test_line(plan, &design.cut_list, row.drop, *id));
        lines.map(|line| test_row(plan, &row, &line)).collect()
    };
    let rooms = room_list(plan, &design.framing).into_iter();
    rooms.flat_map(of_drop).collect()
}

fn test_row(plan: &Plan, row: &RoomRow, line: &TestLine) -> Vec<String> {
    let noted = plan.record.cables.get(&line.cable);
    let at = |stage: CableStage| noticed(noted.and_then(|noted| noted.reached.get(&stage)));
    let kind = plan.cable(line.cable);
    let kind = kind.and_then(|(_, cable)| plan.catalogue.cable(cable.kind));
    let test = plan.record.test(line.cable);
    let length = |length: Option<crate::units::Mm>| {
        length.map_or_else(String::new, |length| super::csv::length(plan.units, length))
    };
    vec![
        plan.cable_label(line.cable),
        plan.drop(line.drop).map_or_else(String::new, Drop::label),
        row.heading(plan),
        kind.map_or_else(String::new, |spec| spec.name.clone()),
        at(CableStage::Pulled),
        at(CableStage::Labelled),
        at(CableStage::Terminated),
        test.map_or("", |test| if test.is_good() { "good" } else { "fault" })
            .to_string(),
        test.map_or_else(String::new, |test| test.fault.clone()),
        test.map_or_else(String::new, |test| test.date.clone()),
        length(line.planned),
        length(line.measured),
        super::csv::length_unit(plan.units).to_string(),
        line.words(plan).unwrap_or_default(),
    ]
}

/// The heads of the box record.
pub(super) const BOX_HEADS: [&str; 9] = [
    "drop",
    "level and room",
    "where",
    "box set",
    "tucked",
    "photo",
    "found",
    "plated",
    "note",
];

/// A row for each box, in the order of the room list.
pub(super) fn box_rows(plan: &Plan, design: &Design) -> Vec<Vec<String>> {
    let row = |row: RoomRow| {
        let noted = plan.record.boxes.get(&row.drop);
        let at = |stage| noticed(noted.and_then(|noted| noted.reached.get(&stage)));
        let mut cells = vec![
            plan.drop(row.drop).map_or_else(String::new, Drop::label),
            row.heading(plan),
            row.finds(plan),
        ];
        cells.extend(crate::plan::BoxStage::ALL.map(at));
        cells.push(plan.record.box_note(row.drop).to_string());
        cells
    };
    let rooms = room_list(plan, &design.framing).into_iter();
    rooms.map(row).collect()
}

/// The heads of the punch list.
pub(super) const PUNCH_HEADS: [&str; 5] = ["item", "drop", "what", "state", "date"];

/// A row for each punch item.
pub(super) fn punch_rows(plan: &Plan) -> Vec<Vec<String>> {
    let items = plan.record.punch.iter();
    let row = items.map(|item| {
        let drop = item.drop.and_then(|id| plan.drop(id));
        vec![
            item.label(),
            drop.map_or_else(String::new, Drop::label),
            item.text.clone(),
            item.done.as_ref().map_or("open", |_| "done").to_string(),
            item.done.clone().unwrap_or_default(),
        ]
    });
    row.collect()
}

/// The date of a stage that was reached, "yes" where none was given; empty where it was not.
fn noticed(date: Option<&String>) -> String {
    match date {
        None => String::new(),
        Some(date) if date.is_empty() => String::from("yes"),
        Some(date) => date.clone(),
    }
}
