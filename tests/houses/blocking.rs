//! Cables that pass over a bearing wall between the joists it bears: blocking stands there, and it is told; so are
//! bores over the doubled joists under a bearing wall that runs along them.

use std::collections::BTreeSet;

use borewright_core::design::Design;
use borewright_core::framing::{Space, SpaceKind, WallFraming};
use borewright_core::plan::{Below, JoistKind, Role};
use borewright_core::route::{Move, MoveKind};
use borewright_core::shape::Direction;

use crate::places::{every_plan, found, place};
use crate::{demo, plan};

/// Joists of house B run down the sheet over W5, which bears them in the middle of the basement; those of house
/// C are open-web trusses, through which cable passes.
#[test]
fn what_passes_over_a_bearing_wall_is_told() {
    let told = found(&plan("house-b"), "blocking:W5");
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(
        told[0]
            .1
            .contains("over W5, which bears, between its joists in"),
        "{told:?}"
    );
    assert_eq!(found(&plan("house-c"), "blocking"), []);
    assert_eq!(found(&demo("demo"), "blocking"), []);
}

/// W9 bears and runs along the joists of its floor; a bore goes down through its plates. Where the joists lie
/// across it, or it bears nothing, nothing is said.
#[test]
fn bores_over_doubled_joists_are_told() {
    let along = place("d1_joists_along_bearing");
    let told = found(&along, "doubled:");
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(
        told[0].1.starts_with("W9 bears and runs along the joists"),
        "{told:?}"
    );
    let mut across = along.clone();
    let Below::Level(floor) = &mut across.levels[1].below else {
        unreachable!("the upper level stands on joists")
    };
    floor.direction = Direction::ALONG_X;
    assert_eq!(found(&across, "doubled:"), []);
    let mut partition = along;
    for wall in &mut partition.levels[1].walls {
        if wall.role == Role::Bearing {
            wall.role = Role::Partition;
        }
    }
    assert_eq!(found(&partition, "doubled:"), []);
}

/// Whether a straight move goes from one side of a wall to the other within its length.
fn crosses(wall: &WallFraming, step: &Move) -> bool {
    let (from, to) = (
        wall.line.aside_of(step.from.at),
        wall.line.aside_of(step.to.at),
    );
    let part = from / (from - to);
    let at = step.from.at + (step.to.at - step.from.at) * part;
    let apart = from.abs() > 1.0 && to.abs() > 1.0 && from * to < 0.0;
    apart && (wall.start..=wall.end).contains(&wall.line.offset_of(at))
}

/// Whether a move comes as near to a wall as its port does.
fn meets(wall: &WallFraming, step: &Move) -> bool {
    let near = |at| wall.line.distance_to(at) < 1.5;
    crosses(wall, step) || near(step.from.at) || near(step.to.at)
}

/// Whatever the plan: where a move goes straight over a bearing wall in a floor of solid joists it is told, and
/// where none comes near that wall nothing is.
#[test]
fn blocking_is_told_where_a_cable_crosses_in_any_plan() {
    let mut seen = 0;
    for (name, plan) in every_plan() {
        let design = Design::of(&plan);
        let told: BTreeSet<&str> = design
            .findings
            .iter()
            .filter_map(|finding| finding.key.strip_prefix("blocking:"))
            .collect();
        for (level, framed) in plan.levels.iter().zip(&design.framing.levels) {
            let space = framed
                .above
                .map(|index| (index, &design.framing.spaces[index]));
            let solid = |space: &Space| {
                let solid = [JoistKind::Sawn, JoistKind::IJoist].map(SpaceKind::Floor);
                solid.contains(&space.kind) && !space.hangs
            };
            let bearing = level.walls.iter().filter(|wall| wall.role == Role::Bearing);
            for wall in bearing {
                let Some(line) = framed.wall(wall.id) else {
                    continue;
                };
                let is_told = told.contains(wall.label().as_str());
                let Some((index, space)) = space.filter(|(_, space)| {
                    solid(space) && line.line.along.dot(space.along).abs() < 0.707
                }) else {
                    assert!(!is_told, "{name}: {}", wall.label());
                    continue;
                };
                let here = |step: &&Move| match step.kind {
                    MoveKind::AlongStrip { space } | MoveKind::AcrossStrips { space } => {
                        space == index
                    }
                    _ => false,
                };
                let moves = || {
                    design
                        .ways
                        .ways
                        .iter()
                        .flat_map(|way| &way.moves)
                        .filter(here)
                };
                if moves().any(|step| crosses(line, step)) {
                    assert!(is_told, "{name}: {} of {space:?}", wall.label());
                    seen += 1;
                }
                if is_told {
                    assert!(
                        moves().any(|step| meets(line, step)),
                        "{name}: {}",
                        wall.label()
                    );
                }
            }
        }
    }
    assert!(seen > 1, "{seen}");
}
