//! Bores round corners, over the houses, the demos and houses made at random: every one can be drawn, and its
//! two depths are those of the drawn walls and the wood that stands there.

use borewright_core::bore::{Corner, Half, Lie};
use borewright_core::design::Design;
use borewright_core::framing::{Bay, BayKind, Stud};
use borewright_core::plan::Plan;
use borewright_core::route::Member;

use crate::pulls::plans;

/// A sixteenth of an inch.
const SIXTEENTH: f64 = 25.4 / 16.0;

/// From the face of a half's bay to the middle line of the other half's wall, along the half, by the drawn
/// walls alone.
fn depth_by_hand(plan: &Plan, design: &Design, half: &Half, other: &Half) -> Option<f64> {
    let ends = |half: &Half| {
        let (_, wall) = plan.wall(half.wall())?;
        let at = |point: borewright_core::shape::Point| (f64::from(point.x), f64::from(point.y));
        Some((at(wall.from), at(wall.to)))
    };
    let (((ax, ay), (bx, by)), ((cx, cy), (dx, dy))) = (ends(half)?, ends(other)?);
    let length = ((bx - ax) * (bx - ax) + (by - ay) * (by - ay)).sqrt();
    let (ux, uy) = ((bx - ax) / length, (by - ay) / length);
    let cross = ux * (dy - cy) - uy * (dx - cx);
    // Walls in one line meet anywhere on it.
    let over = ((dx - cx) * (dx - cx) + (dy - cy) * (dy - cy)).sqrt();
    if cross.abs() < 0.05 * over {
        return None;
    }
    let along = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / cross;
    design.framing.wall(half.wall())?;
    Some((half.face - along).abs())
}

fn stands_at(design: &Design, half: &Half, height: f64) -> Vec<Stud> {
    let wall = design.framing.wall(half.wall()).unwrap();
    let stands = |stud: &&Stud| stud.bottom <= height && height <= stud.top;
    wall.studs.iter().filter(stands).copied().collect()
}

#[test]
fn every_corner_can_be_drilled_by_its_drawing() {
    let mut drawn = 0;
    for (name, plan) in plans() {
        let design = Design::of(&plan);
        for (place, crossing) in design.ways.crossings.iter().enumerate() {
            let corner = Corner::of(&design.framing, &design.ways, place);
            let Member::Corner { .. } = crossing.member else {
                assert_eq!(corner, None, "{name}");
                continue;
            };
            drawn += 1;
            let Some(corner) = corner else {
                panic!("{name}: crossing {place} has no drawing");
            };
            let [one, other] = &corner.halves;
            for (half, other) in [(one, other), (other, one)] {
                if let Some(depth) = depth_by_hand(&plan, &design, half, other) {
                    let off = (depth - half.depth).abs();
                    assert!(off < SIXTEENTH, "{name}: {} is {depth}", half.depth);
                }
                let studs = stands_at(&design, half, crossing.height);
                let at_face = studs
                    .iter()
                    .any(|s| (s.from - half.face).abs() < 0.5 || (s.to - half.face).abs() < 0.5);
                // A wall that ends in a window's side has no backing there: its bay under the sill begins at
                // the other wall.
                let bays = &design.framing.wall(half.wall()).unwrap().bays;
                let begins = |bay: &&Bay| bay.from == half.face || bay.to == half.face;
                let is_full = bays
                    .iter()
                    .filter(begins)
                    .all(|bay| bay.kind == BayKind::Full);
                assert!(at_face || !is_full, "{name}: the bit is put to wood");
                assert!(!half.uprights.is_empty() || !is_full, "{name}");
                assert!(
                    half.depth > 0.0 && half.depth < 400.0,
                    "{name}: {}",
                    half.depth
                );
            }
            let along = one.towards.dot(other.towards);
            match corner.lie {
                Lie::Square => assert!(along.abs() < 0.02, "{name}"),
                Lie::Straight => assert!(along.abs() > 0.99, "{name}"),
                Lie::Askew { wider, .. } => assert_eq!(wider, along < 0.0, "{name}"),
            }
        }
    }
    assert!(drawn > 20, "{drawn} corners in all plans");
}
