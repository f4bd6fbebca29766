//! House B hole by hole: what each path goes through, counted by hand from the drawing's own numbers,
//! every place that is bored at all, where one hole is not enough, and the bit of each path's own
//! holes. The choice of way is the router's; what stands in that way is counted here.
//!
//! X runs from the left wall's centre line, millimetres. The house is 10973 wide.
//!
//! - The floor over the basement: joist k stands at 11074.5 - 406.4 k, as its walls of concrete are
//!   203 thick. The closet's bay of W5 has its middle at 9652, between joists 3 (9855) and 4 (9449).
//!   Who goes into that floor west of it at x meets the joists 4 to K, the last whole number in
//!   (11074.5 - x) / 406.4: K - 3 webs. Who goes in at the right wall meets 1, 2 and 3.
//! - The floor over the ground floor: 11042.85 - 406.4 k, its walls being 139.7 thick. All come out of
//!   it into W12's bay at 8449, between its joists 6 (8604) and 7 (8198): K - 6 webs. There they pass
//!   W12's studs at 8604, 9011 and 9417 to the bay at 9620, over the closet's.
//! - Studs of a wall stand 406.4 apart from where its plates start: W5 at 101.5, W12 and W22 at 69.85,
//!   W9, W10, W19 and W20 at -69.85.

use std::collections::BTreeMap;

use borewright_core::design::Design;
use borewright_core::units::Size;

use crate::holes::{compare, place};

/// Where every path comes down to the panel.
const CLOSET: &str = "W5 top plates";
const EAST: [&str; 4] = ["W9 top plates", "W9 bottom plate", "webs: 3", CLOSET];
const DOWN: [&str; 4] = [
    "W22 bottom plate",
    "W12 top plates",
    "W12 bottom plate",
    CLOSET,
];
const TRUNK: [&str; 4] = ["W12 top plates", "W12 studs: 3", "W12 bottom plate", CLOSET];

/// Out of the basement and the ground floor; then the upper floor.
///
/// D1: W7 at 6706, 4368.5 / 406.4 = 10.7. D2: its bay of W5 ends at the stud at 914.3; the next one's
/// middle is 1117.5, 24.5. T3: bay of W5 from 4978.3 to 5384.7, middle 5181.5, 14.5. D4: 1117.5 as
/// D2. A5: 3353, 18.9995: it hangs beside a joist at 3352.9. D6, D12: 0, 27.2. D7: 3658, 18.2. D8, D9:
/// 7925, 7.7. D10: from the bay 4013 to 4382 of W9 past its stud at 4401. D11: from the bay 9823 to
/// 10230 of W12 past 9823 to 9620, straight over the closet's bay: no joist between 9620 and 9652.
///
/// D13: from 6706 on W10, under a window of 6 ft from 6096, past the cripple at 6432.6 into the bay from
/// 6096 to 6413.5, which is x = 4718: 15.6. D14: 6096, 12.25. T15: bay of W12 from 476 to 883, middle 679.5, 25.6. T16: from
/// between the boards behind W15 to the bay at 5896, 12.7. A17: 5791, (11042.85 - 5791) / 406.4 = 12.9.
/// D18: 8230, 6.9993. C19: the first bay at the corner, from the board behind W11 at 88.9 to 317.5, middle 203, 26.75. C22:
/// likewise, 283, 26.6. C20: up into the floor over, along the wall and down in D10's bay, at 4604. B23:
/// round into W15 and past its stud at 10407 down the sheet into D14's bay.
///
/// D26: W24 at 6401, 11.4. D31: W26 at 5486, 13.7. D32: bay of W20 from 4807 to 5213, which is x =
/// 5963: 12.5. A38: 5937, 12.6. D36: W27 at 8230, 6.9: the strip it leaves from. T34: from the bay 9011
/// to 9417 past 9417. The others lie over the trusses without a bore.
const LOW: [(&str, &[&str]); 22] = [
    ("D1", &["W7 top plates", "webs: 7", CLOSET]),
    ("D2", &["W5 studs: 1", CLOSET, "webs: 21", CLOSET]),
    ("T3", &[CLOSET, "webs: 11", CLOSET]),
    ("D4", &[CLOSET, "webs: 21", CLOSET]),
    ("A5", &["webs: 15", CLOSET]),
    ("D6", &["W11 bottom plate", "webs: 24", CLOSET]),
    ("D7", &["W13 bottom plate", "webs: 15", CLOSET]),
    ("D8", &["W14 bottom plate", "webs: 4", CLOSET]),
    ("D9", &["W14 bottom plate", "webs: 4", CLOSET]),
    ("D10", &["W9 bottom plate", "webs: 3", CLOSET]),
    ("D11", &["W12 studs: 1", "W12 bottom plate", CLOSET]),
    ("D12", &["W11 bottom plate", "webs: 24", CLOSET]),
    (
        "D13",
        &["W10 studs: 1", "W10 bottom plate", "webs: 12", CLOSET],
    ),
    ("D14", &["W15 bottom plate", "webs: 9", CLOSET]),
    ("T15", &["W12 bottom plate", "webs: 22", CLOSET]),
    ("T16", &["W12 bottom plate", "webs: 9", CLOSET]),
    ("D18", &["W16 bottom plate", "webs: 3", CLOSET]),
    (
        "C19",
        &["W8 outside", "W8 bottom plate", "webs: 23", CLOSET],
    ),
    (
        "C20",
        &[
            "W9 outside",
            "W9 top plates",
            "W9 top plates",
            "W9 bottom plate",
            "webs: 3",
            CLOSET,
        ],
    ),
    ("C21", &["W9 outside", "W9 bottom plate", "webs: 3", CLOSET]),
    (
        "C22",
        &["W10 outside", "W10 bottom plate", "webs: 23", CLOSET],
    ),
    (
        "B23",
        &[
            "W10 outside",
            "W15 corner",
            "W15 studs: 1",
            "W15 bottom plate",
            "webs: 9",
            CLOSET,
        ],
    ),
];

/// From the upper floor through W9, through W22 over the closet's bay, and by the floor's trunk.
const UPPER: [(&str, &[&str], &[&str]); 16] = [
    ("D27", &["W19 bottom plate"], &EAST),
    ("D28", &["W19 bottom plate"], &EAST),
    ("D24", &["W21 top plates", "W22 top plates"], &DOWN),
    ("D25", &["W23 top plates", "W22 top plates"], &DOWN),
    ("D29", &["W21 top plates", "W22 top plates"], &DOWN),
    ("D30", &["W21 top plates", "W22 top plates"], &DOWN),
    ("T33", &["W22 top plates", "W22 top plates"], &DOWN),
    ("T34", &["W22 studs: 1"], &DOWN),
    ("T35", &["W25 top plates", "W22 top plates"], &DOWN),
    ("A37", &["W22 top plates"], &DOWN),
    ("A17", &["webs: 6"], &TRUNK),
    ("D26", &["W24 bottom plate", "webs: 5"], &TRUNK),
    ("D31", &["W26 bottom plate", "webs: 7"], &TRUNK),
    ("D32", &["W20 bottom plate", "webs: 6"], &TRUNK),
    ("D36", &["W27 bottom plate"], &TRUNK),
    ("A38", &["W22 bottom plate", "webs: 6"], &TRUNK),
];

/// Every place of house B. Webs: joists 1 to 27 of the floor over the basement, D13's own at 15 of it, and 7 to 12 of the one over the ground floor along the trunk,
/// and D31's own at 13: 35. W5: bays of D2 and D4, of T3, of the closet. W9's plates: C20's up and its way down with D27 and D28; the way out of there, and C21's.
/// W10's stud: D13's; its plates: that one's, and C22's. W15's corner and stud: B23's. W12's plates: the trunk's and
/// the closet's over; the closet's, T15's and T16's under. W22's: T33's and the closet's over; the
/// closet's and A38's under.
const PLACES: [(&str, usize); 33] = [
    ("W10 bottom plate", 2),
    ("W10 outside", 2),
    ("W10 studs", 1),
    ("W11 bottom plate", 2),
    ("W12 bottom plate", 3),
    ("W12 studs", 4),
    ("W12 top plates", 2),
    ("W13 bottom plate", 1),
    ("W14 bottom plate", 2),
    ("W15 bottom plate", 1),
    ("W15 corner", 1),
    ("W15 studs", 1),
    ("W16 bottom plate", 1),
    ("W19 bottom plate", 2),
    ("W20 bottom plate", 1),
    ("W21 top plates", 3),
    ("W22 bottom plate", 2),
    ("W22 studs", 1),
    ("W22 top plates", 2),
    ("W23 top plates", 1),
    ("W24 bottom plate", 1),
    ("W25 top plates", 1),
    ("W26 bottom plate", 1),
    ("W27 bottom plate", 1),
    ("W5 studs", 1),
    ("W5 top plates", 3),
    ("W7 top plates", 1),
    ("W8 bottom plate", 1),
    ("W8 outside", 1),
    ("W9 bottom plate", 2),
    ("W9 outside", 2),
    ("W9 top plates", 2),
    ("webs", 35),
];

#[test]
fn every_hole_of_house_b_is_the_one_counted_by_hand() {
    let upper = UPPER.map(|(drop, first, rest)| (drop, [first, rest].concat()));
    let upper = upper.iter().map(|(drop, rows)| (*drop, &rows[..]));
    let paths: Vec<(&str, &[&str])> = LOW.into_iter().chain(upper).collect();
    let all = PLACES.iter().map(|(_, count)| count).sum();
    let places = [&PLACES[..], &[("all", all)]].concat();
    compare("house-b", &paths, &places);
}

/// Holes beyond one at each place. The largest bit in the van, 1-1/2 in, is 38.1: full at 40 % with
/// squares of diameters of 0.4 x 38.1 x 38.1 = 580.6 in all; a Cat 6 has 36, with its RG-6 83.6, one
/// outdoors 42.25.
///
/// - The closet's plates: 54 Cat 6, 6 RG-6 and 4 outdoors, 1944 + 285.7 + 169 = 2398.7: 4.1, so five.
/// - Webs: joist 15 is passed by D2, D4, D6, D7, D12 and A5, ten of 36, T15 with 83.6 and two cameras
///   with 84.5: 528.1, in one, to which D13 with 72 does not fit; both with T3 at joist 14 make it
///   683.7: two from there to the last, joist 4. There they hold that, D1, D8, D9 and D14 with two of 36
///   each, B23 and D18 with one and T16 with 83.6: 1127.3. Two hold 1161.2.
/// - W12's plates over the closet's: 23 Cat 6 and 3 RG-6, 970.8: 1.7, two.
/// - W12's three bearing studs of the trunk: 9 x 36 = 324 would go in 1-1/8 in, which leaves (88.9 -
///   28.6) / 2 = 30.2 at both faces, less than 1-1/4 in (31.75): six nail plates; two holes of up to
///   7/8 in need none.
const SPLIT: [(&str, usize); 4] = [
    ("W12 bottom plate", 1),
    ("W12 studs", 3),
    ("W5 top plates", 4),
    ("webs", 11),
];

#[test]
fn where_one_hole_is_not_enough_is_where_the_hand_says() {
    let plan = super::plan("house-b");
    let design = super::settled(&plan);
    let mut more: BTreeMap<String, usize> = BTreeMap::new();
    for (index, crossing) in design.ways.crossings.iter().enumerate() {
        let bores = design.bores.iter().filter(|bore| bore.crossing == index);
        let count = bores.count();
        if count > 1 {
            *more.entry(place(crossing).0).or_default() += count - 1;
        }
    }
    let by_hand = SPLIT.iter().map(|(name, n)| ((*name).to_string(), *n));
    assert_eq!(more, by_hand.collect());
}

/// The bit of a hole that holds a drop's cables and no other, with 3 mm to pull. One Cat 6: 6 + 3 = 9,
/// 1/2 in. One outdoors: 6.5 + 3, 1/2 in. Two Cat 6: 2 x 6 + 3 = 15, 5/8 in (15.875), 72 / 252 = 29 %
/// full. Cat 6 and RG-6: 6 + 6.9 + 3 = 15.9, just over 5/8 in: 3/4 in.
fn own_bit(label: &str, cables: usize) -> Size {
    Size::inches(match (label.starts_with('T'), cables) {
        (true, _) => 0.75,
        (_, 1) => 0.5,
        _ => 0.625,
    })
}

#[test]
fn holes_of_one_drop_alone_have_the_bit_worked_by_hand() {
    let plan = super::plan("house-b");
    let design = Design::of(&plan);
    let mut seen = 0;
    for drop in &plan.drops {
        let mut own: Vec<_> = drop.cables.iter().map(|cable| cable.id).collect();
        own.sort_unstable();
        for bore in design.bores.iter().filter(|bore| bore.cables == own) {
            assert_eq!(
                bore.bit.micrometres(),
                own_bit(&drop.label(), own.len()).micrometres(),
                "{} bore {}",
                drop.label(),
                bore.number
            );
            seen += 1;
        }
    }
    assert!(seen > 35, "{seen} holes");
}
