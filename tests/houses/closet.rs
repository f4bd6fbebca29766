//! How many cables come home through the plates of one bay, and what to do where their holes find no room.

use borewright_core::bore::too_close;
use borewright_core::design::Design;
use borewright_core::finding::Severity;
use borewright_core::plan::Plan;
use borewright_core::plan::edit::Edit;

use crate::places::{every_plan, found};
use crate::plan;

fn todo(plan: &Plan) -> String {
    let mut findings = Design::of(plan).findings.into_iter();
    let full = findings.find(|finding| finding.key.starts_with("closet-bay"));
    full.unwrap().todo
}

/// By hand: 84 cables in six holes of 1-1/2 in. Six of them, five times 2 in of wood between and half an inch
/// for the nails at both ends take 9 + 10 + 1 = 20 in; a bay 16 in on centre is 14-1/2 in wide. Four find room
/// in one bay (6 + 6 + 1 = 13), so six want two bays.
#[test]
fn eighty_four_cables_want_two_bays() {
    let plan = plan("house-c");
    let told = found(&plan, "closet-bay");
    assert_eq!(told.len(), 1, "{told:?}");
    assert_eq!(told[0].0, Severity::Warn);
    assert_eq!(
        told[0].1,
        "84 cables come to the closet by 6 bores in the top plates of one bay of W5: with 2 in of wood between \
         them that takes 20 in, and the bay is 14-1/2 in wide."
    );
    assert!(
        todo(&plan).starts_with("Bring them in by 2 bays side by side"),
        "{}",
        todo(&plan)
    );
    assert_eq!(found(&plan, "spacing:1:W5"), [], "it is said once");
}

/// Half of the drops need no more than one bay.
#[test]
fn a_bay_that_takes_its_holes_is_not_told() {
    let whole = plan("house-c");
    let every_other = whole
        .drops
        .iter()
        .step_by(2)
        .map(|drop| Edit::RemoveDrop(drop.id));
    let half = whole.apply(&Edit::Together(every_other.collect())).unwrap();
    assert!(half.cables().count() > 30);
    assert_eq!(found(&half, "closet-bay"), []);
}

/// Whatever the plan: a bay that is told of has two holes of one bundle nearer than the rule wants.
#[test]
fn a_full_bay_has_holes_too_near_in_any_plan() {
    let mut seen = 0;
    for (name, plan) in every_plan() {
        let design = Design::of(&plan);
        let is_full =
            |finding: &&borewright_core::finding::Finding| finding.key.starts_with("closet-bay");
        let Some(full) = design.findings.iter().find(is_full) else {
            continue;
        };
        seen += 1;
        let close = too_close(&plan, &design.framing, &design.ways, &design.bores);
        let on = |bore: usize| design.bores[bore].crossing;
        let at = full.at.unwrap().1;
        let mut there = close
            .iter()
            .filter(|close| on(close.bores.0) == on(close.bores.1));
        assert!(
            there.any(|close| design.ways.crossings[on(close.bores.0)].at == at),
            "{name}: {}",
            full.what
        );
    }
    assert!(seen >= 2, "{seen}");
}
