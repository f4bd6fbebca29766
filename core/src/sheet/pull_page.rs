//! The pull sheet: pull after pull where to begin, which reels to set up and how its cables go, and under
//! that every cable with its length to cut, its reel and its marks.

mod words;

use super::Kind;
use super::list::{self, List};
use super::table::{Cell, Line, Table, centred, column, figures};
use crate::design::Design;
use crate::plan::{CableId, CableKindId, CableStage, Drop, Plan};
use crate::schedule::{Chains, Cut, Pull};
use crate::units::Mm;

/// The pull sheet.
pub(super) fn list(plan: &Plan, design: &Design) -> List {
    let heading = list::Heading {
        kind: Kind::PullSheet,
        title: String::from("Cut list and pull sheet"),
        subtitle: String::from(
            "Cut lengths hold slack at both ends and waste. Label both ends before pulling.",
        ),
        name: String::from("Cut list and pull sheet"),
        corner: String::from("Pull"),
    };
    let table = table(plan, design);
    List { heading, table }
}

fn table(plan: &Plan, design: &Design) -> Table {
    let mut lines = Vec::new();
    if !design.cut_list.pulls.is_empty() {
        lines.push(Line::Break(String::from("Two people, one way to pull")));
        lines.push(Line::Note(how_to_pull()));
        lines.push(Line::Break(String::from("Reels and pulls")));
        lines.push(Line::Note(in_all(plan, design)));
    }
    let chains = Chains::of(&design.bores);
    for pull in &design.cut_list.pulls {
        lines.extend(one(plan, design, &chains, pull));
    }
    lines.extend(without_way(plan, design));
    Table {
        columns: vec![
            column("cable", 19.0, 0.0),
            figures("path", 15.0),
            figures("slack", 13.5),
            figures("cut", 19.0),
            column("reel", 33.0, 1.0),
            column("start mark", 22.0, 1.0),
            column("end mark", 22.0, 1.0),
            centred("pulled", 14.0),
            centred("labelled", 16.5),
        ],
        lines,
    }
}

/// What holds for every pull, said once.
fn how_to_pull() -> Vec<String> {
    vec![
        String::from(
            "The reels stand at the closet, and every pull starts there. One of you stays at the closet, feeds the cables into the first bore and keeps them from kinking. The other takes the heads out, bore by bore, and lets each box's cables off where the pull says so; the farthest box stands first.",
        ),
        String::from(
            "The box's end is the start mark: write down the foot mark printed on the jacket there, leave the slack, and cut at the closet, where the end mark is. The bores of a box are named from the box to the closet, those of a trunk from the closet.",
        ),
    ]
}

/// "Cat 6: 41 cables, 3,102 ft; 4 reels to open, no fewer can do."
fn in_all(plan: &Plan, design: &Design) -> Vec<String> {
    let mut said: Vec<String> = design
        .cut_list
        .kinds
        .iter()
        .map(|of| words::of_kind(plan, design, of))
        .collect();
    said.push(words::of_all(
        plan,
        &design.cut_list.tally(plan, &design.ways),
    ));
    said
}

/// A pull with its cables, box by box.
fn one(plan: &Plan, design: &Design, chains: &Chains, pull: &Pull) -> Vec<Line> {
    let course = chains.course(&design.ways, pull);
    let mut lines = vec![
        Line::Break(words::title(plan, pull)),
        Line::Note(words::instruction(plan, design, pull, &course)),
    ];
    for of_box in &course.boxes {
        let of_pull = design
            .cut_list
            .cuts
            .iter()
            .filter(|cut| cut.pull == pull.number);
        let cuts = of_pull.filter(|cut| cut.drop == of_box.drop);
        lines.extend(cuts.map(|cut| Line::Row(cells(plan, design, cut))));
        lines.push(Line::Note(words::of_box(plan, &course, of_box)));
    }
    lines
}

fn cells(plan: &Plan, design: &Design, cut: &Cut) -> Vec<Cell> {
    let reel = cut.reel.and_then(|reel| design.cut_list.reels.get(reel));
    vec![
        Cell::Id(plan.cable_label(cut.cable)),
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
    let lost: Vec<(&Drop, CableId)> = plan
        .cables()
        .filter(|(_, cable)| !is_cut(cable.id))
        .map(|(drop, cable)| (drop, cable.id))
        .collect();
    if lost.is_empty() {
        return Vec::new();
    }
    let mut lines = vec![Line::Break(String::from("No way yet: not to be pulled"))];
    for of_box in lost.chunk_by(|(one, _), (other, _)| one.id == other.id) {
        let row = |(_, id): &(&Drop, CableId)| {
            let mut cells = vec![Cell::Id(plan.cable_label(*id))];
            cells.extend(["", "", "", "no way yet"].map(|words| Cell::Text(words.to_string())));
            Line::Row(cells)
        };
        lines.extend(of_box.iter().map(row));
        let to_box = of_box.first().map(|(drop, _)| words::to_box(plan, drop));
        lines.push(Line::Note(to_box.into_iter().collect()));
    }
    lines
}

/// How many cables of a kind there are to cut, and how long they are together.
fn cut_of(design: &Design, kind: CableKindId) -> (usize, Mm) {
    let of_kind = design.cut_list.cuts.iter().filter(|cut| cut.kind == kind);
    let lengths: Vec<Mm> = of_kind.map(|cut| cut.length).collect();
    (lengths.len(), lengths.into_iter().sum())
}
