//! Wood is solid: no two members of a level take up the same place.

use borewright_core::framing::{Framing, LevelFraming, WallFraming};
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{LayoutEnd, LevelId, Lumber, Plan, Role, Wall};
use borewright_core::shape::Point;
use proptest::prelude::*;

/// Members may touch, and by a hair more: whole millimetres, millimetres.
const HAIR: f64 = 1.0;

/// A member as a box along the axes of the sheet: least and most across, down and up.
type Block = [(f64, f64); 3];

/// The plates and uprights of a wall that lies along an axis of the sheet.
fn members(level: &LevelFraming, wall: &WallFraming, width: f64) -> Vec<Block> {
    let block = |from: f64, to: f64, up: (f64, f64)| {
        let (a, b) = (
            wall.line.at(from, -width / 2.0),
            wall.line.at(to, width / 2.0),
        );
        let order = |a: f64, b: f64| (a.min(b), a.max(b));
        [order(a.x, b.x), order(a.y, b.y), up]
    };
    let plates = [(0.0, wall.bottom), (wall.top, level.ceiling)];
    let plates = plates.map(|up| block(wall.start, wall.end, up));
    let studs = wall.studs.iter();
    let studs = studs.map(|stud| block(stud.from, stud.to, (stud.bottom, stud.top)));
    plates.into_iter().chain(studs).collect()
}

fn overlap(a: &Block, b: &Block) -> bool {
    let apart = |(a, b): (&(f64, f64), &(f64, f64))| a.1 < b.0 + HAIR || b.1 < a.0 + HAIR;
    !a.iter().zip(b).any(apart)
}

/// The first two members of a level that are in one another, with the walls they are of.
fn clash(plan: &Plan) -> Option<String> {
    let framing = Framing::of(plan);
    framing.levels.iter().find_map(|level| {
        let mut all: Vec<(u32, Block)> = Vec::new();
        for wall in &level.walls {
            let (_, drawn) = plan.wall(wall.wall).unwrap();
            let members = members(level, wall, drawn.width().0);
            all.extend(members.into_iter().map(|member| (wall.wall.0, member)));
        }
        let pairs = all.iter().enumerate();
        pairs.into_iter().find_map(|(place, (wall, member))| {
            let mut after = all[place + 1..].iter();
            let found = after.find(|(_, other)| overlap(member, other))?;
            Some(format!("W{wall} {member:?} and W{} {:?}", found.0, found.1))
        })
    })
}

#[test]
fn the_saved_houses_are_solid() {
    for house in ["house-b", "house-c"] {
        assert_eq!(clash(&crate::plan(house)), None, "{house}");
    }
}

/// In house A a door of W10 is drawn 31 mm nearer to the wall's end than its king stud and the end stud
/// take side by side; nothing else is in one another there.
#[test]
fn house_a_is_solid_but_for_one_door() {
    let mut plan = crate::plan("house-a");
    assert!(clash(&plan).is_some_and(|clash| clash.starts_with("W10")));
    for level in &mut plan.levels {
        level.openings.retain(|opening| opening.wall.0 != 10);
    }
    assert_eq!(clash(&plan), None);
}

/// What is drawn of a wall: length, whether from the far end, role and lumber as places in a list,
/// whether laid out from its second end.
type Drawn = (i32, bool, usize, usize, bool);

fn drawn() -> impl Strategy<Value = Drawn> {
    (
        600..6000_i32,
        any::<bool>(),
        0..3_usize,
        0..3_usize,
        any::<bool>(),
    )
}

/// Walls that end at one place, each in the next of these directions, drawn in this order.
fn star(walls: &[Drawn], order: &[usize]) -> Plan {
    let ways = [(1, 0), (-1, 0), (0, 1), (0, -1)];
    let level = LevelId(1);
    let mut plan = Plan::new();
    for place in order.iter().filter(|place| **place < walls.len()) {
        let (length, flipped, role, lumber, second) = walls[*place];
        let (x, y) = ways[*place];
        let (near, far) = (Point::new(0, 0), Point::new(x * length, y * length));
        let (from, to) = if flipped { (far, near) } else { (near, far) };
        let role = [Role::Exterior, Role::Bearing, Role::Partition][role];
        let lumber = [Lumber::TwoByFour, Lumber::TwoBySix, Lumber::TwoByEight][lumber];
        let draw = Edit::AddWall {
            level,
            from,
            to,
            lumber,
            role,
        };
        plan = plan.apply(&draw).unwrap();
        let wall = *plan.levels[0].walls.last().unwrap();
        let layout = if second {
            LayoutEnd::Second
        } else {
            LayoutEnd::First
        };
        plan = plan.apply(&Edit::SetWall(Wall { layout, ..wall })).unwrap();
    }
    plan
}

proptest! {
    /// Two walls in one line, alone, with a third that ends at their joint, and with a fourth beyond.
    #[test]
    fn walls_that_end_at_one_place_lie_apart(
        walls in proptest::collection::vec(drawn(), 2..5),
        order in Just(vec![0, 1, 2, 3]).prop_shuffle(),
    ) {
        prop_assert_eq!(clash(&star(&walls, &order)), None);
    }
}
