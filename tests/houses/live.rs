//! The live answer after an edit is the settled one with that edit, not another answer.

use borewright_core::design::Design;

use crate::edits::{near, single_edits};
use crate::{houses_and_demos, plan, settled};

/// One drop taken out, one moved and one placed in each house. None of these 15 edits costs 1 % more than
/// what then settles. All but one, in the demo of two storeys, end so near that the tally hardly tells them
/// apart, or cost no more than what a search from nothing settles at in 250 restarts: then the moment after
/// the edit has the better ways.
#[test]
fn after_a_single_edit_the_tally_stays_near_what_then_settles() {
    let mut apart = Vec::new();
    for (house, plan) in houses_and_demos() {
        let before = settled(&plan);
        for (words, after) in single_edits(&plan, 1) {
            let (live, then) = (Design::after(&before, &plan, &after), settled(&after));
            if !near(&live, &then) && live.ways.cost > then.ways.cost {
                apart.push(format!("{house}, {words}"));
            }
            let over = live.ways.cost as f64 / then.ways.cost as f64;
            assert!(over < 1.01, "{house}, {words}: {over}");
        }
    }
    assert!(apart.len() <= 1, "{apart:?}");
}

/// The first answer of a plan that nothing is known of: within 3 % everywhere, under 1 % on every house but
/// the demo of two storeys.
#[test]
fn the_first_answer_is_near_what_then_settles() {
    for (house, plan) in houses_and_demos() {
        let (first, then) = (Design::of(&plan), settled(&plan));
        let over = first.ways.cost as f64 / then.ways.cost as f64;
        let most = if house == "two-storeys" { 1.03 } else { 1.01 };
        assert!(over < most, "{house}: {over}");
    }
}

/// An edit that touches no way leaves every way and every hole as they were settled.
#[test]
fn what_touches_no_way_moves_none() {
    use borewright_core::plan::edit::Edit;
    let plan = plan("house-a");
    let before = settled(&plan);
    let title = Edit::SetTitle(String::from("Lot 9"));
    let after = Design::after(&before, &plan, &plan.apply(&title).unwrap());
    assert_eq!(after.ways.crossings, before.ways.crossings);
    assert_eq!(after.bores, before.bores);
}

/// Drops placed one after the other, faster than the worker settles any of them.
#[test]
fn many_edits_in_a_row_stay_near_ways_sought_from_nothing() {
    for house in ["house-a", "house-b"] {
        let plan = plan(house);
        let mut grown = plan.clone();
        grown.drops.clear();
        let mut design = Design::of(&grown);
        for drop in &plan.drops {
            let before = grown.clone();
            grown.drops.push(drop.clone());
            design = Design::after(&design, &before, &grown);
        }
        let fresh = Design::of(&plan).ways.cost;
        let over = design.ways.cost as f64 / fresh as f64;
        assert!(over < 1.01, "{house}: {over}");
    }
}
