//! Saved plans: every file ever kept here opens whole and comes back byte for byte, and the houses
//! are what their descriptions say.

use std::path::{Path, PathBuf};

use borewright_core::file;
use borewright_core::plan::{DropKind, Plan};
use serde_json::Value;

fn folder(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(name)
}

fn plan(path: &Path) -> Plan {
    let bytes = std::fs::read(path).unwrap();
    let opened = file::read(&bytes).unwrap();
    assert!(opened.losses.is_empty(), "{path:?}: {:?}", opened.losses);
    assert!(
        file::write(&opened.plan) == bytes,
        "{path:?} changed when written again"
    );
    opened.plan
}

fn house(letter: char) -> Plan {
    plan(&folder("plans").join(format!("house-{letter}.json")))
}

#[test]
fn the_houses_are_as_described() {
    let counts = |plan: &Plan| {
        let of = |kind| plan.drops.iter().filter(|drop| drop.kind == kind).count();
        (
            plan.levels.len(),
            plan.drops.len(),
            of(DropKind::Camera),
            of(DropKind::Doorbell),
        )
    };
    assert_eq!(counts(&house('a')), (1, 24, 4, 1));
    assert_eq!(counts(&house('b')), (3, 38, 4, 1));
    let (levels, drops, ..) = counts(&house('c'));
    assert_eq!((levels, drops), (2, 46));
}

/// House A against the dimensions its sketch was drawn from.
#[test]
fn house_a_is_its_truth() {
    let truth = std::fs::read(folder("plans").join("house-a.truth.json")).unwrap();
    let truth: Value = serde_json::from_slice(&truth).unwrap();
    let (truth, plan) = (&truth["levels"][0], house('a'));
    let level = &plan.levels[0];
    let xy = |x: i32, y: i32| serde_json::json!([x, y]);
    let walls = truth["walls"].as_array().unwrap();
    assert_eq!(level.walls.len(), walls.len());
    for (wall, true_wall) in level.walls.iter().zip(walls) {
        assert_eq!(xy(wall.from.x, wall.from.y), true_wall["a"]);
        assert_eq!(xy(wall.to.x, wall.to.y), true_wall["b"]);
        assert_eq!(wall.role.name(), true_wall["role"]);
        assert_eq!(wall.lumber.name(), true_wall["lumber"]);
    }
    let openings = truth["openings"].as_array().unwrap();
    assert_eq!(level.openings.len(), openings.len());
    for (opening, true_opening) in level.openings.iter().zip(openings) {
        let wall = true_opening["wall"].as_u64().unwrap() as usize;
        assert_eq!(opening.wall, level.walls[wall].id);
        assert_eq!(opening.offset.0, true_opening["offset"]);
        assert_eq!(opening.width.0, true_opening["width"]);
    }
    let marks = truth["marks"].as_array().unwrap();
    let drops = marks.iter().filter(|mark| mark["kind"] != "closet");
    for (drop, mark) in plan.drops.iter().zip(drops) {
        assert_eq!(drop.cables.len() as u64, mark["cables"], "{}", drop.label());
    }
}
