//! Each schedule as comma-separated text, for a spreadsheet or a label printer.
//!
//! RFC 4180: fields with commas, quotes or line breaks are quoted, lines end with carriage return
//! and line feed. A field that a spreadsheet would take for a formula gets an apostrophe in front,
//! so that whatever a person typed stays text. Lengths are in the plan's units, and the head says so.

use strum::VariantArray;

use super::{pulls, site};
use crate::design::Design;
use crate::plan::{CableId, Plan};
use crate::schedule::{ChangeOrder, CountChange, Port, labels, ports, room_list};
use crate::units::{Mm, Units};

/// The schedules that can be written, with the name of their file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, VariantArray)]
pub enum Table {
    /// The drill list.
    Drill,
    /// The cut list.
    Cuts,
    /// The room list.
    Rooms,
    /// The closet's ports.
    Ports,
    /// Labels.
    Labels,
    /// Findings.
    Findings,
    /// The test record, with what was noted of every cable.
    Tests,
    /// What was noted of every box.
    Boxes,
    /// The punch list.
    Punch,
}

impl Table {
    /// Every schedule.
    pub const ALL: [Self; Self::VARIANTS.len()] = every!(Table);

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::Drill => "Drill list",
            Self::Cuts => "Cut list",
            Self::Rooms => "Room list",
            Self::Ports => "Closet ports",
            Self::Labels => "Labels",
            Self::Findings => "List of findings",
            Self::Tests => "Test record",
            Self::Boxes => "Record of boxes",
            Self::Punch => "Punch list",
        }
    }

    /// The name of its file.
    pub fn file_name(self) -> &'static str {
        match self {
            Self::Drill => "drill-list.csv",
            Self::Cuts => "cut-list.csv",
            Self::Rooms => "room-list.csv",
            Self::Ports => "closet.csv",
            Self::Labels => "labels.csv",
            Self::Findings => "findings.csv",
            Self::Tests => "test-record.csv",
            Self::Boxes => "box-record.csv",
            Self::Punch => "punch-list.csv",
        }
    }
}

/// Writes a schedule.
pub fn csv(table: Table, plan: &Plan, design: &Design) -> String {
    let rows = match table {
        Table::Drill => drill(plan, design),
        Table::Cuts => headed(&pulls::CUT_HEADS, pulls::cut_rows(plan, design)),
        Table::Rooms => rooms(plan, design),
        Table::Ports => closet(plan),
        Table::Labels => all_labels(plan),
        Table::Findings => findings(design),
        Table::Tests => headed(&site::TEST_HEADS, site::test_rows(plan, design)),
        Table::Boxes => headed(&site::BOX_HEADS, site::box_rows(plan, design)),
        Table::Punch => headed(&site::PUNCH_HEADS, site::punch_rows(plan)),
    };
    rows.iter().map(|row| line(row)).collect()
}

/// Writes a change order.
pub fn change_order(order: &ChangeOrder) -> String {
    let mut rows = vec![head(&["what", "item", "before", "after", "difference"])];
    rows.extend(order.drops.iter().map(|drop| {
        let item = format!("{} {}", drop.label, drop.what);
        vec![
            "drop".into(),
            item,
            String::new(),
            String::new(),
            drop.change.clone(),
        ]
    }));
    rows.extend(order.counts.iter().map(|count| {
        let CountChange {
            what,
            before,
            after,
            difference,
        } = count.clone();
        vec!["count".into(), what, before, after, difference]
    }));
    rows.iter().map(|row| line(row)).collect()
}

pub(super) type Row = Vec<String>;

fn head(titles: &[&str]) -> Row {
    titles.iter().map(|title| (*title).to_string()).collect()
}

fn headed(titles: &[&str], rows: Vec<Row>) -> Vec<Row> {
    std::iter::once(head(titles)).chain(rows).collect()
}

fn drill(plan: &Plan, design: &Design) -> Vec<Row> {
    let bit = match plan.units {
        Units::Imperial => "bit (in)",
        Units::Metric => "bit (mm)",
    };
    let mut rows = vec![head(&[
        "number",
        "level",
        "what",
        "where",
        "member",
        bit,
        "height",
        "cables",
        "fill (%)",
        "members",
        "steel plates",
        "ties",
        "seals",
    ])];
    for row in &design.drill_list {
        let level = plan
            .level(row.level)
            .map_or("", |level| level.name.as_str());
        let bit = match plan.units {
            Units::Imperial => format!("{:.4}", row.bit.in_inches()),
            Units::Metric => format!("{:.1}", row.bit.0),
        };
        rows.push(vec![
            row.number.to_string(),
            level.to_string(),
            row.what.clone(),
            row.location.clone(),
            row.member.clone(),
            bit,
            row.height.clone(),
            names(plan, &row.cables),
            format!("{:.0}", row.fill * 100.0),
            row.members.to_string(),
            row.nail_plates.to_string(),
            row.ties.to_string(),
            row.seals.to_string(),
        ]);
    }
    rows
}

fn rooms(plan: &Plan, design: &Design) -> Vec<Row> {
    let mut rows = vec![head(&[
        "drop",
        "what",
        "level",
        "room",
        "wall",
        "from left",
        "from right",
        "height",
        "gangs",
        "cables",
        "instruction",
    ])];
    let position = |value: Option<Mm>| value.map_or(String::new(), |v| plan.units.position(v));
    for row in room_list(plan, &design.framing) {
        let level = plan.level(row.level);
        let room = row
            .room
            .and_then(|id| level.and_then(|level| level.room(id)));
        let drop = plan.drop(row.drop);
        rows.push(vec![
            drop.map_or(String::new(), |drop| drop.label()),
            drop.map_or(String::new(), |drop| drop.kind.name().to_string()),
            level.map_or(String::new(), |level| level.name.clone()),
            room.map_or(String::new(), |room| room.name.clone()),
            row.wall
                .map_or(String::new(), |wall| format!("W{}", wall.0)),
            position(row.left),
            position(row.right),
            row.height.map_or(String::new(), |h| plan.units.height(h)),
            row.gangs.to_string(),
            names(plan, &row.cables),
            row.instruction.to_string(),
        ]);
    }
    rows
}

fn closet(plan: &Plan) -> Vec<Row> {
    let mut rows = vec![head(&[
        "port",
        "cable",
        "kind",
        "drop",
        "powered",
        "closet slack",
        "drop slack",
        "unit",
    ])];
    for port in ports(plan) {
        rows.push(port_row(plan, &port));
    }
    rows
}

fn port_row(plan: &Plan, port: &Port) -> Row {
    let kind = plan.catalogue.cable(port.kind);
    vec![
        port.name.clone(),
        plan.cable_label(port.cable),
        kind.map_or(String::new(), |spec| spec.name.clone()),
        plan.drop(port.drop)
            .map_or(String::new(), |drop| drop.label()),
        if port.powered { "yes" } else { "no" }.to_string(),
        length(plan.units, port.closet_slack),
        length(plan.units, port.drop_slack),
        length_unit(plan.units).to_string(),
    ]
}

fn all_labels(plan: &Plan) -> Vec<Row> {
    let mut rows = vec![head(&["label", "note", "goes on"])];
    let labels = labels(plan).into_iter();
    rows.extend(labels.map(|label| vec![label.name, label.note, label.place.name().to_string()]));
    rows
}

fn findings(design: &Design) -> Vec<Row> {
    let mut rows = vec![head(&[
        "weight",
        "what",
        "what to do",
        "source",
        "set aside because",
    ])];
    rows.extend(design.findings.iter().map(|finding| {
        vec![
            finding.severity.name().to_string(),
            finding.what.clone(),
            finding.todo.clone(),
            finding.source.clone(),
            finding.dismissed.clone().unwrap_or_default(),
        ]
    }));
    rows
}

fn names(plan: &Plan, cables: &[CableId]) -> String {
    let names: Vec<String> = cables.iter().map(|id| plan.cable_label(*id)).collect();
    names.join(" ")
}

pub(super) fn length_unit(units: Units) -> &'static str {
    match units {
        Units::Imperial => "ft",
        Units::Metric => "m",
    }
}

/// Feet or metres to a tenth.
pub(super) fn length(units: Units, length: Mm) -> String {
    let unit = match units {
        Units::Imperial => 304.8,
        Units::Metric => 1000.0,
    };
    format!("{:.1}", length.f64() / unit)
}

fn line(fields: &[String]) -> String {
    let fields: Vec<String> = fields.iter().map(|field| quoted(field)).collect();
    fields.join(",") + "\r\n"
}

/// What a spreadsheet set to another country, or told another delimiter, begins a new cell at.
const DELIMITERS: [char; 7] = [',', ';', '\t', '\n', '\r', '|', ':'];

/// A field with an apostrophe wherever a cell could begin with the sign of a formula: at its start and
/// after every delimiter, spaces and quotation marks between them or not.
fn without_formulas(field: &str) -> String {
    let mut plain = String::with_capacity(field.len() + 1);
    let mut begins = true;
    for sign in field.chars() {
        if begins
            && matches!(
                sign,
                '=' | '+' | '-' | '@' | '\u{FF1D}' | '\u{FF0B}' | '\u{FF0D}' | '\u{FF20}'
            )
        {
            plain.push('\'');
        }
        plain.push(sign);
        let delimits = DELIMITERS.contains(&sign);
        begins = delimits || (begins && (sign.is_whitespace() || sign == '"' || sign == '\''));
    }
    match field.starts_with(['\t', '\r']) {
        true => format!("'{plain}"),
        false => plain,
    }
}

fn quoted(field: &str) -> String {
    let field = without_formulas(field);
    match field.contains(DELIMITERS) || field.contains('"') {
        true => format!("\"{}\"", field.replace('"', "\"\"")),
        false => field,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::sample;

    #[test]
    fn every_line_of_every_schedule_stands_once() {
        let plan = sample::house();
        let design = Design::of(&plan);
        let lines = |table| csv(table, &plan, &design).matches("\r\n").count() - 1;
        assert_eq!(lines(Table::Drill), design.drill_list.len());
        assert_eq!(lines(Table::Cuts), plan.cables().count());
        assert_eq!(lines(Table::Rooms), plan.drops.len());
        assert_eq!(lines(Table::Ports), plan.cables().count());
        assert_eq!(lines(Table::Findings), design.findings.len());
        assert_eq!(lines(Table::Tests), plan.cables().count());
        assert_eq!(lines(Table::Boxes), plan.drops.len());
        assert_eq!(lines(Table::Punch), 0);
        let labels = 5 * plan.cables().count() + plan.drops.len();
        assert_eq!(lines(Table::Labels), labels);
    }

    #[test]
    fn hostile_text_stays_text() {
        assert_eq!(quoted("Bed 1"), "Bed 1");
        assert_eq!(quoted("15' 4\" left"), "\"15' 4\"\" left\"");
        assert_eq!(quoted("=1+1"), "'=1+1");
        assert_eq!(quoted("-a,\nb"), "\"'-a,\nb\"");
        assert_eq!(quoted("a;=1+cmd"), "\"a;'=1+cmd\"");
        assert_eq!(quoted("a;\" \"=1"), "\"a;\"\" \"\"'=1\"");
        assert_eq!(quoted("a\t@b"), "\"a\t'@b\"");
        assert_eq!(quoted("a\n+b"), "\"a\n'+b\"");
        assert_eq!(quoted("a - b = c"), "a - b = c");
    }

    #[test]
    fn files_have_names_of_their_own() {
        let names: std::collections::BTreeSet<_> = Table::ALL.map(Table::file_name).into();
        assert_eq!(names.len(), Table::ALL.len());
    }
}
