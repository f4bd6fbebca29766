//! The drill list: one row a straight row of bores, with boxes to tick; under it every cable of a
//! trunk, and why the bundle was split or got steel.

use super::table::{Cell, Line, Table, centred, column};
use super::{Draft, Kind, Paper, list};
use crate::bore::DrillRow;
use crate::design::Design;
use crate::plan::{LevelId, Plan, Through};

/// A row names this many cables; more stand under it.
const SHOWN: usize = 4;

/// The drill list's pages.
pub(super) fn pages(plan: &Plan, design: &Design, paper: &Paper) -> Vec<Draft> {
    let heading = list::Heading {
        kind: Kind::DrillList,
        title: String::from("Drill list"),
        subtitle: String::from(
            "Places: from the face or end named to the bore's middle. Heights: from under the bottom plate (AFF). Centre every bore.",
        ),
        name: String::from("Drill list"),
        corner: String::from("Drill"),
    };
    list::pages(plan, paper, &heading, &table(plan, design))
}

fn table(plan: &Plan, design: &Design) -> Table {
    let mut lines = Vec::new();
    let mut level: Option<LevelId> = None;
    for row in &design.drill_list {
        if level != Some(row.level) {
            level = Some(row.level);
            let name = plan.level(row.level).map(|level| level.name.as_str());
            lines.push(Line::Break(name.unwrap_or("Level").to_string()));
        }
        lines.push(Line::Row(cells(plan, row)));
        let notes = notes(plan, design, row);
        if !notes.is_empty() {
            lines.push(Line::Note(notes));
        }
    }
    lines.extend(gone(plan, design));
    Table {
        columns: vec![
            column("No.", 11.0, 0.0),
            column("what", 21.0, 0.0),
            column("where", 50.0, 1.0),
            column("member", 27.5, 0.0),
            column("bit", 22.0, 0.0),
            column("height", 19.5, 0.0),
            column("cables through", 24.0, 0.0),
            centred("steel plates", 12.5),
            centred("seals, ties", 12.0),
            centred("drilled", 14.0),
            centred("plated", 14.0),
            centred("sealed", 14.0),
        ],
        lines,
    }
}

/// Rows of sheets before that no cable goes through any more, crossed out.
fn gone(plan: &Plan, design: &Design) -> Vec<Line> {
    let since = design.since_printed(plan);
    if since.gone.is_empty() {
        return Vec::new();
    }
    let mut lines = vec![Line::Break(String::from(
        "On earlier sheets, not to be drilled any more",
    ))];
    for row in &since.gone {
        let level = plan.level(row.level);
        let mut cells = vec![
            Cell::Struck(row.number.to_string()),
            Cell::Text(String::from(row.through.name())),
            Cell::Text(row.wall(plan).map_or_else(String::new, |wall| wall.label())),
            Cell::Text(level.map_or_else(String::new, |level| level.name.clone())),
            Cell::Text(format!("rev {}", row.revision)),
            Cell::Text(match row.through {
                Through::Studs | Through::Corner | Through::Outside => {
                    format!("{} AFF", plan.units.height(row.height))
                }
                _ => String::new(),
            }),
        ];
        cells.resize(12, Cell::Text(String::new()));
        lines.push(Line::Row(cells));
    }
    lines.push(Line::Note(vec![String::from(
        "If one is drilled already, tell the builder: what is open in a plate or an outside wall still wants its seal.",
    )]));
    lines
}

/// "New in revision 3": no sheet before has the row.
fn new(plan: &Plan, row: &DrillRow) -> Option<String> {
    let printed = &plan.printed;
    let known = printed.rows.iter().find(|known| known.number == row.number);
    let first = printed.rows.iter().map(|row| row.revision).min()?;
    match known {
        None => Some(format!("New since revision {}.", printed.revision)),
        Some(known) if known.revision == plan.revision && known.revision > first => {
            Some(format!("New in revision {}.", known.revision))
        }
        Some(_) => None,
    }
}

/// What the row has no room for: the cables of a trunk, and the reason of the crossing's first bore;
/// and whether it is new.
fn notes(plan: &Plan, design: &Design, row: &DrillRow) -> Vec<String> {
    let mut notes: Vec<String> = new(plan, row).into_iter().collect();
    if row.cables.len() > SHOWN {
        let labels: Vec<String> = row.cables.iter().map(|id| plan.cable_label(*id)).collect();
        notes.push(format!("Through it: {}", labels.join(" ")));
    }
    let bores = row
        .bores
        .iter()
        .filter_map(|place| design.bores.get(*place));
    let mut reasons = bores.filter(|bore| bore.part == 0 && !bore.reason.is_empty());
    notes.extend(reasons.next().map(|bore| bore.reason.clone()));
    notes
}

fn cells(plan: &Plan, row: &DrillRow) -> Vec<Cell> {
    let count = |count: u32| match count {
        0 => Cell::Text(String::new()),
        count => Cell::Strong(count.to_string()),
    };
    let tick_if = |wanted: bool| match wanted {
        true => Cell::Tick,
        false => Cell::Text(String::new()),
    };
    let cables = match row.cables.len() {
        count if count > SHOWN => Cell::Strong(format!("{count} cables, below")),
        _ => Cell::List(row.cables.iter().map(|id| plan.cable_label(*id)).collect()),
    };
    vec![
        Cell::Id(row.number.to_string()),
        Cell::Text(row.what.clone()),
        Cell::Text(row.location.clone()),
        Cell::Text(row.member.clone()),
        Cell::Id(plan.units.size(row.bit)),
        Cell::Text(row.height.clone()),
        cables,
        count(row.nail_plates),
        seals_and_ties(row),
        Cell::Tick,
        tick_if(row.nail_plates > 0 || row.ties > 0),
        tick_if(row.seals > 0),
    ]
}

/// "1 seal", "1 seal 1 tie".
fn seals_and_ties(row: &DrillRow) -> Cell {
    let named = |count: u32, one: &str| match count {
        0 => None,
        1 => Some(one.to_string()),
        count => Some(format!("{count} {one}s")),
    };
    let parts = [named(row.seals, "seal"), named(row.ties, "tie")];
    Cell::Text(parts.into_iter().flatten().collect::<Vec<_>>().join(" "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::frame;

    fn row(location: &str, member: &str) -> DrillRow {
        DrillRow {
            number: 112,
            level: LevelId(1),
            wall: None,
            bores: Vec::new(),
            members: 9,
            what: String::from("9 I-joist webs, floor"),
            whereabouts: None,
            location: location.to_string(),
            member: member.to_string(),
            bit: crate::units::Size::inches(1.375),
            height: String::from("mid-depth"),
            cables: Vec::new(),
            fill: 0.38,
            nail_plates: 0,
            ties: 0,
            seals: 0,
        }
    }

    /// The longest words a house is likely to give, on every paper: no cell is shortened.
    #[test]
    fn no_word_of_a_row_is_cut() {
        let plan = Plan::new();
        let table = |row: &DrillRow| {
            let mut table = table(&plan, &Design::default());
            table.lines = vec![Line::Row(cells(&plan, row))];
            table
        };
        let rows = [
            row(
                "joists 12 to 18 from W14, 17' 10-13/16\" in from outside of W12",
                "I-joist 11-7/8 in, maker's chart",
            ),
            row(
                "W12, studs 10 to 13 from its W14 end: jack, jack, king, stud",
                "exterior 2x6",
            ),
            row(
                "W12, stud 27 from its W11 end, 14-13/16\" past its far face",
                "sawn joist 9-1/4 in",
            ),
            row(
                "W7 after stud 10 from its W1 end to W6 after stud 9 from its W4 end",
                "bearing 2x4",
            ),
        ];
        for size in crate::sheet::Size::ALL {
            let body = frame::body(&plan, size.landscape());
            for row in &rows {
                let table = table(row);
                assert!(body.width() >= table.least_width(), "{size:?}");
                let fitted = table.clone().fitted(body.width());
                assert_eq!(fitted.lines, table.lines, "{size:?}");
            }
        }
    }
}
