//! Designs of a drag's frames: quick, valid, and no dearer than they may be.

use borewright_core::bore;
use borewright_core::design::Design;
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{Place, Plan};
use borewright_core::schedule::CutList;
use borewright_core::shape::Point;
use borewright_core::units::Mm;

use crate::plan;

const HOUSES: [&str; 3] = ["house-a", "house-b", "house-c"];

#[test]
fn the_same_plan_gives_the_same_design_again() {
    for house in HOUSES {
        let plan = plan(house);
        let design = Design::of(&plan);
        let again = Design::again(&design, &plan, &plan);
        let (reels, others) = (&design.cut_list, &again.cut_list);
        assert_eq!(others.reels.len(), reels.reels.len(), "{house}");
        let lengths = |cuts: &CutList| -> Vec<Mm> { cuts.cuts.iter().map(|c| c.length).collect() };
        assert_eq!(lengths(others), lengths(reels), "{house}");
        let again = Design {
            cut_list: reels.clone(),
            ..again
        };
        assert!(again == design, "{house}");
    }
}

#[test]
fn a_design_from_nothing_is_whole() {
    for house in HOUSES {
        let plan = plan(house);
        assert_whole(
            &plan,
            &Design::again(&Design::default(), &Plan::new(), &plan),
            1.05,
        );
    }
}

/// Every cable has a way, all follows from the ways, and they cost little more than those sought
/// from nothing.
fn assert_whole(plan: &Plan, again: &Design, most: f64) {
    let full = Design::of(plan);
    assert_eq!(again.ways.ways.len(), plan.cables().count());
    for (way, sought) in again.ways.ways.iter().zip(&full.ways.ways) {
        assert_eq!(way.trouble, sought.trouble);
        assert_eq!(way.moves.is_empty(), sought.moves.is_empty());
        let ends = |way: &borewright_core::route::Way| {
            let moves = &way.moves;
            Some((moves.first()?.from, moves.last()?.to))
        };
        assert_eq!(ends(way), ends(sought));
        assert!(way.moves.windows(2).all(|pair| pair[0].to == pair[1].from));
    }
    assert_eq!(again.framing, full.framing);
    assert_eq!(again.bores, bore::size(plan, &again.framing, &again.ways));
    let ratio = again.ways.cost as f64 / full.ways.cost as f64;
    assert!(ratio <= most, "{ratio}");
}

/// Each third drop in a wall goes along it by 500 mm.
#[test]
fn a_dragged_drop_has_its_best_way_and_the_others_stay() {
    for house in HOUSES {
        let plan = plan(house);
        let before = Design::of(&plan);
        for drop in plan.drops.iter().step_by(3) {
            let Place::Wall {
                wall,
                offset,
                side,
                height,
            } = drop.place
            else {
                continue;
            };
            let offset = Mm(offset.0 + 500);
            let place = Place::Wall {
                wall,
                offset,
                side,
                height,
            };
            let Ok(moved) = plan.apply(&Edit::MoveDrop(drop.id, place)) else {
                continue;
            };
            let again = Design::again(&before, &plan, &moved);
            assert_whole(&moved, &again, 1.03);
            let others = again.ways.ways.iter().zip(&before.ways.ways);
            for (way, old) in others.filter(|(way, _)| way.drop != drop.id) {
                assert_eq!(way.length, old.length, "{house}");
            }
        }
    }
}

/// A corner of the house goes out by a foot and then by a yard.
#[test]
fn a_dragged_corner_takes_the_ways_along() {
    for house in HOUSES {
        let plan = plan(house);
        let before = Design::of(&plan);
        let level = &plan.levels[plan.levels.len() - 1];
        for (wall, by) in level.walls.iter().take(4).zip([305, -305, 914, -914]) {
            let to = Point::new(wall.to.x + by, wall.to.y);
            let edit = Edit::MoveCorner {
                level: level.id,
                from: wall.to,
                to,
            };
            let Ok(moved) = plan.apply(&edit) else {
                continue;
            };
            assert_whole(&moved, &Design::again(&before, &plan, &moved), 1.08);
        }
    }
}
