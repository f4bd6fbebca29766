//! Houses hole by hole: what each path goes through, counted by hand from the framing, and every
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
/// jack and a king. D14: W2, box at 3200 under the window to 3353, 6 ft wide: two jacks and a king.
/// D13: W6, box at 1200, shares the bay of T6 at 1500: one stud, at 70 + 3 x 406.4 = 1289. D10: W10,
/// box at 4823, shares the bay of T11 at 3123: studs at 44 + 8, 9, 10 and 11 x 406.4.
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
    ("D10", &["W10 studs: 4", "W10 top plates", "W5 top plates"]),
    ("T11", &["W10 top plates", "W5 top plates"]),
    ("D12", &["W6 top plates", "W5 top plates"]),
    ("D13", &["W6 studs: 1", "W6 top plates", "W5 top plates"]),
    ("D14", &["W2 studs: 3", "W2 top plates", "W5 top plates"]),
    ("T15", &["W12 top plates", "W5 top plates"]),
    ("D16", &["W6 top plates", "W5 top plates"]),
    ("D17", &["W2 top plates", "W5 top plates"]),
    ("A18", &["W5 top plates"]),
    ("A19", &["W5 top plates"]),
    ("C20", &["W1 outside", "W5 top plates"]),
    ("C21", &["W1 outside", "W5 top plates"]),
    ("C22", &["W3 outside", "W5 top plates"]),
    ("C23", &["W4 outside", "W5 top plates"]),
    ("B24", &["W3 outside", "W3 top plates", "W5 top plates"]),
];

/// Every place of house A: 16 plates of drops (T6 with D13 and T11 with D10 share one), the
/// closet's, ten uprights, five bores to the outside.
const PLACES_A: [(&str, usize); 18] = [
    ("W1 outside", 2),
    ("W10 studs", 4),
    ("W10 top plates", 1),
    ("W11 top plates", 1),
    ("W12 top plates", 1),
    ("W2 studs", 3),
    ("W2 top plates", 2),
    ("W3 outside", 2),
    ("W3 top plates", 1),
    ("W4 outside", 1),
    ("W4 studs", 2),
    ("W4 top plates", 2),
    ("W5 top plates", 1),
    ("W6 studs", 1),
    ("W6 top plates", 4),
    ("W7 top plates", 2),
    ("W8 top plates", 2),
    ("all", 32),
];

/// House B. I-joists run up and down the sheet, 16 in on centre from the right: at 11011 less
/// 406.4 each, so at 10605, 10198, 9792, 9386, 8979, 8573, 8166, 7760, 7354, 6947, 6541, 6134, 5728,
/// 5321, 4915, 4509, 4102, 3696, 3289, 2883, 2477, 2070, 1664, 1257, 851, 445 and 38. The closet hangs in
/// the bay of W5 at 9652, so from x the webs are those between x and 9652: D6 from 0 is 24, T15 from
/// 679 and D2 from 711 22, A5 from 3353 and D7 from 3658 15, D13 from 4337 13, T3 from 5182 11, T16
/// from 5896 and D14 from 6096 9, D1 from 6706 7, D8 and D9 from 7925 4, D18 from 8230 3.
///
/// The upper floor comes down in W12 at 9214 and goes one stud (9417) on to the bay over the closet,
/// or at 10760 and three studs (10636, 10230, 9823). From x to 9214: 3816 and 3962 13, 5486 9, 5791
/// and 5937 8, 6401 7, 8230 2. D29 comes down at 5896: 5 from 3816, then 9.
///
/// Uprights: D4 in W5 at 1219 goes to D2's bay through the stud at 914; D10 in W9 at 4267 through
/// 4540 and 4947; D11 in W12 at 10058 through 9823; B23 in W15 through 4921; D29 in W21 at 3658
/// through 3994; W25 from its first bay to that beside the door at 3962 through nine, 476 to 3728, and
/// T35 from 1829 through five, 2102 to 3728.
const HOUSE_B: [(&str, &[&str]); 38] = [
    ("D1", &["W7 top plates", "webs: 7", "W5 top plates"]),
    ("D2", &["W5 top plates", "webs: 22", "W5 top plates"]),
    ("T3", &["W5 top plates", "webs: 11", "W5 top plates"]),
    (
        "D4",
        &["W5 studs: 1", "W5 top plates", "webs: 22", "W5 top plates"],
    ),
    ("A5", &["webs: 15", "W5 top plates"]),
    ("D6", &["W11 bottom plate", "webs: 24", "W5 top plates"]),
    ("D7", &["W13 bottom plate", "webs: 15", "W5 top plates"]),
    ("D8", &["W14 bottom plate", "webs: 4", "W5 top plates"]),
    ("D9", &["W14 bottom plate", "webs: 4", "W5 top plates"]),
    (
        "D10",
        &[
            "W9 studs: 2",
            "W12 corner",
            "W12 studs: 3",
            "W12 bottom plate",
            "W5 top plates",
        ],
    ),
    (
        "D11",
        &["W12 studs: 1", "W12 bottom plate", "W5 top plates"],
    ),
    ("D12", &["W11 bottom plate", "webs: 24", "W5 top plates"]),
    ("D13", &["W10 bottom plate", "webs: 13", "W5 top plates"]),
    ("D14", &["W15 bottom plate", "webs: 9", "W5 top plates"]),
    ("T15", &["W12 bottom plate", "webs: 22", "W5 top plates"]),
    ("T16", &["W12 bottom plate", "webs: 9", "W5 top plates"]),
    ("A17", &["webs: 8", "DOWN"]),
    ("D18", &["W16 bottom plate", "webs: 3", "W5 top plates"]),
    (
        "C19",
        &[
            "W8 outside",
            "W25 bottom plate",
            "W25 studs: 9",
            "W25 bottom plate",
            "webs: 13",
            "DOWN",
        ],
    ),
    ("C20", &["W9 outside", "RIGHT"]),
    ("C21", &["W9 outside", "RIGHT"]),
    (
        "C22",
        &[
            "W10 outside",
            "W25 bottom plate",
            "W25 studs: 9",
            "W25 bottom plate",
            "webs: 13",
            "DOWN",
        ],
    ),
    (
        "B23",
        &[
            "W10 outside",
            "W15 corner",
            "W15 studs: 1",
            "W15 bottom plate",
            "webs: 9",
            "W5 top plates",
        ],
    ),
    (
        "D24",
        &[
            "W21 top plates",
            "W22 top plates",
            "W22 bottom plate",
            "DOWN",
        ],
    ),
    ("D25", &["W23 bottom plate", "webs: 13", "DOWN"]),
    ("D26", &["W24 bottom plate", "webs: 7", "DOWN"]),
    ("D27", &["W19 bottom plate", "RIGHT"]),
    ("D28", &["W19 bottom plate", "RIGHT"]),
    (
        "D29",
        &[
            "W21 studs: 1",
            "W25 corner",
            "W25 studs: 9",
            "W25 bottom plate",
            "webs: 5",
            "W12 top plates",
            "W12 bottom plate",
            "webs: 9",
            "W5 top plates",
        ],
    ),
    (
        "D30",
        &[
            "W21 bottom plate",
            "webs: 1",
            "W25 bottom plate",
            "W25 studs: 9",
            "W25 bottom plate",
            "webs: 13",
            "DOWN",
        ],
    ),
    ("D31", &["W26 bottom plate", "webs: 9", "DOWN"]),
    (
        "D32",
        &[
            "W20 top plates",
            "W22 top plates",
            "W22 bottom plate",
            "DOWN",
        ],
    ),
    (
        "T33",
        &[
            "W22 top plates",
            "W22 top plates",
            "W22 bottom plate",
            "DOWN",
        ],
    ),
    ("T34", &["W22 bottom plate", "DOWN"]),
    (
        "T35",
        &["W25 studs: 5", "W25 bottom plate", "webs: 13", "DOWN"],
    ),
    ("D36", &["W27 bottom plate", "webs: 2", "DOWN"]),
    ("A37", &["W22 top plates", "W22 bottom plate", "DOWN"]),
    ("A38", &["W22 bottom plate", "webs: 8", "DOWN"]),
];

/// From the upper floor to the closet: down W12 at 9214 and one stud on, or down at 10760 and three.
const DOWN: [&str; 4] = [
    "W12 top plates",
    "W12 studs: 1",
    "W12 bottom plate",
    "W5 top plates",
];
const RIGHT: [&str; 4] = [
    "W12 top plates",
    "W12 studs: 3",
    "W12 bottom plate",
    "W5 top plates",
];

/// Every place of house B. Webs: under the ground floor 24 of the trunk and 3 of D18 on a course of
/// its own; over it 13 of the trunk from 4102 to 8979 and one of D30 at 38.
const PLACES_B: [(&str, usize); 35] = [
    ("W10 bottom plate", 1),
    ("W10 outside", 2),
    ("W11 bottom plate", 2),
    ("W12 bottom plate", 3),
    ("W12 corner", 1),
    ("W12 studs", 4),
    ("W12 top plates", 3),
    ("W13 bottom plate", 1),
    ("W14 bottom plate", 2),
    ("W15 bottom plate", 1),
    ("W15 corner", 1),
    ("W15 studs", 1),
    ("W16 bottom plate", 1),
    ("W19 bottom plate", 2),
    ("W20 top plates", 1),
    ("W21 bottom plate", 1),
    ("W21 studs", 1),
    ("W21 top plates", 1),
    ("W22 bottom plate", 2),
    ("W22 top plates", 2),
    ("W23 bottom plate", 1),
    ("W24 bottom plate", 1),
    ("W25 bottom plate", 2),
    ("W25 corner", 1),
    ("W25 studs", 9),
    ("W26 bottom plate", 1),
    ("W27 bottom plate", 1),
    ("W5 studs", 1),
    ("W5 top plates", 3),
    ("W7 top plates", 1),
    ("W8 outside", 1),
    ("W9 outside", 2),
    ("W9 studs", 2),
    ("all", 100),
    ("webs", 41),
];

/// What a crossing is counted under, and how many members it goes through.
fn place(crossing: &Crossing) -> (String, usize) {
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

fn counted(rows: &[&str]) -> Vec<String> {
    let all = rows.iter().flat_map(|row| match *row {
        "DOWN" => DOWN.to_vec(),
        "RIGHT" => RIGHT.to_vec(),
        row => vec![row],
    });
    all.map(String::from).collect()
}

fn compare(house: &str, paths: &[(&str, &[&str])], places: &[(&str, usize)]) {
    let plan = super::plan(house);
    let design = Design::of(&plan);
    let drops: BTreeSet<String> = plan.drops.iter().map(|drop| drop.label()).collect();
    let named: BTreeSet<String> = paths
        .iter()
        .map(|(label, _)| (*label).to_string())
        .collect();
    assert_eq!(drops, named, "{house}: every drop is counted");
    for (label, rows) in paths {
        assert_eq!(
            path(&plan, &design, label),
            counted(rows),
            "{house} {label}"
        );
    }
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

#[test]
fn every_hole_of_house_b_is_the_one_counted_by_hand() {
    compare("house-b", &HOUSE_B, &PLACES_B);
}
