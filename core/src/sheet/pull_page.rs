//! The pull sheet: every cable with its length to cut and its reel, by pull group.

use super::table::{Cell, Line, Table, centred, column, figures};
use super::{Draft, Kind, Paper, list};
use crate::design::Design;
use crate::framing::drop_room;
use crate::plan::{CableId, CableStage, Drop, Plan};
use crate::schedule::Cut;
use crate::units::Mm;

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
    let (mut kind, mut trunk) = (None, None);
    for cut in &design.cut_list.cuts {
        if kind != Some(cut.kind) {
            kind = Some(cut.kind);
            trunk = None;
            lines.push(Line::Break(reels_of(plan, design, cut)));
        }
        let next = trunk_of(design, cut);
        if trunk != Some(next) {
            trunk = Some(next);
            lines.push(Line::Break(trunk_name(plan, design, cut)));
        }
        lines.push(Line::Row(cells(plan, design, cut)));
    }
    lines.extend(without_way(plan, design));
    Table {
        columns: vec![
            figures("pull", 11.0),
            column("cable", 19.0, 0.0),
            column("to", 34.0, 1.0),
            figures("path", 16.0),
            figures("slack", 14.0),
            figures("cut", 19.0),
            column("reel", 32.0, 0.8),
            column("start mark", 21.0, 0.6),
            column("end mark", 21.0, 0.6),
            centred("pulled", 15.0),
            centred("labelled", 17.0),
        ],
        lines,
    }
}

fn kind_name<'p>(plan: &'p Plan, cut: &Cut) -> &'p str {
    let kind = plan.catalogue.cable(cut.kind);
    kind.map_or("", |spec| spec.name.as_str())
}

/// "Cat 6 · 41 cables, 3,102 ft · 4 reels to open, no fewer can do".
fn reels_of(plan: &Plan, design: &Design, cut: &Cut) -> String {
    let cuts = design.cut_list.cuts.iter();
    let lengths: Vec<Mm> = cuts
        .filter(|other| other.kind == cut.kind)
        .map(|other| other.length)
        .collect();
    let cables = counted(lengths.len(), "cable");
    let total = plan.units.total(lengths.into_iter().sum());
    let mut words = format!("{} · {cables}, {total}", kind_name(plan, cut));
    if let Some(reels) = design.cut_list.kind(cut.kind) {
        let proof = match reels.is_proved() {
            true => String::from("no fewer can do"),
            false => format!("{} might do", reels.fewest_possible),
        };
        words += &format!(" · {} to open, {proof}", counted(reels.new_reels, "reel"));
    }
    words
}

/// The trunk a cable is pulled in with others of its kind; `None` for one pulled alone.
fn trunk_of(design: &Design, cut: &Cut) -> Option<usize> {
    let shared = |other: &Cut| {
        (other.kind, other.trunk) == (cut.kind, cut.trunk) && other.cable != cut.cable
    };
    cut.trunk
        .filter(|_| design.cut_list.cuts.iter().any(shared))
}

/// "Trunk by bore 12 · 7 cables, 2 reels to pull from: 4 pulls".
fn trunk_name(plan: &Plan, design: &Design, cut: &Cut) -> String {
    let Some(trunk) = trunk_of(design, cut) else {
        return format!("{} · pulled one by one", kind_name(plan, cut));
    };
    let bore = design.bores.iter().find(|bore| bore.crossing == trunk);
    let name = bore.map_or_else(String::new, |bore| format!(" by bore {}", bore.number));
    let reels = design.cut_list.kind(cut.kind);
    let split = reels.and_then(|of| of.split.iter().find(|split| split.crossing == trunk));
    let how = match (split, reels) {
        (Some(split), Some(reels)) => format!(
            "{}, {} to pull from: {}",
            counted(split.cables, "cable"),
            counted(reels.at_hand, "reel"),
            counted(split.pulls, "pull")
        ),
        _ => {
            let same = |other: &&Cut| (other.kind, other.trunk) == (cut.kind, cut.trunk);
            let cables = design.cut_list.cuts.iter().filter(same).count();
            format!("{}, one pull", counted(cables, "cable"))
        }
    };
    format!("{} · trunk{name} · {how}", kind_name(plan, cut))
}

fn counted(count: usize, noun: &str) -> String {
    match count {
        1 => format!("1 {noun}"),
        _ => format!("{count} {noun}s"),
    }
}

fn cells(plan: &Plan, design: &Design, cut: &Cut) -> Vec<Cell> {
    let reel = cut.reel.and_then(|reel| design.cut_list.reels.get(reel));
    vec![
        Cell::Text(cut.group.to_string()),
        Cell::Id(plan.cable_label(cut.cable)),
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
        Cell::ticked(plan.record.has_cable(cut.cable, CableStage::Pulled)),
        Cell::ticked(plan.record.has_cable(cut.cable, CableStage::Labelled)),
    ]
}

/// Cables without a way are named, never dropped.
fn without_way(plan: &Plan, design: &Design) -> Vec<Line> {
    let is_cut = |id| design.cut_list.cuts.iter().any(|cut| cut.cable == id);
    let mut lines = Vec::new();
    for (place, spec) in plan.catalogue.cables.iter().enumerate() {
        let lost = plan
            .cables()
            .filter(|(_, cable)| usize::from(cable.kind.0) == place && !is_cut(cable.id));
        let rows: Vec<Line> = lost
            .map(|(drop, cable)| lost_row(plan, drop, cable.id))
            .collect();
        if !rows.is_empty() {
            lines.push(Line::Break(format!("{} · without a way", spec.name)));
        }
        lines.extend(rows);
    }
    lines
}

fn lost_row(plan: &Plan, drop: &Drop, cable: CableId) -> Line {
    let mut cells = vec![
        Cell::Blank,
        Cell::Id(plan.cable_label(cable)),
        Cell::Text(destination(plan, drop)),
    ];
    cells.extend(["", "", "", "no way yet"].map(|words| Cell::Text(words.to_string())));
    Line::Row(cells)
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
