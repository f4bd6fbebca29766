//! House A hole by hole: what each path goes through, counted by hand from the framing, and every
//! place that is bored at all.
//!
//! Counted from the drawing's own numbers: studs stand 16 in (406.4 mm) on centre from the end of
//! the plates at the layout end, which is half the other wall in from a drawn corner where this
//! wall butts and half out where it runs through; openings of 6 ft and more stand on two jacks a
//! side, others on one; a drop's bore through plates is in the middle of its bay. The choice of way
//! is the router's; what stands in that way is counted here.

use std::collections::{BTreeMap, BTreeSet};

use borewright_core::design::Design;
use borewright_core::plan::Plan;
use borewright_core::route::{Crossing, Member};

/// House A. Trusses are crossed without a bore, so a path is its drop's plates and the closet's,
/// W5 under the panel at 9750; and where a box is under a window, the uprights beside it.
///
/// D8: W4, box at 1063 under the window from 914; the cripple on layout is beyond it at 1289, so a
/// jack and a king. D14: W2, box at 3200 under the window to 3353, 6 ft wide: a jack and a king.
/// D13: W6, box at 1200, shares the bay of T6 at 1500: one stud, at 70 + 3 x 406.4 = 1289. D10: W10,
/// box at 4823, is four studs from the bay of T11 at 3123, 44 + 8, 9, 10 and 11 x 406.4: they take 6
/// minutes, plates of its own 5.
const HOUSE_A: [(&str, &[&str]); 24] = [
    ("D1", &["W4 top plates", "W5 top plates"]),
    ("D2", &["W7 top plates", "W5 top plates"]),
    ("D3", &["W7 top plates", "W5 top plates"]),
    ("D4", &["W8 top plates", "W5 top plates"]),
    ("D5", &["W8 top plates", "W5 top plates"]),
    ("T6", &["W6 top plates", "W5 top plates"]),
    ("D7", &["W6 top plates", "W5 top plates"]),
    ("D8", &["W4 studs: 2", "W4 top plates", "W5 top plates"]),
    ("D9", &["W11 top plates", "W5 top plates"]),
    ("D10", &["W10 top plates", "W5 top plates"]),
    ("T11", &["W10 top plates", "W5 top plates"]),
    ("D12", &["W6 top plates", "W5 top plates"]),
    ("D13", &["W6 studs: 1", "W6 top plates", "W5 top plates"]),
    ("D14", &["W2 studs: 2", "W2 top plates", "W5 top plates"]),
    ("T15", &["W12 top plates", "W5 top plates"]),
    ("D16", &["W6 top plates", "W5 top plates"]),
    ("D17", &["W2 top plates", "W5 top plates"]),
    ("A18", &["W5 top plates"]),
    ("A19", &["W5 top plates"]),
    ("C20", &["W1 soffit", "W5 top plates"]),
    ("C21", &["W1 soffit", "W5 top plates"]),
    ("C22", &["W3 soffit", "W5 top plates"]),
    ("C23", &["W4 soffit", "W5 top plates"]),
    ("B24", &["W3 outside", "W3 top plates", "W5 top plates"]),
];

/// Every place of house A: 17 plates of drops (T6 and D13 share one), the
/// closet's, five uprights, one bore through the
/// outside of a wall and four through the soffit.
const PLACES_A: [(&str, usize); 18] = [
    ("W1 soffit", 2),
    ("W10 top plates", 2),
    ("W11 top plates", 1),
    ("W12 top plates", 1),
    ("W2 studs", 2),
    ("W2 top plates", 2),
    ("W3 outside", 1),
    ("W3 soffit", 1),
    ("W3 top plates", 1),
    ("W4 soffit", 1),
    ("W4 studs", 2),
    ("W4 top plates", 2),
    ("W5 top plates", 1),
    ("W6 studs", 1),
    ("W6 top plates", 4),
    ("W7 top plates", 2),
    ("W8 top plates", 2),
    ("all", 28),
];

/// What a crossing is counted under, and how many members it goes through.
pub(super) fn place(crossing: &Crossing) -> (String, usize) {
    let wall = crossing
        .wall
        .map_or(String::new(), |wall| format!("W{} ", wall.0));
    let (name, count) = match &crossing.member {
        Member::Studs(studs) => ("studs", studs.len()),
        Member::Corner { .. } => ("corner", 1),
        Member::TopPlates(_) => ("top plates", 1),
        Member::BottomPlates(_) => ("bottom plate", 1),
        Member::Joist { .. } => ("joists", 1),
        Member::Web { .. } => ("webs", 1),
        Member::Sheathing => ("outside", 1),
        Member::Soffit => ("soffit", 1),
    };
    (format!("{wall}{name}"), count)
}

/// What a path goes through in order from its drop; studs and webs one after the other are one row.
fn path(plan: &Plan, design: &Design, label: &str) -> Vec<String> {
    let drop = plan
        .drops
        .iter()
        .find(|drop| drop.label() == label)
        .unwrap();
    let mut rows: Vec<(String, usize)> = Vec::new();
    let way = design.ways.way(drop.cables[0].id).unwrap();
    for crossing in way.moves.iter().filter_map(|step| step.crossing) {
        let (name, count) = place(&design.ways.crossings[crossing]);
        let row = name.ends_with("studs") || name.ends_with("webs");
        match rows.last_mut().filter(|(known, _)| row && *known == name) {
            Some((_, known)) => *known += count,
            None => rows.push((name, count)),
        }
    }
    let words = |(name, count): (String, usize)| match name.ends_with("studs") || name == "webs" {
        true => format!("{name}: {count}"),
        false => name,
    };
    rows.into_iter().map(words).collect()
}

pub(super) fn compare(house: &str, paths: &[(&str, &[&str])], places: &[(&str, usize)]) {
    let plan = super::plan(house);
    let design = super::settled(&plan);
    let drops: BTreeSet<String> = plan.drops.iter().map(|drop| drop.label()).collect();
    let named: BTreeSet<String> = paths
        .iter()
        .map(|(label, _)| (*label).to_string())
        .collect();
    assert_eq!(drops, named, "{house}: every drop is counted");
    // All that differ at once, so that a change of the router's choice is seen whole.
    let found: Vec<_> = paths
        .iter()
        .map(|(label, rows)| (*label, path(&plan, &design, label), rows.to_vec()))
        .filter(|(_, found, by_hand)| found != by_hand)
        .collect();
    assert!(found.is_empty(), "{house}, found and by hand: {found:#?}");
    let mut found: BTreeMap<String, usize> = BTreeMap::new();
    for crossing in &design.ways.crossings {
        let (name, count) = place(crossing);
        *found.entry(name).or_default() += count;
        *found.entry(String::from("all")).or_default() += count;
    }
    let by_hand = places
        .iter()
        .map(|(name, count)| ((*name).to_string(), *count));
    assert_eq!(
        found,
        by_hand.collect(),
        "{house}: nothing missing, nothing extra"
    );
    for place in 0..design.ways.crossings.len() {
        assert!(
            design.bores.iter().any(|bore| bore.crossing == place),
            "{house} {place}"
        );
    }
}

#[test]
fn every_hole_of_house_a_is_the_one_counted_by_hand() {
    compare("house-a", &HOUSE_A, &PLACES_A);
}
