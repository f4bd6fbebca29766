//! The closet sheet: which cable lands on which port, and the slack at both ends.

use super::elevation_page::seen_from;
use super::pull_page::destination;
use super::table::{Cell, Line, Table, centred, column, figures};
use super::{Draft, Kind, Paper, list};
use crate::bore;
use crate::design::Design;
use crate::framing::closet_room;
use crate::plan::{ClosetPlace, Plan};
use crate::schedule::{Port, ports};

/// The closet sheet's pages.
pub(super) fn pages(plan: &Plan, design: &Design, paper: &Paper) -> Vec<Draft> {
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
    let mut kind = None;
    for port in &ports {
        if kind != Some(port.kind) {
            kind = Some(port.kind);
            let count = ports.iter().filter(|other| other.kind == port.kind).count();
            let name = plan
                .catalogue
                .cable(port.kind)
                .map_or("", |spec| spec.name.as_str());
            let word = if count == 1 { "port" } else { "ports" };
            lines.push(Line::Break(format!("{name} · {count} {word}")));
        }
        lines.push(Line::Row(cells(plan, port)));
    }
    let table = Table {
        columns: columns(),
        lines,
    };
    list::pages(plan, paper, &heading, &table)
}

fn columns() -> Vec<super::table::Column> {
    vec![
        column("port", 15.0, 0.0),
        column("cable", 20.0, 0.0),
        column("to", 40.0, 1.2),
        centred("powered", 17.0),
        figures("slack here", 19.0),
        figures("slack there", 19.0),
        centred("landed", 14.0),
        centred("tested", 14.0),
        column("measured length", 22.0, 0.6),
    ]
}

fn cells(plan: &Plan, port: &Port) -> Vec<Cell> {
    let to = plan
        .drop(port.drop)
        .map_or(String::new(), |drop| destination(plan, drop));
    let powered = if port.powered { "yes" } else { "" };
    vec![
        Cell::Id(port.name.clone()),
        Cell::Id(plan.cable_label(port.cable)),
        Cell::Text(to),
        Cell::Text(powered.to_string()),
        Cell::Text(plan.units.total(port.closet_slack)),
        Cell::Text(plan.units.path(port.drop_slack)),
        Cell::Tick,
        Cell::Tick,
        Cell::Blank,
    ]
}

/// "Panel: W7, stud 3 from its W6 end, 7\" past its far face, on the side of Utility"; `None` where it
/// hangs on no wall.
fn panel_words(plan: &Plan, design: &Design) -> Option<String> {
    let closet = plan.closet?;
    let ClosetPlace::Wall { side, .. } = closet.place else {
        return None;
    };
    let along = bore::of_closet(plan, &design.framing)?.words(plan, &design.framing);
    let (level, wall) = plan.wall(closet.on_wall()?)?;
    let side = seen_from(level, wall, side);
    Some(format!("Panel: {along}, on the side of {side}"))
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
