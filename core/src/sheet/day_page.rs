//! The crew's first page: the day for two people in order, holes by bit and wall, supports, what to
//! bring, whom to call, what to mind.

use std::collections::BTreeMap;

use super::flow::{self, Entry};
use super::frame::Heading;
use super::{Draft, Kind, Paper, caution, cover};
use crate::bore::{self, Along};
use crate::design::Design;
use crate::plan::Plan;
use crate::rules::RuleId;
use crate::schedule::{Hours, LABELS_PER_END};
use crate::units::counted;

/// Who may have to be called, in the order they usually are.
const CALLS: [&str; 3] = ["builder", "office", "electrician"];

/// The crew's first pages, with a code where a link is given that one code can hold.
pub(super) fn pages(plan: &Plan, design: &Design, paper: &Paper, link: Option<&str>) -> Vec<Draft> {
    let heading = Heading {
        kind: Kind::Day,
        title: String::from("The day in order"),
        subtitle: cover::dated(plan),
        name: String::from("The day in order"),
        corner: String::from("Crew"),
        tongue: paper.tongue,
    };
    let calls = [CALLS.len(), CALLS.len() - 1];
    flow::pages(plan, paper, heading, link, &calls, |calls| {
        [left(plan, design), right(plan, design, calls)]
    })
}

fn left(plan: &Plan, design: &Design) -> Vec<Entry> {
    let hours = Hours::of(plan, &design.ways, &design.bores, &design.totals);
    let mut entries = first_of_all(plan, design);
    entries.push(heading("Two people, A and B"));
    entries.extend(steps(design, &hours));
    entries.push(pair("rough-in, hours of one person", hours.rough_in()));
    let (a, b) = shared_out(parts(&hours));
    entries.push(in_tenths("of them A's, with half of what both do", a));
    entries.push(in_tenths("of them B's, with half of what both do", b));
    entries.push(heading("Another day, after paint"));
    let cables = counted(design.totals.cables, "cable");
    entries.push(pair(
        &format!("Both: terminate and test {cables}"),
        hours.trim_out(),
    ));
    entries.push(pair("each of two, if nobody waits", hours.trim_out() / 2.0));
    entries.push(heading("Supports"));
    entries.push(Entry::Words(supports(plan, design)));
    entries.push(heading("Holes by bit and wall"));
    entries.extend(holes(plan, design));
    entries
}

fn right(plan: &Plan, design: &Design, calls: usize) -> Vec<Entry> {
    let mut entries = vec![heading("Bring")];
    entries.extend(cover::bring(plan, design).into_iter().map(Entry::Ticked));
    entries.push(heading("Whom to call"));
    let call = |name: &&str| Entry::Blank((*name).to_string());
    entries.extend(CALLS.iter().take(calls).map(call));
    entries.push(heading("Cautions"));
    entries.extend(caution::all(plan).into_iter().map(Entry::Words));
    entries
}

/// What has to be settled before anyone drills.
fn first_of_all(plan: &Plan, design: &Design) -> Vec<Entry> {
    let open = design.findings.iter().filter(|f| f.dismissed.is_none());
    let open = match open.count() {
        0 => None,
        1 => Some(String::from(
            "1 finding is open, listed under Findings: ask the office.",
        )),
        count => Some(format!(
            "{count} findings are open, listed under Findings: ask the office."
        )),
    };
    let words = [bore::bearing_words(plan, &design.drill_list), open];
    let words: Vec<Entry> = words.into_iter().flatten().map(Entry::Words).collect();
    match words.is_empty() {
        true => words,
        false => [vec![heading("Before anyone drills")], words].concat(),
    }
}

/// The steps of the rough-in with the hours of one person; none for what takes no counted time.
fn steps(design: &Design, hours: &Hours) -> Vec<Entry> {
    let totals = &design.totals;
    let brackets: u32 = totals.brackets.iter().sum();
    let labels = totals.cables * 2 * LABELS_PER_END as u32;
    let steel = match totals.ties {
        0 => counted(totals.nail_plates, "nail plate"),
        ties => format!(
            "{} and {}",
            counted(totals.nail_plates, "nail plate"),
            counted(ties, "tie")
        ),
    };
    let jobs = [
        format!("A: drill {}", counted(totals.bores, "hole")),
        format!("B: set {}", counted(brackets, "bracket")),
        format!(
            "B: nail {} between studs",
            counted(totals.blocking, "block")
        ),
        format!("B: hang {}", counted(totals.supports, "support")),
        format!(
            "B: write {}, {LABELS_PER_END} at each end",
            counted(labels, "label")
        ),
        format!(
            "Both: pull {}, A at the reels, B at the box",
            counted(totals.cables, "cable")
        ),
        format!("A: seal {}", counted(totals.seals, "bore")),
        format!("B: nail {steel}"),
    ];
    let hours = parts(hours);
    let mut entries = vec![Entry::Words(String::from(
        "Both: walk the job with the plans; mark boxes and bores, look behind every wall.",
    ))];
    let taken = jobs.iter().zip(hours).filter(|(_, tenths)| *tenths > 0);
    entries.extend(taken.map(|(words, tenths)| in_tenths(words, tenths)));
    entries.push(Entry::Words(String::from(
        "Both: tuck, close and photograph every box.",
    )));
    entries
}

/// The hours of the rough-in by step, in the order of the day, in tenths: cut so that what is printed adds up
/// to the sum that is printed. What was cut off most gets back first.
fn parts(hours: &Hours) -> [u32; 8] {
    let exact = [
        hours.drilling,
        hours.boxes,
        hours.blocking,
        hours.supports,
        hours.labels,
        hours.pulling,
        hours.seals,
        hours.steel,
    ]
    .map(|hours| hours * 10.0);
    let mut tenths = exact.map(|exact| exact as u32);
    let whole = format!("{:.1}", hours.rough_in()).replace('.', "");
    let sum: u32 = tenths.iter().sum();
    let missing = whole.parse().unwrap_or(sum).max(sum) - sum;
    let mut order = [0, 1, 2, 3, 4, 5, 6, 7];
    let cut = |at: usize| exact[at] - f64::from(tenths[at]);
    order.sort_by(|a, b| cut(*b).total_cmp(&cut(*a)));
    for at in order.into_iter().take(missing as usize) {
        tenths[at] += 1;
    }
    tenths
}

/// What of the parts is A's and what B's, half of the pulling with each.
fn shared_out(
    [
        drilling,
        boxes,
        blocking,
        supports,
        labels,
        pulling,
        seals,
        steel,
    ]: [u32; 8],
) -> (u32, u32) {
    let half = pulling / 2;
    (
        drilling + seals + half,
        boxes + blocking + supports + labels + steel + pulling - half,
    )
}

/// Holes of each bit, and in which walls.
fn holes(plan: &Plan, design: &Design) -> Vec<Entry> {
    let mut by_bit: BTreeMap<i64, Vec<(String, u32)>> = BTreeMap::new();
    for row in &design.drill_list {
        let walls = by_bit.entry(row.bit.micrometres()).or_default();
        let place = match row.wall {
            Some(wall) => match row.whereabouts.as_ref().map(|place| &place.along) {
                Some(Along::Corner { into, .. }) => format!("W{}/W{}", wall.0, into.wall.0),
                _ => format!("W{}", wall.0),
            },
            // "8 joists, crawl space", "3 joists overhead": the count is told apart.
            None => match (row.what.split_once(", "), row.what.rsplit_once(' ')) {
                (Some((_, space)), _) => format!("joists, {space}"),
                (None, Some((_, where_to))) => format!("joists {where_to}"),
                (None, None) => String::from("joists"),
            },
        };
        match walls.iter_mut().find(|(known, _)| *known == place) {
            Some((_, count)) => *count += row.members,
            None => walls.push((place, row.members)),
        }
    }
    let mut entries = Vec::new();
    for (bit, walls) in by_bit {
        let size = crate::units::Size::from_micrometres(bit);
        let count: u32 = walls.iter().map(|(_, count)| count).sum();
        let walls = walls
            .iter()
            .map(|(place, count)| format!("{place}: {count}"));
        let walls = walls.collect::<Vec<_>>().join("; ");
        let size = plan.units.size(size);
        entries.push(Entry::Words(format!(
            "{size} · {} · {walls}",
            counted(count, "hole")
        )));
    }
    if entries.is_empty() {
        entries.push(Entry::Words(String::from("No hole is drilled.")));
    }
    entries
}

/// "42 supports along 168 ft of run, not more than 4' 0\" apart."
fn supports(plan: &Plan, design: &Design) -> String {
    let spacing = plan.units.position(plan.rules.length(RuleId::Support));
    match design.totals.supports {
        0 => String::from("None: no cable runs in the open."),
        count => format!(
            "{} along {} of run, not more than {spacing} apart.",
            counted(count, "support"),
            plan.units.total(design.ways.supported)
        ),
    }
}

fn heading(words: &str) -> Entry {
    Entry::Heading(words.to_string())
}

fn pair(words: &str, hours: f64) -> Entry {
    Entry::Pair(words.to_string(), format!("{hours:.1} h"))
}

fn in_tenths(words: &str, tenths: u32) -> Entry {
    Entry::Pair(
        words.to_string(),
        format!("{}.{} h", tenths / 10, tenths % 10),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::sample;

    /// By hand: 0.14 eight times is 1.12, printed 1.1; eight times 0.1 would be 0.8.
    #[test]
    fn hours_as_printed_add_up_to_their_sum_as_printed() {
        let hours = Hours {
            boxes: 0.14,
            blocking: 0.14,
            drilling: 0.14,
            supports: 0.14,
            labels: 0.14,
            pulling: 0.14,
            steel: 0.14,
            seals: 0.14,
            terminating: 3.0,
        };
        let tenths = parts(&hours);
        assert_eq!(tenths.iter().sum::<u32>(), 11);
        assert!(tenths.iter().all(|tenths| (1..=2).contains(tenths)));
        let (a, b) = shared_out(tenths);
        assert_eq!(a + b, 11);
        let plan = sample::house();
        let design = Design::of(&plan);
        let hours = Hours::of(&plan, &design.ways, &design.bores, &design.totals);
        let sum = f64::from(parts(&hours).iter().sum::<u32>()) / 10.0;
        assert_eq!(format!("{sum:.1}"), format!("{:.1}", hours.rough_in()));
    }

    #[test]
    fn holes_by_bit_and_wall_are_all_holes() {
        let plan = sample::house();
        let design = Design::of(&plan);
        let mut by_bit = 0;
        let mut by_wall = 0;
        for entry in holes(&plan, &design) {
            let Entry::Words(words) = entry else { continue };
            let parts: Vec<&str> = words.split(" · ").collect();
            let number = |words: &str| words.parse::<u32>().unwrap();
            by_bit += number(parts[1].split(' ').next().unwrap());
            let walls = parts[2].split("; ");
            by_wall += walls
                .map(|wall| number(wall.rsplit(": ").next().unwrap()))
                .sum::<u32>();
        }
        assert_eq!(
            (by_bit, by_wall),
            (design.totals.bores, design.totals.bores)
        );
    }

    #[test]
    fn a_plan_without_work_still_has_its_page() {
        let plan = Plan::new();
        let design = Design::of(&plan);
        assert!(!pages(&plan, &design, &Paper::default(), None).is_empty());
        assert!(supports(&plan, &design).starts_with("None"));
    }
}
