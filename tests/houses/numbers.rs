//! Numbers of bores are identities: once printed, each is of one place for good.

use std::collections::BTreeMap;

use borewright_core::bore::hole;
use borewright_core::design::Design;
use borewright_core::plan::edit::{Edit, sample};
use borewright_core::plan::{Hole, Plan};
use borewright_core::sheet::{Kind, Paper, Sheets};

use crate::{demo, houses_and_demos};

/// Every bore's place with its number.
fn holes(design: &Design) -> Vec<(u32, Hole)> {
    let at = |bore| hole(&design.framing, &design.ways, bore);
    design
        .bores
        .iter()
        .map(|bore| (bore.number, at(bore)))
        .collect()
}

/// Whether two bores are one: to a tenth of a millimetre.
fn same(one: &Hole, other: &Hole) -> bool {
    (one.level, one.through) == (other.level, other.through)
        && one.at.distance(other.at) < 0.1
        && (one.height - other.height).abs() < 0.1
}

/// The plan with its numbers kept as printed, and its design.
fn printed(plan: &Plan, design: &Design) -> (Plan, Design) {
    let (rows, sum) = design.on_paper(plan);
    let kept = plan.apply(&Edit::KeepNumbers { rows, sum }).unwrap();
    let design = design.renumbered(&kept);
    (kept, design)
}

/// Ten random edits, each printed: what did not move keeps its number, and none is given twice.
fn hold(name: &str, plan: Plan, seed: u64) {
    let first = Design::of(&plan);
    let (mut plan, mut design) = printed(&plan, &first);
    assert_eq!(
        design.bores, first.bores,
        "{name}: printing changes nothing"
    );
    let mut given: BTreeMap<u32, Hole> = BTreeMap::new();
    let mut dice = seed * 1000;
    for turn in 0..10 {
        let next = loop {
            dice += 1;
            match plan.apply(&sample::edit(dice, &plan)) {
                Ok(next) if next != plan => break next,
                _ => {}
            }
        };
        let (before, after) = (holes(&design), Design::after(&design, &plan, &next));
        for (number, hole) in holes(&after) {
            let was = before.iter().find(|(_, was)| same(was, &hole));
            if let Some((was, _)) = was {
                assert_eq!(number, *was, "{name}, seed {seed}, turn {turn}");
            }
            if number > plan.printed.last() {
                assert!(was.is_none(), "{name}, seed {seed}, turn {turn}: {number}");
            }
        }
        let last = plan.printed.last();
        (plan, design) = printed(&next, &after);
        for (number, hole) in holes(&design) {
            let row = plan.printed.places().row_of(&hole).map(|row| row.number);
            assert_eq!(
                row,
                Some(number),
                "{name}, seed {seed}, turn {turn}: {hole:?}"
            );
            given.entry(number).or_insert(hole);
            assert!(number <= last || !before.iter().any(|(old, _)| *old == number));
        }
        assert!(!design.since_printed(&plan).differs);
    }
}

#[test]
fn what_did_not_move_keeps_its_number_through_ten_edits() {
    for (name, plan) in houses_and_demos() {
        for seed in 1..4 {
            hold(&name, plan.clone(), seed);
        }
    }
    for seed in 0..8 {
        hold("an invented plan", sample::plan(seed, 120), seed);
    }
}

/// A drop taken out after printing: its own bores are crossed out on the next drill list, and what is
/// new stands there as new.
#[test]
fn what_is_gone_is_crossed_out_on_the_next_drill_list() {
    let plan = demo("demo");
    let design = Design::of(&plan);
    let (plan, design) = printed(&plan, &design);
    let words = |plan: &Plan, design: &Design| -> String {
        let pages = Sheets::of(plan, design, &Paper::default());
        let pages = pages.iter().filter(|page| page.kind == Kind::DrillList);
        pages.map(|page| page.svg()).collect()
    };
    let gone = "not to be drilled any more";
    assert!(!words(&plan, &design).contains(gone));
    let without = plan
        .drops
        .iter()
        .map(|drop| plan.apply(&Edit::RemoveDrop(drop.id)).unwrap());
    let changed = without.map(|next| {
        let after = Design::after(&design, &plan, &next);
        (next, after)
    });
    let mut crossed_out = 0;
    for (next, after) in changed {
        let since = after.since_printed(&next);
        assert!(since.differs);
        assert_eq!(words(&next, &after).contains(gone), !since.gone.is_empty());
        crossed_out += since.gone.len();
        let (later, after) = printed(&next, &after);
        assert_eq!((later.revision, later.printed.revision), (2, 2));
        assert_eq!(
            words(&later, &after).contains("New in revision 2"),
            !since.new.is_empty()
        );
    }
    assert!(crossed_out > 0);
}
