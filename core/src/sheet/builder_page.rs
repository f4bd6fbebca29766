//! The builder's page: every bore in what bears, with how much of the limit it takes, the steel it gets,
//! and where the builder or the engineer signs.

use super::drill_page::{self, by_level};
use super::table::{Cell, Column, Line, Table, centred, column};
use super::{Draft, Kind, Paper, list};
use crate::bore::{DrillRow, rules_of_rows, share};
use crate::design::Design;
use crate::plan::Plan;

/// The builder's pages.
pub(super) fn pages(plan: &Plan, design: &Design, paper: &Paper) -> Vec<Draft> {
    let heading = list::Heading {
        kind: Kind::Builder,
        title: String::from("For the builder"),
        subtitle: String::from(
            "Every bore in studs, plates and joists that bear, and in outside walls. Places: from the face or end named to the bore's middle.",
        ),
        name: String::from("For the builder"),
        corner: String::from("Builder"),
    };
    list::pages(plan, paper, &heading, &table(plan, design))
}

fn table(plan: &Plan, design: &Design) -> Table {
    let rows: Vec<&DrillRow> = design
        .drill_list
        .iter()
        .filter(|row| row.is_in_what_bears(plan))
        .collect();
    let mut lines = by_level(plan, rows.iter().copied(), |row| {
        [Line::Row(cells(plan, design, row))]
    });
    if rows.is_empty() {
        let words = "No bore of this plan goes through what bears.";
        lines.push(Line::Break(String::from(words)));
    }
    lines.extend(rules(plan, design, &rows));
    lines.extend(webs(&rows));
    lines.extend(signed());
    Table {
        columns: columns(),
        lines,
    }
}

fn columns() -> Vec<Column> {
    vec![
        column("No.", 12.0, 0.0),
        column("where", 48.0, 2.0),
        column("what", 25.0, 0.6),
        column("member", 25.0, 0.6),
        column("bore", 19.0, 0.0),
        column("height", 19.0, 0.0),
        column("limit", 22.0, 0.4),
        centred("of the limit", 15.0),
        column("steel", 21.0, 0.2),
        centred("seen", 13.0),
    ]
}

fn cells(plan: &Plan, design: &Design, row: &DrillRow) -> Vec<Cell> {
    // The bores of a row go through members of one kind, but doubled studs may end within it: the one
    // that takes most of its limit speaks for all.
    let shares = row
        .bores
        .iter()
        .filter_map(|place| design.bores.get(*place));
    let shares = shares.map(|bore| share(plan, &design.framing, &design.ways, bore));
    let used = |share: &crate::bore::Share| share.used.unwrap_or(0.0);
    let most = shares.reduce(|most, next| match used(&next) > used(&most) {
        true => next,
        false => most,
    });
    let (limit, used) = most.map_or((String::new(), None), |most| (most.limit, most.used));
    vec![
        Cell::Id(row.number.to_string()),
        Cell::Text(row.location.clone()),
        Cell::Text(row.what.clone()),
        Cell::Text(row.member.clone()),
        Cell::Strong(plan.units.size(row.bit)),
        Cell::Text(row.height.clone()),
        Cell::Text(limit),
        Cell::Strong(used.map_or(String::from("no figure"), percent)),
        Cell::Text(steel(row)),
        Cell::Tick,
    ]
}

/// How much of a limit is used, rounded up: what is shown is never less than what is meant.
fn percent(used: f64) -> String {
    format!("{:.0} %", (used * 100.0 - 1e-6).ceil().max(0.0))
}

/// "2 nail plates, 1 tie", "none".
fn steel(row: &DrillRow) -> String {
    let steel = drill_page::steel(row, "nail plate");
    match steel.is_empty() {
        true => String::from("none"),
        false => steel,
    }
}

/// The rules these limits come from, and whose word stands over them.
fn rules(plan: &Plan, design: &Design, rows: &[&DrillRow]) -> Vec<Line> {
    let mut lines = vec![Line::Break(format!(
        "Limits are those of the rule set chosen ({}). The local code, the builder and the engineer decide.",
        plan.rules.name()
    ))];
    let rules = rules_of_rows(plan, &design.framing, &design.ways, &design.bores, rows);
    let said = rules.iter().map(|rule| {
        let figure = match rule.unit {
            crate::rules::Unit::Percent => format!("{:.0} %", rule.value),
            _ => plan.units.size(crate::units::Size(rule.value)),
        };
        format!("{figure}: {} ({})", rule.name, rule.source.words())
    });
    let said: Vec<String> = said.collect();
    if !said.is_empty() {
        lines.push(Line::Note(said));
    }
    lines
}

/// What has to be known of I-joists before a web is bored, and is in no plan: a line to write it on.
fn webs(rows: &[&DrillRow]) -> Vec<Line> {
    if !rows.iter().any(|row| row.member.starts_with("I-joist")) {
        return Vec::new();
    }
    let words = "I-joists, to ask for: the series, the maker's chart of holes, and by it the least distance between two bores of one web";
    vec![Line::Break(String::from(words)), written()]
}

/// A line to write on.
fn written() -> Line {
    let mut cells = vec![Cell::Text(String::new())];
    cells.extend((0..8).map(|_| Cell::Blank));
    cells.push(Cell::Text(String::new()));
    Line::Row(cells)
}

fn signed() -> Vec<Line> {
    let words = "Seen by the builder or the engineer: name, date, and what is to change";
    vec![Line::Break(String::from(words)), written(), written()]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::sample;
    use crate::plan::edit::Edit;
    use crate::plan::{Role, Wall};
    use crate::sheet::{Size, Stack};

    #[test]
    fn every_bore_in_what_bears_is_a_row_and_no_other() {
        let plan = sample::house();
        let design = Design::of(&plan);
        let bears = |row: &&DrillRow| match row.wall {
            Some(wall) => plan.wall(wall).unwrap().1.role != Role::Partition,
            None => true,
        };
        let wanted: Vec<u32> = design
            .drill_list
            .iter()
            .filter(bears)
            .map(|r| r.number)
            .collect();
        let rows = table(&plan, &design).lines;
        let found: Vec<u32> = rows
            .iter()
            .filter_map(|line| match line {
                Line::Row(cells) => match &cells[0] {
                    Cell::Id(number) => number.parse().ok(),
                    _ => None,
                },
                _ => None,
            })
            .collect();
        assert!(!wanted.is_empty());
        assert!(
            wanted.iter().all(|number| found.contains(number)),
            "{found:?}"
        );
        assert!(found.iter().all(|number| {
            design
                .drill_list
                .iter()
                .any(|row| row.number == *number && row.is_in_what_bears(&plan))
        }));
    }

    #[test]
    fn where_nothing_bears_the_page_says_so_and_can_be_signed() {
        let plan = sample::house();
        let walls = plan.levels[0].walls.iter().map(|wall| {
            Edit::SetWall(Wall {
                role: Role::Partition,
                ..*wall
            })
        });
        let plan = plan.apply(&Edit::Together(walls.collect())).unwrap();
        let mut design = Design::of(&plan);
        design.drill_list.retain(|row| row.wall.is_some());
        let table = table(&plan, &design);
        let says = |line: &Line| matches!(line, Line::Break(words) if words.starts_with("No bore"));
        assert!(table.lines.iter().any(says));
        let pages = crate::sheet::Sheets::stack(
            &plan,
            &design,
            &crate::sheet::Paper::of(Size::A4),
            Stack::Builder,
            None,
        );
        assert!(!pages.is_empty());
    }

    #[test]
    fn what_is_used_is_rounded_up() {
        assert_eq!(percent(0.714), "72 %");
        assert_eq!(percent(1.0), "100 %");
        assert_eq!(percent(0.0), "0 %");
    }
}
