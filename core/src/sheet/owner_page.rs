//! What the owner gets, room by room, in the words in which it is agreed to elsewhere.

use super::table::{Cell, Line, Table, centred, column};
use super::{Draft, Kind, Paper, list};
use crate::agreement::{Matter, matters};
use crate::design::Design;
use crate::plan::{Item, Plan};
use crate::schedule::room_list;

/// The owner's pages.
pub(super) fn pages(plan: &Plan, design: &Design, paper: &Paper) -> Vec<Draft> {
    let heading = list::Heading {
        kind: Kind::Owner,
        title: String::from("For the owner"),
        subtitle: String::from(
            "Every outlet, access point, camera and doorbell, room by room. Cross out what is not wanted and write in what is missing.",
        ),
        name: String::from("For the owner"),
        corner: String::from("Owner"),
    };
    list::pages(plan, paper, &heading, &table(plan, design))
}

fn table(plan: &Plan, design: &Design) -> Table {
    let matters = matters(plan, design);
    let mut lines = Vec::new();
    let mut heading = String::new();
    for row in room_list(plan, &design.framing) {
        let is_its = |matter: &&Matter| matter.item == Item::Drop(row.drop);
        let Some(matter) = matters.iter().find(is_its) else {
            continue;
        };
        let here = row.heading(plan);
        if here != heading {
            lines.push(Line::Break(here.clone()));
            heading = here;
        }
        let kind = plan.drop(row.drop).map_or("", |drop| drop.kind.name());
        lines.push(line(&matter.name, kind, &matter.says));
    }
    let rest = matters
        .iter()
        .filter(|matter| matches!(matter.item, Item::Closet | Item::Date | Item::Job));
    let rest: Vec<&Matter> = rest.collect();
    if !rest.is_empty() {
        lines.push(Line::Break(String::from("The house")));
    }
    lines.extend(rest.iter().map(|m| line(&m.name, &m.what, &m.says)));
    lines.extend(signed());
    Table {
        columns: vec![
            column("drop", 19.0, 0.0),
            column("what", 34.0, 0.5),
            column("height, cables and box", 70.0, 2.0),
            centred("agreed", 16.0),
            column("to change", 34.0, 1.2),
        ],
        lines,
    }
}

fn line(name: &str, what: &str, says: &[String]) -> Line {
    Line::Row(vec![
        Cell::Strong(name.to_string()),
        Cell::Text(what.to_string()),
        Cell::Text(says.join("; ")),
        Cell::Tick,
        Cell::Blank,
    ])
}

fn signed() -> Vec<Line> {
    let empty = || Cell::Text(String::new());
    vec![
        Line::Break(String::from("Name and date")),
        Line::Row(vec![
            empty(),
            Cell::Blank,
            Cell::Blank,
            empty(),
            Cell::Blank,
        ]),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::sample;

    #[test]
    fn every_drop_is_told_once() {
        let plan = sample::house();
        let table = table(&plan, &Design::of(&plan));
        for drop in &plan.drops {
            let name = Cell::Strong(drop.label());
            let its = |line: &&Line| matches!(line, Line::Row(cells) if cells[0] == name);
            assert_eq!(
                table.lines.iter().filter(its).count(),
                1,
                "{}",
                drop.label()
            );
        }
    }
}
