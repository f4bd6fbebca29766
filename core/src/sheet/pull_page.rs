//! The pull sheet: every cable with its length to cut and its reel, by pull group.

use super::table::{Cell, Line, Table, centred, column, figures};
use super::{Draft, Kind, Paper, list};
use crate::design::Design;
use crate::framing::drop_room;
use crate::plan::{Drop, Plan};
use crate::schedule::Cut;

/// The pull sheet's pages.
pub(super) fn pages(plan: &Plan, design: &Design, paper: &Paper) -> Vec<Draft> {
    let heading = list::Heading {
        kind: Kind::PullSheet,
        title: String::from("Cut list and pull sheet"),
        subtitle: String::from(
            "Cut lengths hold slack at both ends and waste. Label both ends before pulling. Write the foot marks printed on the jacket.",
        ),
        name: String::from("Cut list and pull sheet"),
        corner: String::from("Pull"),
    };
    list::pages(plan, paper, &heading, &table(plan, design))
}

fn table(plan: &Plan, design: &Design) -> Table {
    let mut lines = Vec::new();
    let mut group = None;
    for cut in &design.cut_list.cuts {
        if group != Some((cut.kind, cut.group)) {
            group = Some((cut.kind, cut.group));
            lines.push(Line::Break(group_name(plan, design, cut)));
        }
        lines.push(Line::Row(cells(plan, design, cut)));
    }
    lines.extend(without_way(plan, design));
    Table {
        columns: vec![
            column("cable", 19.0, 0.0),
            column("kind", 20.0, 0.4),
            column("to", 34.0, 1.0),
            figures("path", 16.0),
            figures("slack", 14.0),
            figures("cut", 19.0),
            column("reel", 26.0, 0.8),
            column("start mark", 21.0, 0.6),
            column("end mark", 21.0, 0.6),
            centred("pulled", 15.0),
            centred("labelled", 17.0),
        ],
        lines,
    }
}

/// "Group 3 · Cat 6 · 4 cables".
fn group_name(plan: &Plan, design: &Design, cut: &Cut) -> String {
    let same = |other: &&Cut| other.kind == cut.kind && other.group == cut.group;
    let count = design.cut_list.cuts.iter().filter(same).count();
    let kind = plan
        .catalogue
        .cable(cut.kind)
        .map_or("", |spec| spec.name.as_str());
    let cables = if count == 1 { "cable" } else { "cables" };
    format!("Group {} · {kind} · {count} {cables}", cut.group)
}

fn cells(plan: &Plan, design: &Design, cut: &Cut) -> Vec<Cell> {
    let kind = plan
        .catalogue
        .cable(cut.kind)
        .map_or("", |spec| spec.name.as_str());
    let reel = cut.reel.and_then(|reel| design.cut_list.reels.get(reel));
    vec![
        Cell::Id(plan.cable_label(cut.cable)),
        Cell::Text(kind.to_string()),
        Cell::Text(
            plan.drop(cut.drop)
                .map_or(String::new(), |drop| destination(plan, drop)),
        ),
        Cell::Text(plan.units.total(cut.path)),
        Cell::Text(plan.units.total(cut.slack)),
        Cell::Id(plan.units.total(cut.length)),
        Cell::Text(reel.map_or(String::from("no reel holds it"), |reel| reel.name.clone())),
        Cell::Blank,
        Cell::Blank,
        Cell::Tick,
        Cell::Tick,
    ]
}

/// Cables without a way are named, never dropped.
fn without_way(plan: &Plan, design: &Design) -> Vec<Line> {
    let cut = |id| design.cut_list.cuts.iter().any(|cut| cut.cable == id);
    let lost = plan.cables().filter(|(_, cable)| !cut(cable.id));
    let mut lines: Vec<Line> = lost
        .map(|(drop, cable)| {
            let kind = plan.catalogue.cable(cable.kind);
            let mut cells = vec![
                Cell::Id(plan.cable_label(cable.id)),
                Cell::Text(kind.map_or(String::new(), |spec| spec.name.clone())),
                Cell::Text(destination(plan, drop)),
            ];
            cells.extend(["", "", "", "no way yet"].map(|words| Cell::Text(words.to_string())));
            Line::Row(cells)
        })
        .collect();
    if !lines.is_empty() {
        lines.insert(0, Line::Break(String::from("Without a way")));
    }
    lines
}

/// The name of a drop's room, or "outdoors"; `None` where no room is named.
pub(super) fn room_words(plan: &Plan, drop: &Drop) -> Option<String> {
    match drop.outdoors {
        true => Some(String::from("outdoors")),
        false => drop_room(plan, drop).map(|room| room.name.clone()),
    }
}

/// "Bed 1, outlet 16 in".
pub(super) fn destination(plan: &Plan, drop: &Drop) -> String {
    let what = match drop.height() {
        Some(height) => format!("{} {}", drop.kind.name(), plan.units.height(height)),
        None => drop.kind.name().to_string(),
    };
    match room_words(plan, drop) {
        Some(room) => format!("{room}, {what}"),
        None => what,
    }
}
