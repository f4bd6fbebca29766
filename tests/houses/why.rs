//! Why a cable goes as it does: what is told is what the router would pay.

use borewright_core::design::Design;
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{KeepOut, KeepOutId, KeepOutReason, KeepOutShape, LevelId, WallId};
use borewright_core::route::why;
use borewright_core::units::Mm;

use crate::places::{place, saved};

/// Under a closed roof, with one door: over it, or round by the three other walls. Where the door's wall is
/// closed over the door, the router pays what was told.
#[test]
fn the_other_way_costs_what_the_router_would_pay() {
    let plan = place("r3b_closed_roof_one_door");
    let design = Design::of(&plan);
    let cable = plan.drops[0].cables[0].id;
    let told = why(&plan, &design.framing, &design.ways, cable).unwrap();
    let shut = KeepOut {
        id: KeepOutId(0),
        shape: KeepOutShape::Stretch {
            wall: WallId(3),
            from: Mm(3500),
            to: Mm(4400),
        },
        bottom: Mm(0),
        top: Mm(2743),
        reason: KeepOutReason::Duct,
    };
    let other = plan.apply(&Edit::AddKeepOut(LevelId(1), shut)).unwrap();
    let other = Design::of(&other);
    assert_eq!(other.ways.ways[0].trouble, None);
    let more = (other.ways.cost - design.ways.cost + 500) / 1000;
    let end = format!("costs {more} minutes more.");
    assert!(
        told.starts_with("The other way, by W1, ") && told.ends_with(&end),
        "{told} {end}"
    );
    // From there, over the door is the shorter way, and would be drilled anew.
    let back = why(&plan, &design.framing, &other.ways, cable).unwrap();
    assert!(
        back.starts_with("It is ") && back.contains("shortest way, by W3, which costs no more"),
        "{back}"
    );
}

/// Every cable with a way can say why, and a detour always says how long it is.
#[test]
fn every_way_says_why() {
    for (name, plan) in saved() {
        let design = Design::of(&plan);
        for way in &design.ways.ways {
            let told = why(&plan, &design.framing, &design.ways, way.cable);
            assert_eq!(
                told.is_some(),
                !way.moves.is_empty(),
                "{name}: {}",
                way.cable.0
            );
        }
    }
}
