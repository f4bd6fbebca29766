//! Framing of whole houses: it fills its walls, and a house that is moved, turned, or drawn from the
//! other end of a wall has the same framing in its new place.

use borewright_core::design::Design;
use borewright_core::framing::{BayKind, Framing, WallFraming};
use borewright_core::plan::edit::sample;
use borewright_core::plan::{
    Above, Below, ClosetPlace, KeepOutShape, LayoutEnd, LayoutSide, Level, Pin, PinTo, Place, Plan,
    PowerPlace, Side, Wall, WallId,
};
use borewright_core::shape::{Direction, Point, Pos};
use borewright_core::units::Mm;

use crate::plan;

pub const HOUSES: [&str; 3] = ["house-a", "house-b", "house-c"];

/// The plan with every point and direction put elsewhere.
pub fn put(
    plan: &Plan,
    point: impl Fn(Point) -> Point,
    way: impl Fn(Direction) -> Direction,
) -> Plan {
    let mut plan = plan.clone();
    for level in &mut plan.levels {
        for wall in &mut level.walls {
            (wall.from, wall.to) = (point(wall.from), point(wall.to));
        }
        for keep_out in &mut level.keep_outs {
            if let KeepOutShape::Region(corners) = &mut keep_out.shape {
                corners
                    .iter_mut()
                    .for_each(|corner| *corner = point(*corner));
            }
        }
        for run in &mut level.power_runs {
            if let PowerPlace::Overhead(chain) = &mut run.place {
                chain.iter_mut().for_each(|place| *place = point(*place));
            }
        }
        level
            .rooms
            .iter_mut()
            .for_each(|room| room.at = point(room.at));
        put_floors(level, &way);
    }
    for drop in &mut plan.drops {
        if let Place::Ceiling { at } | Place::Adrift { at } = &mut drop.place {
            *at = point(*at);
        }
    }
    if let Some(closet) = &mut plan.closet
        && let ClosetPlace::Point(at) = &mut closet.place
    {
        *at = point(*at);
    }
    for pin in &mut plan.pins {
        if let Pin::Cable {
            to: PinTo::Overhead { at },
            ..
        } = pin
        {
            *at = point(*at);
        }
    }
    plan
}

/// Lays the joists and trusses of a level the other way.
fn put_floors(level: &mut Level, way: &impl Fn(Direction) -> Direction) {
    if let Above::AtticTrusses(trusses)
    | Above::Level {
        beside: Some(trusses),
        ..
    } = &mut level.above
    {
        (trusses.direction, trusses.layout) = put_joists(trusses.direction, trusses.layout, way);
    }
    if let Above::AtticJoists(floor) = &mut level.above {
        (floor.direction, floor.layout) = put_joists(floor.direction, floor.layout, way);
    }
    if let Above::ClosedRoof(Some(rafters)) = &mut level.above {
        (rafters.direction, rafters.layout) = put_joists(rafters.direction, rafters.layout, way);
    }
    if let Below::Crawl(floor) | Below::Level(floor) = &mut level.below {
        (floor.direction, floor.layout) = put_joists(floor.direction, floor.layout, way);
    }
}

/// The direction of joists put elsewhere, and the side they are laid out from there. Which side is the
/// first is told by the sheet: the top, or of upright joists the right.
fn put_joists(
    direction: Direction,
    side: LayoutSide,
    way: impl Fn(Direction) -> Direction,
) -> (Direction, LayoutSide) {
    let from = |direction, side| {
        let Pos { x, y } = LayoutSide::along(side, direction).unwrap();
        // Towards the side itself: the house is on the right of its joists.
        (y, -x)
    };
    let (x, y) = from(direction, side);
    let whole = |part: f64| (part * 10_000.0).round() as i32;
    // The same way, however long it is told.
    let wanted = way(Direction {
        dx: whole(x),
        dy: whole(y),
    });
    let turned = way(direction);
    let sides = [LayoutSide::First, LayoutSide::Second];
    let fits = |side: &LayoutSide| {
        let (x, y) = from(turned, *side);
        let wanted = Pos::new(f64::from(wanted.dx), f64::from(wanted.dy));
        Pos::new(x, y).dot(wanted) > wanted.dot(wanted).sqrt() * 0.999
    };
    (turned, sides.into_iter().find(fits).unwrap())
}

fn near(a: f64, b: f64) {
    assert!((a - b).abs() < 1e-6, "{a} {b}");
}

/// The same uprights, headers and bays at the same offsets of every wall.
pub fn same_walls(a: &Framing, b: &Framing) {
    for (a, b) in a.levels.iter().zip(&b.levels) {
        near(a.floor, b.floor);
        assert_eq!(a.walls.len(), b.walls.len());
        a.walls
            .iter()
            .zip(&b.walls)
            .for_each(|(a, b)| same_wall(a, b));
    }
}

fn same_wall(a: &WallFraming, b: &WallFraming) {
    assert_eq!(
        (a.wall, a.studs.len(), a.bays.len()),
        (b.wall, b.studs.len(), b.bays.len())
    );
    for (a, b) in a.studs.iter().zip(&b.studs) {
        assert_eq!((a.kind, a.number), (b.kind, b.number));
        near(a.from, b.from);
        near(a.to, b.to);
        near(a.bottom, b.bottom);
        near(a.top, b.top);
    }
    for (a, b) in a.bays.iter().zip(&b.bays) {
        assert_eq!(a.kind, b.kind);
        near(a.from, b.from);
        near(a.to, b.to);
        near(a.bottom, b.bottom);
        near(a.top, b.top);
    }
}

#[test]
fn a_house_that_is_moved_takes_everything_along() {
    for house in HOUSES {
        let first = plan(house);
        let moved = put(
            &first,
            |at| Point::new(at.x + 12_345, at.y - 6_789),
            |way| way,
        );
        let (a, b) = (Design::of(&first), Design::of(&moved));
        same_design(&a, &b, house);
        for (a, b) in a.framing.spaces.iter().zip(&b.framing.spaces) {
            let by = a.across.x * 12_345.0 - a.across.y * 6_789.0;
            a.strips
                .iter()
                .zip(&b.strips)
                .for_each(|(a, b)| near(a.from + by, b.from));
        }
    }
}

/// A plan turned clockwise by a quarter, with the sides its joists are laid out from.
fn quarter_turn(plan: &Plan) -> Plan {
    put(
        plan,
        |at| Point::new(-at.y, at.x),
        |way| Direction {
            dx: -way.dy,
            dy: way.dx,
        },
    )
}

/// Four quarter turns bring every house back to where it was, and at each of them every stud, joist,
/// length and count is as it was before.
#[test]
fn a_house_that_is_turned_takes_everything_along() {
    for house in HOUSES {
        let first = plan(house);
        let before = Design::of(&first);
        let mut turned = first.clone();
        for _ in 0..4 {
            turned = quarter_turn(&turned);
            let after = Design::of(&turned);
            same_design(&before, &after, house);
        }
        assert_eq!(turned, first);
    }
}

/// The same framing, and ways that are as long and cost as much.
pub fn same_design(a: &Design, b: &Design, name: &str) {
    same_walls(&a.framing, &b.framing);
    same_strips(&a.framing, &b.framing);
    assert_eq!(a.ways.cost, b.ways.cost, "{name}");
    for (a, b) in a.ways.ways.iter().zip(&b.ways.ways) {
        assert_eq!(a.length, b.length, "{name} {:?}", a.cable);
    }
    assert_eq!(a.totals, b.totals, "{name}");
}

/// As many joists in every space, as far from one another, from the same side.
pub fn same_strips(a: &Framing, b: &Framing) {
    assert_eq!(a.spaces.len(), b.spaces.len());
    for (a, b) in a.spaces.iter().zip(&b.spaces) {
        assert_eq!(a.strips.len(), b.strips.len());
        for (a, b) in a.strips.iter().zip(&b.strips) {
            near(a.to - a.from, b.to - b.from);
        }
    }
}

/// Invented plans, walls at any angle and in no order: moved by any vector, then turned.
#[test]
fn any_plan_takes_everything_along() {
    let mut routed = 0;
    for seed in 0..60_i32 {
        let first = sample::plan(seed as u64, 90);
        let before = Design::of(&first);
        routed += usize::from(before.ways.cost > 0);
        let (right, down) = (seed * 977 - 31_415, 27_182 - seed * 1_409);
        let moved = put(
            &first,
            |at| Point::new(at.x + right, at.y + down),
            |way| way,
        );
        let turned = (0..=seed % 4).fold(moved, |plan, _| quarter_turn(&plan));
        let after = Design::of(&turned);
        same_design(&before, &after, &seed.to_string());
    }
    assert!(routed > 20, "{routed} plans have ways");
}

/// The wall drawn from its other end: what is on it is measured from there.
fn from_the_other_end(plan: &Plan, id: WallId) -> Plan {
    let mut plan = plan.clone();
    for level in &mut plan.levels {
        let Some(wall) = level.walls.iter_mut().find(|wall| wall.id == id) else {
            continue;
        };
        let length = length(wall);
        (wall.from, wall.to) = (wall.to, wall.from);
        wall.layout = match wall.layout {
            LayoutEnd::First => LayoutEnd::Second,
            LayoutEnd::Second => LayoutEnd::First,
        };
        for opening in level
            .openings
            .iter_mut()
            .filter(|opening| opening.wall == id)
        {
            opening.offset = length - opening.offset - opening.width;
        }
    }
    plan
}

fn length(wall: &Wall) -> Mm {
    let (dx, dy) = (wall.to.x - wall.from.x, wall.to.y - wall.from.y);
    Mm(dx.abs() + dy.abs())
}

#[test]
fn a_wall_drawn_from_its_other_end_has_its_studs_where_they_were() {
    for house in HOUSES {
        let first = plan(house);
        let before = Framing::of(&first);
        for wall in first.levels.iter().flat_map(|level| &level.walls) {
            let after = Framing::of(&from_the_other_end(&first, wall.id));
            let (a, b) = (before.wall(wall.id).unwrap(), after.wall(wall.id).unwrap());
            let length = f64::from(length(wall).0);
            let mut studs: Vec<(f64, f64)> = b
                .studs
                .iter()
                .map(|stud| (length - stud.to, length - stud.from))
                .collect();
            studs.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
            let mut known: Vec<(f64, f64)> =
                a.studs.iter().map(|stud| (stud.from, stud.to)).collect();
            known.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
            assert_eq!(known.len(), studs.len(), "{house} {:?}", wall.id);
            for (a, b) in known.into_iter().zip(studs) {
                near(a.0, b.0);
                near(a.1, b.1);
            }
            assert_eq!(a.bays.len(), b.bays.len(), "{house} {:?}", wall.id);
        }
    }
}

/// The side is the other one too, so a drop on a wall turned round is where it was.
#[test]
fn ways_do_not_ask_from_which_end_a_wall_was_drawn() {
    let first = plan("house-a");
    let before = Design::of(&first);
    for wall in first.levels[0].walls.iter().step_by(3) {
        let mut after = from_the_other_end(&first, wall.id);
        for drop in &mut after.drops {
            if let Place::Wall {
                wall: on,
                offset,
                side,
                ..
            }
            | Place::Outside {
                wall: on,
                offset,
                side,
                ..
            } = &mut drop.place
                && *on == wall.id
            {
                *offset = length(wall) - *offset;
                *side = other(*side);
            }
        }
        if let Some(closet) = &mut after.closet
            && let ClosetPlace::Wall {
                wall: on,
                offset,
                side,
            } = &mut closet.place
            && *on == wall.id
        {
            *offset = length(wall) - *offset;
            *side = other(*side);
        }
        let after = Design::of(&after);
        assert_eq!(after.ways.cost, before.ways.cost, "{:?}", wall.id);
        assert_eq!(after.totals, before.totals, "{:?}", wall.id);
    }
}

pub fn other(side: Side) -> Side {
    match side {
        Side::Left => Side::Right,
        Side::Right => Side::Left,
    }
}

/// At any height a wall is solid, open for a door or window, or a bay: nothing is left over and
/// nothing is there twice.
#[test]
fn studs_bays_and_openings_tile_their_wall() {
    for house in HOUSES {
        let plan = plan(house);
        let framing = Framing::of(&plan);
        for level in &framing.levels {
            for wall in &level.walls {
                for stud in &wall.studs {
                    assert!(stud.from >= wall.start - 1e-6 && stud.to <= wall.end + 1e-6);
                    assert!(stud.bottom >= 0.0 && stud.top <= wall.height + 1e-6);
                }
                for height in [100.0, 400.0, 1100.0] {
                    tiles(&plan, wall, height);
                }
            }
        }
    }
}

fn tiles(plan: &Plan, wall: &WallFraming, height: f64) {
    let (level, _) = plan.wall(wall.wall).unwrap();
    let studs = wall
        .studs
        .iter()
        .filter(|s| s.bottom <= height && height <= s.top);
    let mut parts: Vec<(f64, f64)> = studs.map(|stud| (stud.from, stud.to)).collect();
    let bays = wall.bays.iter().filter(|bay| bay.reaches(height));
    parts.extend(bays.clone().map(|bay| (bay.from, bay.to)));
    let openings = level.openings_of(wall.wall);
    let open = openings
        .iter()
        .filter(|o| o.sill.f64() <= height && height <= o.head.f64());
    parts.extend(open.map(|o| (o.offset.f64(), (o.offset + o.width).f64())));
    // Between the boards of a corner or a tee stands the other wall.
    let joints = wall.joints.iter();
    parts.extend(joints.map(|joint| (joint.at - joint.half, joint.at + joint.half)));
    parts.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut reached = wall.start;
    for (from, to) in parts {
        // What is too narrow for a hand is no bay.
        assert!(
            from - reached < 41.0,
            "{:?} at {height}: {reached} to {from}",
            wall.wall
        );
        reached = reached.max(to);
    }
    assert!(
        wall.end - reached < 41.0,
        "{:?} at {height}: {reached}",
        wall.wall
    );
    let bays: Vec<_> = bays.filter(|bay| bay.kind == BayKind::Full).collect();
    for pair in bays.windows(2) {
        assert!(pair[0].to <= pair[1].from + 1e-6);
    }
}
