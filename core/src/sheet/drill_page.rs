//! The drill list: one row a straight row of bores, with every cable through it and boxes to tick;
//! under it why a bundle was split or got steel.

use super::Kind;
use super::cables;
use super::list::{self, List};
use super::table::{Cell, Line, Table, centred, column};
use crate::bore::{self, Along, Bore, DrillRow};
use crate::design::Design;
use crate::plan::{LevelId, Plan, Through};
use crate::route::Member;
use crate::rules::trade::{PRACTICE, SOFFIT_HOLE};
use crate::units::counted;

/// Beside the box to tick of what bears, which the builder is shown first.
const ASK: &str = "ask";

/// The drill list.
pub(super) fn list(plan: &Plan, design: &Design) -> List {
    let heading = list::Heading {
        kind: Kind::DrillList,
        title: String::from("Drill list"),
        subtitle: String::from(
            "Places: from the face or end named to the bore's middle. AFF: from under the bottom plate, the floor's finish not counted. Centre every bore. Ask: it goes through what bears, the builder sees it before you drill. Steel: one plate on each face. D1A/B: cables D1A and D1B. Drilled elsewhere: in red in the margin.",
        ),
        name: String::from("Drill list"),
        corner: String::from("Drill"),
    };
    let table = table(plan, design);
    List { heading, table }
}

fn table(plan: &Plan, design: &Design) -> Table {
    let mut lines = by_level(plan, &design.drill_list, |row| {
        let notes = notes(plan, design, row);
        let notes = (!notes.is_empty()).then_some(Line::Note(notes));
        [Line::Row(cells(plan, row))].into_iter().chain(notes)
    });
    lines.extend(gone(plan, design));
    Table {
        columns: vec![
            column("No.", 12.5, 0.0),
            column("bit", 19.0, 0.0),
            column("where", 40.0, 1.0),
            column("what", 30.0, 0.8),
            column("height", 19.5, 0.0),
            column("cables through", 38.0, 1.0),
            centred("drilled", 19.5),
            column("steel nailed", 24.5, 0.0),
            column("sealed", 14.5, 0.0),
        ],
        lines,
    }
}

/// The lines of rows, with the name of each level over the first of its own.
pub(super) fn by_level<'r, L: IntoIterator<Item = Line>>(
    plan: &Plan,
    rows: impl IntoIterator<Item = &'r DrillRow>,
    of_row: impl Fn(&DrillRow) -> L,
) -> Vec<Line> {
    let mut lines = Vec::new();
    let mut level: Option<LevelId> = None;
    for row in rows {
        if level != Some(row.level) {
            level = Some(row.level);
            let name = plan.level(row.level).map(|level| level.name.as_str());
            lines.push(Line::Break(name.unwrap_or("Level").to_string()));
        }
        lines.extend(of_row(row));
    }
    lines
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
        let wall = row.wall(plan).map(|wall| format!("{}, ", wall.label()));
        let level = level.map_or("", |level| level.name.as_str());
        let mut cells = vec![
            Cell::Struck(row.number.to_string()),
            Cell::Text(format!("rev {}", row.revision)),
            Cell::Text(format!("{}{level}", wall.unwrap_or_default())),
            Cell::Text(String::from(row.through.name())),
            Cell::Text(match row.through {
                Through::Studs | Through::Corner | Through::Outside => {
                    format!("{} AFF", plan.units.height(row.height))
                }
                _ => String::new(),
            }),
        ];
        cells.resize(9, Cell::Text(String::new()));
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

/// Whether the row is new, how its joists are counted, how far a soffit hole is from the wall's face, and why the crossing's bundle was split, or got steel.
fn notes(plan: &Plan, design: &Design, row: &DrillRow) -> Vec<String> {
    let bores = row
        .bores
        .iter()
        .filter_map(|place| design.bores.get(*place));
    let mut reasons = bores.filter(|bore| bore.part == 0 && !bore.reason.is_empty());
    let reason = reasons.next().map(|bore| bore.reason.clone());
    let soffit = is_soffit(plan, design, row).then(|| {
        let out = plan.units.size(SOFFIT_HOLE);
        format!(
            "In the soffit, its middle {out} out from the face of the wall unless the device asks for another place ({PRACTICE})"
        )
    });
    let new = new(plan, row);
    let joists = joists(plan, design, row);
    let first = new.into_iter().chain(joists).chain(soffit);
    first.chain(reason).collect()
}

/// How joists are counted, with the first row of each space.
fn joists(plan: &Plan, design: &Design, row: &DrillRow) -> Option<String> {
    let space = |row: &DrillRow| match row.whereabouts.as_ref().map(|place| &place.along) {
        Some(Along::Joists { space, .. }) => Some(*space),
        _ => None,
    };
    let here = space(row)?;
    let mut rows = design.drill_list.iter();
    let first = rows.find(|other| other.level == row.level && space(other) == Some(here))?;
    if first.bores != row.bores {
        return None;
    }
    let bores = row
        .bores
        .iter()
        .filter_map(|place| design.bores.get(*place));
    let bores: Vec<&Bore> = bores.collect();
    bore::count_words(plan, &design.framing, &design.ways, &bores)
}

fn is_soffit(plan: &Plan, design: &Design, row: &DrillRow) -> bool {
    let mut bores = row
        .bores
        .iter()
        .filter_map(|place| design.bores.get(*place));
    bores.any(|bore| {
        let crossing = design.ways.crossings.get(bore.crossing);
        crossing.is_some_and(|crossing| {
            let gable = bore::is_gable(plan, &design.framing, crossing);
            crossing.member == Member::Soffit && !gable
        })
    })
}

fn cells(plan: &Plan, row: &DrillRow) -> Vec<Cell> {
    vec![
        Cell::Id(row.number.to_string()),
        Cell::Id(plan.units.size(row.bit)),
        Cell::Text(row.location.clone()),
        Cell::Text(what(row)),
        Cell::Text(row.height.clone()),
        Cell::List(cables::by_box(plan, &row.cables)),
        match row.is_in_what_bears(plan) {
            true => Cell::TickOf(String::from(ASK)),
            false => Cell::Tick,
        },
        to_tick(steel(row, "plate")),
        to_tick(match row.seals {
            0 => String::new(),
            seals => seals.to_string(),
        }),
    ]
}

/// "5 studs, bearing 2x6"; joists are told with their space: "3 joists, floor, sawn joist 9-1/4 in". What a
/// web is of is said with the joist's size.
fn what(row: &DrillRow) -> String {
    match row.member.is_empty() {
        true => row.what.clone(),
        false => format!("{}, {}", row.what.replace("I-joist web", "web"), row.member),
    }
}

/// A box to tick for what is counted, if it is.
fn to_tick(count: String) -> Cell {
    match count.is_empty() {
        true => Cell::Text(count),
        false => Cell::TickOf(count),
    }
}

/// "2 plates, 1 tie", with this word for a plate; empty for a row without steel.
pub(super) fn steel(row: &DrillRow, plate: &str) -> String {
    let parts = [(row.nail_plates, plate), (row.ties, "tie")];
    let some = parts.into_iter().filter(|(count, _)| *count > 0);
    let some: Vec<String> = some.map(|(count, one)| counted(count, one)).collect();
    some.join(", ")
}
