//! Boxes hang on wood and in nothing else: small plans where one was drawn in an opening, a header or
//! on an upright, and a law over every plan.

use borewright_core::design::Design;
use borewright_core::finding::Severity;
use borewright_core::framing::{Framing, Hang, hang_near, hang_of, hang_words};
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{BoxKind, Drop, Place, Plan};
use borewright_core::units::Mm;

use crate::places::{every_plan, found, place, saved};

/// Whole millimetres put a box so little into what it lies against.
const HAIR: f64 = 2.0;

/// The plan with its drop moved to where its finding says.
fn moved(plan: &Plan, drop: &Drop) -> Plan {
    let (at, _) = hang_near(plan, &Framing::of(plan), drop).unwrap();
    let mut place = drop.place;
    if let Place::Wall { offset, .. } = &mut place {
        *offset = at;
    }
    plan.apply(&Edit::MoveDrop(drop.id, place)).unwrap()
}

/// What is found of the box in a plan; moved to where that says, nothing is, and it is on wood.
fn told(name: &str) -> (Severity, String) {
    let plan = place(name);
    let mut told = found(&plan, "box:");
    assert_eq!(told.len(), 1, "{name}: {told:?}");
    let better = moved(&plan, &plan.drops[0]);
    assert_eq!(found(&better, "box:"), [], "{name}");
    let words = hang_words(&better, &Framing::of(&better), &better.drops[0]).unwrap();
    assert!(words.starts_with("on stud "), "{name}: {words}");
    // Meanwhile its cable is led there, not into the opening.
    let starts = |plan: &Plan| Design::of(plan).ways.ways[0].moves[0].from;
    assert_eq!(starts(&plan), starts(&better), "{name}");
    told.remove(0)
}

#[test]
fn a_box_in_an_opening_a_header_or_an_upright_is_told_with_what_would_do() {
    let says = |name, what: &str| (name, what.to_string());
    for (name, what) in [
        says("r13_tv_in_window", "The box of D1 is in the window of W3."),
        says("r15_outlet_in_door", "The box of D1 is in the door of W3."),
        says(
            "r16_ap_in_header",
            "The box of D1 is in the header over the door of W3.",
        ),
    ] {
        assert_eq!(told(name), (Severity::Stop, what), "{name}");
    }
    let (severity, what) = told("r21_box_on_jack");
    assert_eq!(severity, Severity::Warn);
    assert_eq!(what, "The box of D1 is on the face of a jack of W3.");
}

/// A 2x4 in the clear between two studs 16 in apart: one gang is nailed beside a stud, one in the
/// middle wants blocking, four gangs (7-1/2 in) fit there too, and none fits over the stud.
#[test]
fn a_box_is_told_by_what_it_is_nailed_to() {
    let plan = place("r15_outlet_in_door");
    let framing = Framing::of(&plan);
    let wall = framing
        .wall(plan.drops[0].place.on_wall().unwrap().0)
        .unwrap();
    let stud = wall.studs.iter().find(|stud| stud.number == 3).unwrap();
    let at = |offset: f64| {
        let mut place = plan.drops[0].place;
        if let Place::Wall { offset: known, .. } = &mut place {
            *known = Mm::rounded(offset);
        }
        let plan = plan
            .apply(&Edit::MoveDrop(plan.drops[0].id, place))
            .unwrap();
        hang_words(&plan, &framing, &plan.drops[0])
    };
    assert_eq!(at(stud.to + 27.0).unwrap(), "on stud 3, W4 side");
    assert_eq!(at(stud.from - 27.0).unwrap(), "on stud 3, W2 side");
    let between = "on 2x6 blocking between studs 3 and 4";
    assert_eq!(at(stud.to + 180.0).unwrap(), between);
    assert_eq!(at(stud.to), None);
}

/// Whether a box, where its plan draws it, is in wood, in an opening, or beyond its wall: by overlap of
/// rectangles alone.
fn is_in_something(plan: &Plan, framing: &Framing, drop: &Drop) -> bool {
    let Place::Wall {
        wall,
        offset,
        height,
        ..
    } = drop.place
    else {
        return false;
    };
    let Some(framed) = framing.wall(wall) else {
        return false;
    };
    let (wide, tall) = drop.outline();
    let (left, right) = (offset.f64() - wide / 2.0, offset.f64() + wide / 2.0);
    let (low, high) = (height.f64() - tall / 2.0, height.f64() + tall / 2.0);
    let meets = |along: (f64, f64), up: (f64, f64)| {
        left + HAIR < along.1 && along.0 + HAIR < right && low + HAIR < up.1 && up.0 + HAIR < high
    };
    let level = plan.level(drop.level).unwrap();
    let openings = level.openings_of(wall).into_iter();
    let mut openings = openings.map(|o| {
        let ends = (o.offset.f64(), (o.offset + o.width).f64());
        (ends, (o.sill.f64(), o.head.f64()))
    });
    let mut studs = framed
        .studs
        .iter()
        .map(|s| ((s.from, s.to), (s.bottom, s.top)));
    let mut headers = framed
        .headers
        .iter()
        .map(|h| ((h.from, h.to), (h.bottom, h.top)));
    openings.any(|(along, up)| meets(along, up))
        || studs.any(|(along, up)| meets(along, up))
        || headers.any(|(along, up)| meets(along, up))
        || low + HAIR < framed.bottom
        || framed.top + HAIR < high
}

#[test]
fn a_box_in_wood_is_always_told_and_one_that_is_moved_as_told_hangs() {
    let mut boxes = 0;
    for (name, plan) in every_plan() {
        let framing = Framing::of(&plan);
        let told = found(&plan, "box:");
        let is_told = |drop: &Drop| {
            let label = drop.label();
            told.iter()
                .any(|(_, what)| what.contains(&format!("The box of {label} ")))
        };
        for drop in plan
            .drops
            .iter()
            .filter(|drop| drop.fixing != BoxKind::None)
        {
            let inside = is_in_something(&plan, &framing, drop);
            assert!(!inside || is_told(drop), "{name}: {}", drop.label());
            boxes += 1;
            if is_told(drop) && hang_near(&plan, &framing, drop).is_some() {
                let better = moved(&plan, drop);
                let drop = better.drop(drop.id).unwrap();
                let hang = hang_of(&better, &framing, drop);
                assert!(
                    matches!(hang, Some(Ok(Hang::On { .. }))),
                    "{name}: {}",
                    drop.label()
                );
                assert!(
                    !is_in_something(&better, &framing, drop),
                    "{name}: {}",
                    drop.label()
                );
            }
        }
    }
    assert!(boxes > 150, "{boxes}");
}

#[test]
fn every_box_of_the_demos_hangs_on_an_upright() {
    let demos = saved()
        .into_iter()
        .filter(|(name, _)| name.contains("static/demo"));
    let demos: Vec<_> = demos.collect();
    assert_eq!(demos.len(), 2);
    for (name, plan) in demos {
        assert_eq!(found(&plan, "box"), [], "{name}");
        let framing = Framing::of(&plan);
        for drop in &plan.drops {
            let hang = hang_of(&plan, &framing, drop);
            assert!(
                matches!(hang, None | Some(Ok(Hang::On { .. }))),
                "{name}: {}",
                drop.label()
            );
        }
    }
}
