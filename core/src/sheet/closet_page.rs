//! The closet sheet: which cable lands on which port, and the slack at both ends.

use super::Kind;
use super::elevation_page::seen_from;
use super::list::{self, List};
use super::table::{Cell, Line, Table, centred, column};
use super::whither::Whither;
use crate::bore;
use crate::design::Design;
use crate::framing::closet_room;
use crate::plan::{ClosetPlace, Plan};
use crate::schedule::{Port, ports};

/// The closet sheet.
pub(super) fn list(plan: &Plan, design: &Design) -> List {
    let ports = ports(plan);
    let heading = list::Heading {
        kind: Kind::Closet,
        title: String::from("Closet sheet"),
        subtitle: subtitle(plan, &ports),
        name: String::from("Closet sheet"),
        corner: String::from("Closet"),
    };
    let mut lines: Vec<Line> = panel_words(plan, design)
        .map(Line::Break)
        .into_iter()
        .collect();
    let whither = Whither::of(plan, &design.framing);
    let mut kind = None;
    let mut before = None;
    for port in &ports {
        if kind != Some(port.kind) {
            kind = Some(port.kind);
            before = None;
            let count = ports.iter().filter(|other| other.kind == port.kind).count();
            let name = plan
                .catalogue
                .cable(port.kind)
                .map_or("", |spec| spec.name.as_str());
            let word = if count == 1 { "port" } else { "ports" };
            let slack = plan.units.total(port.closet_slack);
            let words = format!("{name} · {count} {word} · leave {slack} here");
            lines.push(Line::Break(words));
        }
        let again = before.replace(port.drop) == Some(port.drop);
        lines.push(Line::Row(cells(plan, &whither, port, again)));
    }
    let table = Table {
        columns: columns(),
        lines,
    };
    List { heading, table }
}

fn columns() -> Vec<super::table::Column> {
    vec![
        column("port", 12.0, 0.0),
        column("cable", 17.5, 0.0),
        column("to", 29.0, 1.0),
        centred("landed", 13.5),
        centred("tested", 12.5),
    ]
}

/// One port; a box that the row before goes to is not told again.
fn cells(plan: &Plan, whither: &Whither, port: &Port, again: bool) -> Vec<Cell> {
    let drop = plan.drop(port.drop);
    let to = match again {
        true => String::from("same box"),
        false => drop.map_or(String::new(), |drop| whither.words(drop)),
    };
    let powered = if port.powered { " · powered" } else { "" };
    vec![
        Cell::Id(port.name.clone()),
        Cell::Id(plan.cable_label(port.cable)),
        Cell::Text(format!("{to}{powered}")),
        Cell::Tick,
        Cell::Tick,
    ]
}

/// "Panel: W7, stud 3 from its W6 end, 7\" past its far face, on the side of Utility"; `None` where it
/// hangs on no wall. In front of a wall that is not drilled it hangs on a board (common practice, no source).
fn panel_words(plan: &Plan, design: &Design) -> Option<String> {
    let closet = plan.closet?;
    let ClosetPlace::Wall { side, .. } = closet.place else {
        return None;
    };
    let along = bore::of_closet(plan, &design.framing)?.words(plan, &design.framing);
    let (level, wall) = plan.wall(closet.on_wall()?)?;
    let room = closet_room(plan).map(|room| room.name.clone());
    let side = room.unwrap_or_else(|| seen_from(level, wall, side));
    let board = match wall.never_drill {
        true => " · on a board in front of it, for it is not drilled",
        false => "",
    };
    Some(format!("Panel: {along}, on the side of {side}{board}"))
}

/// Where the closet is, how cable enters, and how many ports want power.
fn subtitle(plan: &Plan, ports: &[Port]) -> String {
    let Some(closet) = plan.closet else {
        return String::from("No closet is placed yet.");
    };
    let level = plan.level(closet.level).map(|level| &level.name);
    let room = closet_room(plan).map(|room| &room.name);
    let place = room.or(level).cloned().unwrap_or_default();
    let powered = ports.iter().filter(|port| port.powered).count();
    format!(
        "{place} · cable enters {} · panel centre {} AFF · {} cables, {powered} to powered devices",
        closet.entry.name(),
        plan.units.height(closet.panel_height),
        ports.len()
    )
}
