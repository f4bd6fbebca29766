//! A storey over part of a house: joists lie where it stands, and a roof over the rest where one is stated.

use borewright_core::design::Design;
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{Above, Plan, Trusses};
use borewright_core::route::{Member, MoveKind};
use borewright_core::shape::Direction;

use crate::houses_and_demos;
use crate::places::place;

/// Every joist that is bored lies under the storey over it, or within a wall's reach of its border.
fn joists_are_there(name: &str, design: &Design) -> usize {
    let joists = design
        .ways
        .crossings
        .iter()
        .filter_map(|crossing| match crossing.member {
            Member::Joist { space } | Member::Web { space } => Some((crossing, space)),
            _ => None,
        });
    let mut count = 0;
    for (crossing, space) in joists {
        let levels = &design.framing.levels;
        let over = levels
            .iter()
            .find(|level| level.below == Some(space))
            .unwrap();
        let there = over.outline.contains(crossing.at) || over.outline.is_near_border(crossing.at);
        assert!(there, "{name}: {crossing:?}");
        count += 1;
    }
    count
}

fn with_roof(plan: &Plan) -> Plan {
    let beside = Some(Trusses::spanning(Direction::ALONG_Y));
    let stated = Above::Level {
        open: false,
        beside,
    };
    plan.apply(&Edit::SetAbove(plan.levels[0].id, stated))
        .unwrap()
}

fn said(design: &Design) -> usize {
    let found = design.findings.iter();
    found
        .filter(|finding| finding.key.starts_with("partly-over"))
        .count()
}

#[test]
fn no_joist_is_bored_where_no_storey_stands() {
    let plan = place("r7_upper_over_half");
    let design = Design::of(&plan);
    joists_are_there("r7", &design);
    assert_eq!(said(&design), 1);
    assert_eq!(design.framing.levels[0].beside, None);
    for (name, plan) in houses_and_demos() {
        joists_are_there(&name, &Design::of(&plan));
    }
}

#[test]
fn the_roof_over_the_rest_is_an_attic_once_it_is_stated() {
    let plan = with_roof(&place("r7_upper_over_half"));
    let design = Design::of(&plan);
    joists_are_there("r7 with a roof", &design);
    assert_eq!(said(&design), 0);
    let attic = design.framing.levels[0].beside.unwrap();
    let storey = &design.framing.levels[1].outline;
    let runs = design.ways.ways.iter().flat_map(|way| &way.moves).filter(|step| {
        matches!(step.kind, MoveKind::AlongStrip { space } | MoveKind::AcrossStrips { space } if space == attic)
    });
    let ends: Vec<_> = runs.flat_map(|step| [step.from.at, step.to.at]).collect();
    assert!(!ends.is_empty());
    for at in ends {
        assert!(!storey.contains(at) || storey.is_near_border(at), "{at:?}");
    }
    for way in &design.ways.ways {
        assert_eq!(way.trouble, None);
    }
}
