//! The cover: which job, which revision, what it takes, what to bring, what to mind.

use super::flow::{self, Entry};
use super::frame::Heading;
use super::{Draft, Kind, Paper, caution};
use crate::bore;
use crate::design::Design;
use crate::finding::Severity;
use crate::plan::Plan;
use crate::schedule::{Hours, blocking};
use crate::units::{Units, counted};

/// Lines to write on under who to call: as many as there should be, and as many as will do.
const CALLS: [usize; 2] = [3, 2];

/// The cover, over as many pages as it needs, with a code where a link is given that one code can
/// hold.
pub(super) fn pages(plan: &Plan, design: &Design, paper: &Paper, link: Option<&str>) -> Vec<Draft> {
    let heading = Heading {
        kind: Kind::Cover,
        title: plan.title.clone(),
        subtitle: dated(plan),
        name: String::from("Cover"),
        corner: String::from("Cover"),
        tongue: paper.tongue,
    };
    flow::pages(plan, paper, heading, link, &CALLS, |blanks| {
        [
            left_column(plan, design, blanks),
            right_column(plan, design),
        ]
    })
}

/// "Low-voltage cabling · revision 2 · 3 March".
pub(super) fn dated(plan: &Plan) -> String {
    match plan.date.is_empty() {
        true => format!("Low-voltage cabling · revision {}", plan.revision),
        false => format!(
            "Low-voltage cabling · revision {} · {}",
            plan.revision, plan.date
        ),
    }
}

fn left_column(plan: &Plan, design: &Design, blanks: usize) -> Vec<Entry> {
    let mut entries = vec![Entry::Heading(String::from("Totals"))];
    entries.extend(totals(plan, design));
    entries.push(Entry::Heading(String::from("To look at")));
    entries.push(Entry::Words(to_look_at(plan, design)));
    if !plan.note.trim().is_empty() {
        entries.push(Entry::Heading(String::from("Note")));
        entries.push(Entry::Words(plan.note.clone()));
    }
    entries.push(Entry::Heading(String::from("Who to call")));
    entries.extend((0..blanks).map(|_| Entry::Blank(String::new())));
    entries
}

fn right_column(plan: &Plan, design: &Design) -> Vec<Entry> {
    let mut entries = vec![Entry::Heading(String::from("Bring"))];
    entries.extend(bring(plan, design).into_iter().map(Entry::Ticked));
    entries.push(Entry::Heading(String::from("Cautions")));
    entries.extend(caution::all(plan).into_iter().map(Entry::Words));
    entries.push(Entry::Heading(String::from("Dates")));
    entries.extend(plan.dates.named().map(|(name, date)| match date {
        "" => Entry::Blank(name.to_string()),
        _ => Entry::Pair(name.to_string(), date.to_string()),
    }));
    entries
}

/// "2 to stop for, 3 to look at, 1 note; see the list of findings.", and that the builder is asked
/// wherever something bears.
fn to_look_at(plan: &Plan, design: &Design) -> String {
    let count = |severity| {
        let open = design.findings.iter().filter(|f| f.dismissed.is_none());
        open.filter(|f| f.severity == severity).count()
    };
    let said = [
        (count(Severity::Stop), "to stop for", "to stop for"),
        (count(Severity::Warn), "to look at", "to look at"),
        (count(Severity::Note), "note", "notes"),
    ];
    let said: Vec<String> = said
        .iter()
        .filter(|(count, ..)| *count > 0)
        .map(|(count, one, more)| format!("{count} {}", if *count == 1 { one } else { more }))
        .collect();
    let bearing = bore::bearing_words(plan, &design.drill_list);
    match (said.is_empty(), bearing) {
        (true, None) => String::from("Nothing: every check is clear."),
        (true, Some(bearing)) => format!("No finding is open. {bearing}"),
        (false, None) => format!("{}; see the list of findings.", said.join(", ")),
        (false, Some(bearing)) => {
            format!("{}; see the list of findings. {bearing}", said.join(", "))
        }
    }
}

fn totals(plan: &Plan, design: &Design) -> Vec<Entry> {
    let totals = &design.totals;
    let mut rows = vec![
        Entry::Pair(String::from("drops"), totals.drops.to_string()),
        Entry::Pair(String::from("cables"), totals.cables.to_string()),
    ];
    for total in &totals.cable {
        let name = plan
            .catalogue
            .cable(total.kind)
            .map_or("", |spec| spec.name.as_str());
        let reels = if total.reels == 1 { "reel" } else { "reels" };
        let value = format!(
            "{}, {} {reels}",
            plan.units.total(total.length),
            total.reels
        );
        rows.push(Entry::Pair(name.to_string(), value));
    }
    rows.push(Entry::Pair(String::from("bores"), totals.bores.to_string()));
    for (bit, count) in &totals.by_bit {
        rows.push(Entry::Part(plan.units.size(*bit), count.to_string()));
    }
    for (name, count) in [
        ("steel nail plates", totals.nail_plates),
        ("plate ties", totals.ties),
        ("seals", totals.seals),
        ("supports", totals.supports),
        ("boxes by others", totals.boxes_by_others),
        ("keystone jacks", totals.keystones),
    ] {
        if count > 0 {
            rows.push(Entry::Pair(name.to_string(), count.to_string()));
        }
    }
    let hours = Hours::of(plan, &design.ways, &design.bores, &design.totals);
    rows.push(Entry::Pair(
        String::from("hours"),
        format!("{:.1}", totals.hours),
    ));
    rows.push(Entry::Part(
        String::from("rough-in"),
        format!("{:.1}", hours.rough_in()),
    ));
    rows.push(Entry::Part(
        String::from("trim-out"),
        format!("{:.1}", hours.trim_out()),
    ));
    rows
}

/// What goes into the van, each with a box to tick.
pub(super) fn bring(plan: &Plan, design: &Design) -> Vec<String> {
    let totals = &design.totals;
    let mut list = Vec::new();
    for reel in design.cut_list.reels.iter().filter(|reel| reel.is_used()) {
        let part = if reel.part { "part reel, " } else { "" };
        list.push(format!(
            "{}, {part}{}",
            reel.name,
            plan.units.total(reel.length)
        ));
    }
    let bits: Vec<String> = totals
        .by_bit
        .iter()
        .map(|(bit, _)| plan.units.size(*bit).replace(" in", "").replace(" mm", ""))
        .collect();
    if !bits.is_empty() {
        let unit = match plan.units {
            Units::Imperial => "in",
            Units::Metric => "mm",
        };
        list.push(format!("bits {} {unit}, long and short", bits.join(", ")));
    }
    let gangs = totals
        .brackets
        .iter()
        .enumerate()
        .filter(|(_, count)| **count > 0);
    for (place, count) in gangs {
        let brackets = if *count == 1 { "bracket" } else { "brackets" };
        list.push(format!(
            "{count} low-voltage {brackets}, {} gang",
            place + 1
        ));
    }
    for (lumber, count) in blocking(plan, &design.framing) {
        let blocks = counted(count, "block");
        list.push(format!(
            "{blocks} of {lumber} between studs, cut to the bay"
        ));
    }
    for (count, name) in [
        (totals.nail_plates, "steel nail plates"),
        (totals.ties, "plate ties with nails"),
        (totals.supports, "cable supports"),
    ] {
        if count > 0 {
            list.push(format!("{count} {name}"));
        }
    }
    if totals.seals > 0 {
        list.push(format!("sealant for {} bores", totals.seals));
    }
    list.push(String::from(
        "labels, hook-and-loop ties, pull string, tester",
    ));
    list
}
