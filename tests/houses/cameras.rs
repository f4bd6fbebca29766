//! Cameras over the plates of outside walls: under the eaves or in a gable, by how the trusses lie, and never in
//! wood by default.

use borewright_core::design::Design;
use borewright_core::framing::{Framing, OutsideHole, outside_height};
use borewright_core::plan::Role;
use borewright_core::route::{MoveKind, words};
use borewright_core::rules::RuleId;
use borewright_core::units::Mm;

use crate::places::every_plan;
use crate::plan;

/// Trusses of house A span down the sheet: W1 and W3 lie across them and have the eaves, W4 is a gable.
#[test]
fn a_camera_comes_in_by_the_eaves_or_the_gable() {
    let plan = plan("house-a");
    let design = Design::of(&plan);
    let told = |label: &str| {
        let drop = plan
            .drops
            .iter()
            .find(|drop| drop.label() == label)
            .unwrap();
        let way = design.ways.way(drop.cables[0].id).unwrap();
        words(&plan, &design.framing, &design.ways, way)
    };
    assert!(
        told("C20").starts_with("In through the soffit over W1"),
        "{}",
        told("C20")
    );
    assert!(
        told("C22").starts_with("In through the soffit over W3"),
        "{}",
        told("C22")
    );
    assert!(
        told("C23").starts_with("In through the gable over W4"),
        "{}",
        told("C23")
    );
    let row = |what: &str| {
        design
            .drill_list
            .iter()
            .filter(|row| row.what == what)
            .count()
    };
    assert_eq!((row("soffit"), row("gable")), (3, 1));
    assert!(
        !design
            .findings
            .iter()
            .any(|finding| finding.key.starts_with("outside-hole"))
    );
}

/// Whatever the plan and the wall, the height a camera is given by itself is in no plate, rim, chord or heel, and
/// stays when it is asked again.
#[test]
fn no_camera_is_put_into_wood_in_any_plan() {
    let mut seen = [0; 3];
    for (name, plan) in every_plan() {
        let framing = Framing::of(&plan);
        for (level, framed) in plan.levels.iter().zip(&framing.levels) {
            let outside = level
                .walls
                .iter()
                .filter(|wall| wall.role == Role::Exterior);
            for wall in outside {
                let Some(framed) = framed.wall(wall.id) else {
                    continue;
                };
                let offset = framed.line.length / 2.0;
                let usual = plan.rules.length(RuleId::CameraHeight);
                let high = [
                    level.ceiling,
                    level.ceiling + Mm(60),
                    level.ceiling - Mm(50),
                ];
                for wanted in high.into_iter().chain([usual]) {
                    let height = outside_height(&plan, &framing, wall.id, offset, wanted);
                    let at = |height: Mm| {
                        OutsideHole::at(&plan, &framing, level.id, framed, offset, height.f64())
                    };
                    match at(height) {
                        OutsideHole::Soffit => seen[0] += 1,
                        OutsideHole::Gable => seen[1] += 1,
                        OutsideHole::Bay => seen[2] += 1,
                        OutsideHole::Header(_) | OutsideHole::BottomPlates => {}
                        wood => panic!("{name}: {wood:?} at {height:?} of W{}", wall.id.0),
                    }
                    let again = outside_height(&plan, &framing, wall.id, offset, height);
                    assert_eq!(again, height, "{name}: W{}", wall.id.0);
                }
            }
        }
    }
    assert!(seen.iter().all(|count| *count > 10), "{seen:?}");
}

/// No move of a plan that is told as one through a soffit is over a wall along the trusses.
#[test]
fn eaves_lie_across_the_trusses_in_any_plan() {
    for (name, plan) in every_plan() {
        let design = Design::of(&plan);
        for way in &design.ways.ways {
            let Some(MoveKind::Outside { wall, soffit: true }) =
                way.moves.first().map(|step| step.kind)
            else {
                continue;
            };
            let told = words(&plan, &design.framing, &design.ways, way);
            let level = design
                .framing
                .levels
                .iter()
                .find(|level| level.wall(wall).is_some());
            let level = level.unwrap();
            let spaces = [level.above, level.beside].into_iter().flatten();
            let line = level.wall(wall).unwrap().line;
            let mut along = spaces.map(|space| design.framing.spaces[space].along);
            let is_gable = told.starts_with("In through the gable");
            assert!(
                along.any(|along| (line.along.dot(along).abs() > 0.707) == is_gable),
                "{name}: {told}"
            );
        }
    }
}
