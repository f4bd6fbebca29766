//! Framing of whole houses: it fills its walls, and a house that is moved, turned, or drawn from the
//! other end of a wall has the same framing in its new place.

use borewright_core::design::Design;
use borewright_core::framing::{BayKind, Framing, Space, WallFraming};
use borewright_core::plan::{
    Above, Below, ClosetPlace, KeepOutShape, LayoutEnd, Pin, PinTo, Place, Plan, PowerPlace, Side,
    Wall, WallId,
};
use borewright_core::shape::{Direction, Point};
use borewright_core::units::Mm;

use crate::plan;

const HOUSES: [&str; 3] = ["house-a", "house-b", "house-c"];

/// The plan with every point and direction put elsewhere.
fn put(plan: &Plan, point: impl Fn(Point) -> Point, way: impl Fn(Direction) -> Direction) -> Plan {
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
        if let Above::AtticTrusses { direction, .. } = &mut level.above {
            *direction = way(*direction);
        }
        if let Above::AtticJoists(floor) = &mut level.above {
            floor.direction = way(floor.direction);
        }
        if let Below::Crawl(floor) | Below::Level(floor) = &mut level.below {
            floor.direction = way(floor.direction);
        }
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

fn near(a: f64, b: f64) {
    assert!((a - b).abs() < 1e-6, "{a} {b}");
}

/// The same uprights, headers and bays at the same offsets of every wall.
fn same_walls(a: &Framing, b: &Framing) {
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

/// Distances from joist to joist, from the narrowest up: the odd one is at the end of the layout,
/// and which end that is decides no direction of drawing.
fn widths(space: &Space) -> Vec<f64> {
    let mut widths: Vec<f64> = space
        .strips
        .iter()
        .map(|strip| strip.to - strip.from)
        .collect();
    widths.sort_by(f64::total_cmp);
    widths
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
        same_walls(&a.framing, &b.framing);
        for (a, b) in a.framing.spaces.iter().zip(&b.framing.spaces) {
            let by = a.across.x * 12_345.0 - a.across.y * 6_789.0;
            assert_eq!(a.strips.len(), b.strips.len());
            a.strips
                .iter()
                .zip(&b.strips)
                .for_each(|(a, b)| near(a.from + by, b.from));
        }
        assert_eq!(a.ways.cost, b.ways.cost, "{house}");
        for (a, b) in a.ways.ways.iter().zip(&b.ways.ways) {
            assert_eq!(a.length, b.length, "{house}");
        }
        assert_eq!(a.totals, b.totals, "{house}");
    }
}

/// House C without its garage: a corner of two walls that are alike in all but their place, such as a
/// square garage has, is decided by the sheet, so it cannot turn along.
#[test]
fn a_house_that_is_turned_has_the_same_walls_and_joists() {
    let mut first = plan("house-c");
    first.levels[0].walls.retain(|wall| wall.from.x < 20_000);
    let known: Vec<WallId> = first.levels[0].walls.iter().map(|wall| wall.id).collect();
    let stands = |wall: WallId| wall.0 > 15 || known.contains(&wall);
    first.levels[0]
        .openings
        .retain(|opening| stands(opening.wall));
    let before = Design::of(&first);
    let mut turned = first.clone();
    for _ in 0..4 {
        turned = put(
            &turned,
            |at| Point::new(-at.y, at.x),
            |way| Direction {
                dx: -way.dy,
                dy: way.dx,
            },
        );
        let after = Design::of(&turned);
        same_walls(&before.framing, &after.framing);
        for (a, b) in before.framing.spaces.iter().zip(&after.framing.spaces) {
            let (a, b) = (widths(a), widths(b));
            assert_eq!(a.len(), b.len());
            a.into_iter().zip(b).for_each(|(a, b)| near(a, b));
        }
        // Joists are laid from the same side of the sheet, so ways differ a little.
        let ratio = after.ways.cost as f64 / before.ways.cost as f64;
        assert!((0.96..1.04).contains(&ratio), "{ratio}");
    }
    assert_eq!(turned, first);
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

fn other(side: Side) -> Side {
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
