//! Houses turned by an eighth. Plans are whole millimetres, so every end of a wall is up to 0.71 mm off its
//! true place and every wall up to 1.42 mm longer or shorter; a wall's plates end where its neighbours'
//! faces are, up to as much again off. Nothing else may change: each wall has the uprights and bays it had,
//! each within 3 mm of its place. What the ways cost and how long they are together stays within 1 %: the
//! prices move by those millimetres, and a search that finds two ways alike may take the other one.

use borewright_core::design::Design;
use borewright_core::framing::{Framing, WallFraming};
use borewright_core::plan::Plan;
use borewright_core::shape::{Direction, Point};

use crate::moved::{HOUSES, put};
use crate::plan;

/// How far whole millimetres may move a member along its wall, millimetres.
const OFF: f64 = 3.0;

/// A plan turned clockwise by an eighth, to the nearest millimetre.
fn eighth_turn(plan: &Plan) -> Plan {
    let part = std::f64::consts::FRAC_1_SQRT_2;
    let turn = |x: i32, y: i32| {
        let (x, y) = (f64::from(x), f64::from(y));
        let whole = |value: f64| (value * part).round() as i32;
        (whole(x - y), whole(x + y))
    };
    put(
        plan,
        |at| {
            let (x, y) = turn(at.x, at.y);
            Point::new(x, y)
        },
        |way| Direction {
            dx: way.dx - way.dy,
            dy: way.dx + way.dy,
        },
    )
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= OFF
}

fn same_wall(a: &WallFraming, b: &WallFraming) {
    assert!(near(a.line.length, b.line.length), "{:?}", a.wall);
    let kinds = |wall: &WallFraming| wall.studs.iter().map(|stud| stud.kind).collect::<Vec<_>>();
    assert_eq!(kinds(a), kinds(b), "{:?}", a.wall);
    for (one, other) in a.studs.iter().zip(&b.studs) {
        assert!(
            near(one.from, other.from) && near(one.to, other.to),
            "{:?}",
            a.wall
        );
        assert_eq!((one.bottom, one.top), (other.bottom, other.top));
    }
    assert_eq!(a.bays.len(), b.bays.len(), "{:?}", a.wall);
    for (one, other) in a.bays.iter().zip(&b.bays) {
        assert_eq!(one.kind, other.kind);
        assert!(
            near(one.from, other.from) && near(one.to, other.to),
            "{:?}",
            a.wall
        );
    }
}

fn walls(framing: &Framing) -> impl Iterator<Item = &WallFraming> {
    framing.levels.iter().flat_map(|level| &level.walls)
}

#[test]
fn a_house_turned_by_an_eighth_keeps_studs_bays_and_lengths() {
    for house in HOUSES {
        let first = plan(house);
        let turned = eighth_turn(&first);
        let (a, b) = (Design::of(&first), Design::of(&turned));
        assert_eq!(walls(&a.framing).count(), walls(&b.framing).count());
        walls(&a.framing)
            .zip(walls(&b.framing))
            .for_each(|(a, b)| same_wall(a, b));
        for (a, b) in a.framing.spaces.iter().zip(&b.framing.spaces) {
            assert_eq!(a.strips.len(), b.strips.len(), "{house}");
            let wide = |strip: &borewright_core::framing::Strip| strip.to - strip.from;
            assert!(
                a.strips
                    .iter()
                    .zip(&b.strips)
                    .all(|(a, b)| near(wide(a), wide(b))),
                "{house}"
            );
        }
        let cost = |design: &Design| design.ways.cost as f64;
        let length = |design: &Design| {
            let ways = design.ways.ways.iter();
            ways.map(|way| way.length.f64()).sum::<f64>()
        };
        for (before, after) in [(cost(&a), cost(&b)), (length(&a), length(&b))] {
            assert!(
                (after / before - 1.0).abs() <= 0.01,
                "{house}: {before} {after}"
            );
        }
    }
}
