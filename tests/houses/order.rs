//! The order in which a plan was drawn decides nothing: the same ways, bores, lengths and counts, by
//! their identity, whatever comes first in its lists.

use std::collections::BTreeMap;

use borewright_core::design::Design;
use borewright_core::plan::Plan;

use crate::plan;

/// The lists of a plan in another order: turned round, dealt out, or both.
fn drawn_otherwise(plan: &Plan, how: usize) -> Plan {
    let mut plan = plan.clone();
    for level in &mut plan.levels {
        shuffle(&mut level.walls, how);
        shuffle(&mut level.openings, how);
        shuffle(&mut level.keep_outs, how);
        shuffle(&mut level.power_runs, how);
        shuffle(&mut level.rooms, how);
    }
    shuffle(&mut plan.drops, how);
    for drop in &mut plan.drops {
        shuffle(&mut drop.cables, how);
    }
    shuffle(&mut plan.pins, how);
    plan
}

fn shuffle<T: Clone>(list: &mut [T], how: usize) {
    let step = [1, 7, 11, 13][how % 4];
    if how % 2 == 1 {
        list.reverse();
    }
    let dealt: Vec<T> = (0..step)
        .flat_map(|first| list.iter().skip(first).step_by(step).cloned())
        .collect();
    list.clone_from_slice(&dealt);
}

/// Each way with the places it passes, in words.
fn ways(design: &Design) -> BTreeMap<u32, String> {
    let told = |way: &borewright_core::route::Way| {
        let moves = way.moves.iter().map(|step| {
            let hole = step.crossing.map(|j| hole(design, j));
            format!("{:?} {:?} {} {hole:?}\n", step.kind, step.to, step.length)
        });
        format!(
            "{:?} {:?}\n{}",
            way.length,
            way.trouble,
            moves.collect::<String>()
        )
    };
    let ways = design.ways.ways.iter();
    ways.map(|way| (way.cable.0, told(way))).collect()
}

fn hole(design: &Design, crossing: usize) -> String {
    format!("{:?}", design.ways.crossings[crossing])
}

/// Each bore by where it is, all but its place in the list.
fn bores(design: &Design) -> BTreeMap<String, String> {
    let told = |bore: &borewright_core::bore::Bore| {
        let place = format!("{} part {}", hole(design, bore.crossing), bore.part);
        let mut bore = bore.clone();
        bore.crossing = 0;
        (place, format!("{bore:?}"))
    };
    design.bores.iter().map(told).collect()
}

fn cuts(design: &Design) -> BTreeMap<u32, String> {
    let cuts = design.cut_list.cuts.iter();
    cuts.map(|cut| (cut.cable.0, format!("{cut:?}"))).collect()
}

fn rows(design: &Design) -> Vec<String> {
    let told = |row: &borewright_core::bore::DrillRow| {
        let mut row = row.clone();
        row.bores.clear();
        format!("{row:?}")
    };
    let mut rows: Vec<String> = design.drill_list.iter().map(told).collect();
    rows.sort();
    rows
}

fn findings(design: &Design) -> Vec<String> {
    let mut told: Vec<String> = design
        .findings
        .iter()
        .map(|finding| format!("{finding:?}"))
        .collect();
    told.sort();
    told
}

#[test]
fn the_order_of_drawing_decides_nothing() {
    for house in ["house-a", "house-b", "house-c"] {
        let plan = plan(house);
        let first = Design::of(&plan);
        for how in 1..4 {
            let other = drawn_otherwise(&plan, how);
            assert!(other != plan, "{house}");
            let again = Design::of(&other);
            assert_eq!(again.ways.cost, first.ways.cost, "{house} {how}");
            assert_eq!(again.ways.supported, first.ways.supported, "{house} {how}");
            assert_eq!(ways(&again), ways(&first), "{house} {how}");
            assert_eq!(bores(&again), bores(&first), "{house} {how}");
            assert_eq!(rows(&again), rows(&first), "{house} {how}");
            assert_eq!(cuts(&again), cuts(&first), "{house} {how}");
            assert_eq!(again.totals, first.totals, "{house} {how}");
            assert_eq!(findings(&again), findings(&first), "{house} {how}");
        }
    }
}
