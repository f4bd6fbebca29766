//! Houses against a count made by hand: the path of every cable, worked out beside the check.

#![expect(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

mod again;
mod changes;
mod holes;
mod tape;

use borewright_core::design::Design;
use borewright_core::file;
use borewright_core::plan::Plan;

/// House A, one storey on a slab under trusses: drop, cables, and the way as a person with a tape
/// counts it on the drawing, in millimetres: left or right to the closet, up or down the sheet to
/// the closet, and the rise from the box to the top of the trusses' bottom chords (the ceiling at
/// 2743 and a dressed 2x4 of 89 over it). From there it is 2832 - 1524 = 1308 down to the panel.
/// Boxes under a window go sideways round its jack and king studs; that is in the tolerance.
const HOUSE_A: [(&str, usize, i32, i32, i32); 24] = [
    ("D1", 2, 9750, 577, 2426),
    ("D2", 1, 6092, 4177, 2426),
    ("D3", 2, 6092, 1577, 2426),
    ("D4", 1, 2435, 3977, 2426),
    ("D5", 2, 2435, 1277, 2426),
    ("T6", 2, 1223, 3377, 1308),
    ("D7", 2, 1223, 977, 2426),
    ("D8", 2, 9750, 4423, 2426),
    ("D9", 1, 6702, 2723, 2426),
    ("D10", 2, 3654, 4823, 2426),
    ("T11", 2, 3654, 3123, 1308),
    ("D12", 2, 1223, 3723, 2426),
    ("D13", 1, 1223, 3677, 2426),
    ("D14", 2, 6709, 1677, 2426),
    ("T15", 2, 3950, 609, 1308),
    ("D16", 1, 1223, 4523, 2426),
    ("D17", 1, 6709, 4721, 2426),
    ("A18", 1, 4550, 603, 89),
    ("A19", 1, 3950, 2177, 89),
    ("C20", 1, 9550, 4877, 89),
    ("C21", 1, 6509, 4877, 89),
    ("C22", 1, 6509, 5486, 89),
    ("C23", 1, 9750, 5286, 89),
    ("B24", 1, 153, 5486, 1689),
];
const DOWN_TO_THE_PANEL: i32 = 2832 - 1524;

fn plan(name: &str) -> Plan {
    let path = format!("{}/plans/{name}.json", env!("CARGO_MANIFEST_DIR"));
    file::read(&std::fs::read(path).unwrap()).unwrap().plan
}

#[test]
fn every_cable_of_house_a_is_as_long_as_counted_by_hand() {
    let plan = plan("house-a");
    let design = Design::of(&plan);
    let (mut counted, mut found) = (0.0, 0.0);
    for (label, cables, across, along, rise) in HOUSE_A {
        let by_hand = f64::from(across + along + rise + DOWN_TO_THE_PANEL);
        let drop = plan
            .drops
            .iter()
            .find(|drop| drop.label() == label)
            .unwrap();
        assert_eq!(drop.cables.len(), cables, "{label}");
        for cable in &drop.cables {
            let way = design.ways.way(cable.id).unwrap();
            assert_eq!(way.trouble, None, "{label}");
            let off = (way.length.f64() - by_hand).abs();
            // 5 % or 3 ft, whichever is more.
            assert!(
                off <= (by_hand * 0.05).max(914.4),
                "{label}: {} not {by_hand}",
                way.length.0
            );
            counted += by_hand;
            found += way.length.f64();
        }
    }
    assert!(
        (found - counted).abs() <= counted * 0.03,
        "{found} not {counted}"
    );
}

/// What must hold for every house: each cable of the plan stands once in the ways and the cut
/// list, its crossings hold it, and each bore stands once in the drill list.
#[test]
fn every_cable_and_every_bore_stands_exactly_once() {
    for house in ["house-a", "house-b", "house-c"] {
        let plan = plan(house);
        let design = Design::of(&plan);
        for (_, cable) in plan.cables() {
            let ways = design
                .ways
                .ways
                .iter()
                .filter(|way| way.cable == cable.id)
                .count();
            let cuts = design
                .cut_list
                .cuts
                .iter()
                .filter(|cut| cut.cable == cable.id)
                .count();
            let label = plan.cable_label(cable.id);
            assert_eq!((ways, cuts), (1, 1), "{house} {label}");
            for step in &design.ways.way(cable.id).unwrap().moves {
                let Some(crossing) = step.crossing else {
                    continue;
                };
                let bores = design.bores.iter().filter(|bore| bore.crossing == crossing);
                let through = bores.filter(|bore| bore.cables.contains(&cable.id)).count();
                assert_eq!(through, 1, "{house} {label} at crossing {crossing}");
            }
        }
        let mut listed: Vec<usize> = design
            .drill_list
            .iter()
            .flat_map(|row| row.bores.clone())
            .collect();
        listed.sort_unstable();
        let all: Vec<usize> = (0..design.bores.len()).collect();
        assert_eq!(listed, all, "{house}");
        assert!(design.bores.iter().all(|bore| bore.within_rules), "{house}");
    }
}
