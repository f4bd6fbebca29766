//! Houses seen in a mirror. What has no handedness stays: every stud, bay and strip, each in its place on
//! its own wall or space, what every way costs and how long it is, and every count. One choice is handed,
//! and has to be: which of two walls that are alike runs through the corner they make (a square room is a
//! pinwheel, and a mirrored pinwheel turns the other way). The law holds for plans without such a pair.

use borewright_core::design::Design;
use borewright_core::framing::{Framing, Joint, JointKind};
use borewright_core::plan::edit::sample;
use borewright_core::plan::{ClosetPlace, Place, Plan, Wall};
use borewright_core::shape::{Direction, Point};

use crate::moved::{HOUSES, other, put, same_design, same_strips};
use crate::plan;

/// The plan in a mirror: left is right, and the faces of walls change sides.
fn mirrored(plan: &Plan) -> Plan {
    let mut plan = put(
        plan,
        |at| Point::new(-at.x, at.y),
        |way| Direction {
            dx: -way.dx,
            dy: way.dy,
        },
    );
    for drop in &mut plan.drops {
        if let Place::Wall { side, .. } | Place::Outside { side, .. } = &mut drop.place {
            *side = other(*side);
        }
    }
    if let Some(closet) = &mut plan.closet
        && let ClosetPlace::Wall { side, .. } = &mut closet.place
    {
        *side = other(*side);
    }
    plan
}

/// Whether two walls that make a corner or cross are alike, so that only how they lie to each other tells
/// which runs through.
fn is_handed(plan: &Plan, framing: &Framing) -> bool {
    let walls = framing.levels.iter().flat_map(|level| &level.walls);
    let ends = |joint: &&Joint| joint.kind != JointKind::Splice && joint.kind != JointKind::TeeButt;
    let mut joints = walls.flat_map(|wall| {
        let joints = wall.joints.iter().filter(ends);
        joints.map(|joint| (wall.wall, joint))
    });
    joints.any(|(one, joint)| {
        let back = framing.wall(joint.other).unwrap().joints.iter();
        let mut back = back.filter(|back| back.other == one && back.kind != JointKind::TeeButt);
        let (one, other) = (plan.wall(one).unwrap().1, plan.wall(joint.other).unwrap().1);
        let length = |wall: &Wall| wall.from.distance(wall.to).0;
        let alike = (length(one) - length(other)).abs() <= 3;
        alike && one.role == other.role && one.width() == other.width() && back.next().is_some()
    })
}

#[test]
fn a_house_in_a_mirror_keeps_its_counts() {
    let mut exact = 0;
    for house in HOUSES {
        let first = plan(house);
        let after = mirrored(&first);
        assert_eq!(mirrored(&after), first);
        let (a, b) = (Design::of(&first), Design::of(&after));
        same_strips(&a.framing, &b.framing);
        if is_handed(&first, &a.framing) {
            // A stud or two at the corners in question, and what ways past them cost.
            let off = a.ways.cost.abs_diff(b.ways.cost) as f64;
            assert!(off <= 0.01 * a.ways.cost as f64, "{house}: {off}");
            continue;
        }
        exact += 1;
        same_design(&a, &b, house);
    }
    assert!(exact > 0);
}

/// Invented plans, walls at any angle.
#[test]
fn any_plan_in_a_mirror_keeps_its_counts() {
    let mut routed = 0;
    for seed in 0..60 {
        let first = sample::plan(seed, 90);
        let before = Design::of(&first);
        if !is_handed(&first, &before.framing) {
            routed += usize::from(before.ways.cost > 0);
            let after = Design::of(&mirrored(&first));
            same_design(&before, &after, &seed.to_string());
        }
    }
    assert!(routed > 20, "{routed} plans have ways");
}
