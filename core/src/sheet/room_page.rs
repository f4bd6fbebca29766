//! The room list and the trim-out list: every box by room, clockwise from the door, with what finds
//! it again.

use super::Kind;
use super::cables;
use super::list::{self, List};
use super::table::{Cell, Line, Table, centred, column, figures};
use super::test_page::written;
use crate::design::Design;
use crate::plan::{BoxKind, BoxStage, CableId, CableStage, Plan, WallId};
use crate::schedule::{RoomRow, Tick as ScheduleTick, hangs_elsewhere, room_list};

/// The room list.
pub(super) fn rooms(plan: &Plan, design: &Design) -> List {
    let heading = list::Heading {
        kind: Kind::RoomList,
        title: String::from("Room list"),
        subtitle: String::from(
            "Clockwise from the door. Facing the wall, from its inside corners; outdoors from its ends; ceilings from the walls on the sheet's left and top, which are named. Heights from under the bottom plate, the floor's finish not counted. Box: a low-voltage bracket, or what is told. Leave: cable at the box.",
        ),
        name: String::from("Room list"),
        corner: String::from("Rooms"),
    };
    let table = table(plan, design, rough_in_columns(), (level_of, rough_in));
    List { heading, table }
}

/// The trim-out list.
pub(super) fn trim(plan: &Plan, design: &Design) -> List {
    let heading = list::Heading {
        kind: Kind::TrimOut,
        title: String::from("Trim-out list"),
        subtitle: String::from(
            "After paint. Find every box by its two offsets and height, from under the bottom plate; terminate, test, plate.",
        ),
        name: String::from("Trim-out list"),
        corner: String::from("Trim-out"),
    };
    let table = table(plan, design, trim_columns(), (RoomRow::heading, trim_out));
    List { heading, table }
}

type Cells = fn(&Plan, &Design, &RoomRow) -> Vec<Cell>;

/// What stands over the rows of a list.
type Over = fn(&RoomRow, &Plan) -> String;

fn table(
    plan: &Plan,
    design: &Design,
    columns: Vec<super::table::Column>,
    (over, cells): (Over, Cells),
) -> Table {
    let mut lines = Vec::new();
    let mut before = None;
    for row in room_list(plan, &design.framing) {
        let here = over(&row, plan);
        if before.as_ref() != Some(&here) {
            lines.push(Line::Break(here.clone()));
            before = Some(here);
        }
        lines.push(Line::Row(cells(plan, design, &row)));
    }
    Table { columns, lines }
}

fn level_of(row: &RoomRow, plan: &Plan) -> String {
    let [level, _] = row.place(plan);
    level
}

fn rough_in_columns() -> Vec<super::table::Column> {
    vec![
        column("drop", 13.5, 0.0),
        column("room", 18.0, 0.3),
        column("what, where", 25.0, 0.5),
        figures("from left", 20.0),
        figures("from right", 20.0),
        figures("height", 14.0),
        column("cables", 15.5, 0.3),
        column("box, and what it hangs on", 50.0, 1.4),
        figures("leave", 12.0),
        centred("box", 11.0),
        centred("pulled", 13.0),
        centred("labelled", 16.0),
    ]
}

fn rough_in(plan: &Plan, design: &Design, row: &RoomRow) -> Vec<Cell> {
    let mut cells = place_cells(plan, row);
    let [_, room] = row.place(plan);
    cells.insert(1, Cell::Strong(room));
    cells.extend([
        labels(plan, row),
        Cell::Text(told(plan, design, row)),
        leave(plan, row),
        of_box(plan, row, BoxStage::Set),
        of_cables(plan, row, CableStage::Pulled),
        of_cables(plan, row, CableStage::Labelled),
    ]);
    cells
}

/// "2 gang · on stud 4, W1 side": a bracket is told by what it hangs on alone.
fn told(plan: &Plan, design: &Design, row: &RoomRow) -> String {
    let drop = plan.drop(row.drop);
    let elsewhere = drop.and_then(|drop| hangs_elsewhere(plan, &design.framing, drop));
    let told = &row.instruction;
    // What the list's heading says of all boxes is not said again of one that tells where it hangs.
    let is_usual = told.fixing == BoxKind::Bracket && (told.hang.is_some() || elsewhere.is_some());
    let instruction = match is_usual {
        true => told.without_fixing(),
        false => told.to_string(),
    };
    let gangs = (row.gangs > 1).then(|| format!("{} gang", row.gangs));
    let parts = [gangs, Some(instruction), elsewhere];
    let parts = parts.into_iter().flatten().filter(|part| !part.is_empty());
    parts.collect::<Vec<_>>().join(" · ")
}

/// How much cable is left at the box.
fn leave(plan: &Plan, row: &RoomRow) -> Cell {
    let drop = plan.drop(row.drop);
    let slack = drop.map(|drop| plan.rules.length(drop.kind.slack_rule()));
    Cell::Text(slack.map_or(String::new(), |slack| plan.units.path(slack)))
}

fn trim_columns() -> Vec<super::table::Column> {
    vec![
        column("drop", 16.0, 0.0),
        column("what and where", 36.0, 1.0),
        figures("from left", 21.0),
        figures("from right", 21.0),
        figures("height", 18.0),
        centred("plate", 18.0),
        column("cables", 24.0, 1.2),
        centred("found", 13.0),
        centred("ended", 13.0),
        centred("tested", 13.0),
        centred("plated", 13.0),
        column("note", 20.0, 1.0),
    ]
}

fn trim_out(plan: &Plan, _: &Design, row: &RoomRow) -> Vec<Cell> {
    let mut cells = place_cells(plan, row);
    let bracket = plan
        .drop(row.drop)
        .is_some_and(|drop| drop.fixing == BoxKind::Bracket);
    let plate = match bracket {
        true => format!("{} gang", row.gangs),
        false => String::new(),
    };
    cells.extend([
        Cell::Text(plate),
        labels(plan, row),
        of_box(plan, row, BoxStage::Found),
        of_cables(plan, row, CableStage::Terminated),
        Cell::ticked(all(row, |id| ScheduleTick::Test(id).is_done(&plan.record))),
        of_box(plan, row, BoxStage::Plated),
        written(Some(plan.record.box_note(row.drop).to_string())),
    ]);
    cells
}

fn of_box(plan: &Plan, row: &RoomRow, stage: BoxStage) -> Cell {
    Cell::ticked(plan.record.has_box(row.drop, stage))
}

/// Ticked once all cables of a drop have reached a stage.
fn of_cables(plan: &Plan, row: &RoomRow, stage: CableStage) -> Cell {
    Cell::ticked(all(row, |id| plan.record.has_cable(id, stage)))
}

fn all(row: &RoomRow, has: impl Fn(CableId) -> bool) -> bool {
    !row.cables.is_empty() && row.cables.iter().all(|id| has(*id))
}

/// Identity, kind, wall, two offsets, height.
fn place_cells(plan: &Plan, row: &RoomRow) -> Vec<Cell> {
    let drop = plan.drop(row.drop);
    let position = |value: Option<crate::units::Mm>, wall: Option<WallId>| {
        let length = value.map_or(String::new(), |value| plan.units.position(value));
        Cell::Text(match wall {
            Some(wall) => format!("{length} from W{}", wall.0),
            None => length,
        })
    };
    let kind = drop.map_or("", |drop| drop.kind.name());
    let outdoors = drop.is_some_and(|drop| drop.outdoors);
    let place = match (row.wall, outdoors) {
        (Some(wall), true) => format!("{kind}, outside W{}", wall.0),
        (Some(wall), false) => format!("{kind}, W{}", wall.0),
        (None, _) => kind.to_string(),
    };
    vec![
        Cell::Id(drop.map_or(String::new(), |drop| drop.label())),
        Cell::Text(place),
        position(row.left, row.walls[0]),
        position(row.right, row.walls[1]),
        Cell::Text(row.height.map_or(String::new(), |h| plan.units.height(h))),
    ]
}

fn labels(plan: &Plan, row: &RoomRow) -> Cell {
    Cell::List(cables::by_box(plan, &row.cables))
}
