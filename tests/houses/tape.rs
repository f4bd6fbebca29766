//! House B hole by hole, with a tape: where every upright and joist stands is worked out here from
//! the drawing's own numbers and the framer's rules, without the product's framing, and each
//! path is walked with it. Whatever way the router chooses, each member in it has its bore, and
//! no bore is anywhere else.

use std::collections::BTreeSet;

use borewright_core::design::Design;
use borewright_core::plan::{Level, LevelId, OpeningKind, Plan, WallId};
use borewright_core::route::{Member, Move, MoveKind};
use borewright_core::shape::Pos;

/// 1-1/2 in, dressed.
const BOARD: f64 = 38.1;
/// 16 in on centre.
const SPACING: f64 = 406.4;
/// The outside of the wall the I-joists are laid out from, which run up and down the sheet: 10973 is
/// the centre line of the right wall. Of concrete 203 thick under the ground floor, of 2x6 under the
/// upper one.
const OUTSIDE: [f64; 2] = [10_973.0 + 101.5, 10_973.0 + 69.85];

/// Where the plates of each wall that may be drilled start, from its drawn first end: half the wall
/// it meets in, or out where it runs through the corner. The outside walls up and down the sheet of
/// both floors: all four are alike and drawn clockwise round the house, so each runs through the
/// corner it starts from. A 2x6 is 139.7, a 2x4 88.9, the basement's walls 203 thick.
const START: [(u32, f64); 23] = [
    (5, 101.5),
    (6, 44.45),
    (7, 101.5),
    (8, -69.85),
    (9, -69.85),
    (10, -69.85),
    (11, -69.85),
    (12, 69.85),
    (13, 69.85),
    (14, 69.85),
    (15, 44.45),
    (16, 44.45),
    (17, 44.45),
    (18, -69.85),
    (19, -69.85),
    (20, -69.85),
    (21, -69.85),
    (22, 69.85),
    (23, 69.85),
    (24, 69.85),
    (25, 69.85),
    (26, 44.45),
    (27, 44.45),
];

/// Uprights of a wall that stand at a height, as stretches from its drawn first end.
fn uprights(plan: &Plan, id: WallId, height: f64) -> Vec<(f64, f64)> {
    let (level, wall) = plan.wall(id).unwrap();
    let start = START.iter().find(|(number, _)| *number == id.0);
    assert!(start.is_some(), "W{} was not counted", id.0);
    let start = start.unwrap().1;
    let along = Pos::new(
        f64::from(wall.to.x - wall.from.x),
        f64::from(wall.to.y - wall.from.y),
    );
    let length = along.length();
    let board = |from: f64| (from, from + BOARD);
    let mut found: Vec<(f64, f64)> = Vec::new();
    for opening in level.openings_of(id) {
        let (near, far) = (
            opening.offset.f64(),
            opening.offset.f64() + opening.width.f64(),
        );
        // Two jacks a side from 6 ft on, and the king beside them.
        let beside = if opening.width.0 >= 1829 { 3 } else { 2 };
        for place in 0..beside {
            found.push(board(near - BOARD * f64::from(place + 1)));
            found.push(board(far + BOARD * f64::from(place)));
        }
    }
    found.extend(backing(level, id, length));
    for place in 1..200 {
        let middle = start + SPACING * f64::from(place);
        let stud = (middle - BOARD / 2.0, middle + BOARD / 2.0);
        if middle > length {
            break;
        }
        let meets = found
            .iter()
            .any(|(from, to)| stud.0 < to - 0.2 && from + 0.2 < stud.1);
        let open = level.openings_of(id).iter().any(|opening| {
            let (near, far) = (
                opening.offset.f64(),
                opening.offset.f64() + opening.width.f64(),
            );
            let cripple = opening.kind == OpeningKind::Window && height < opening.sill.f64();
            let inside = near - BOARD < middle && middle < far + BOARD;
            inside && !(cripple && near + BOARD < middle && middle < far - BOARD)
        });
        if !meets && !open {
            found.push(stud);
        }
    }
    found
}

/// A board on both sides of every wall that butts into this one between its ends.
fn backing(level: &Level, id: WallId, length: f64) -> Vec<(f64, f64)> {
    let wall = level.wall(id).unwrap();
    let unit = Pos::new(
        f64::from(wall.to.x - wall.from.x) / length,
        f64::from(wall.to.y - wall.from.y) / length,
    );
    let ends = level.walls.iter().filter(|other| other.id != id);
    let ends = ends.flat_map(|other| [(other, other.from), (other, other.to)]);
    let mut found = Vec::new();
    for (other, end) in ends {
        let from = Pos::new(
            f64::from(end.x - wall.from.x),
            f64::from(end.y - wall.from.y),
        );
        let (at, aside) = (from.dot(unit), from.cross(unit).abs());
        if aside < 2.0 && at > 150.0 && at < length - 150.0 {
            let half = other.width().0 / 2.0;
            found.push((at - half - BOARD, at - half));
            found.push((at + half, at + half + BOARD));
        }
    }
    found
}

/// Joists of one of the two floors between two places. The first is flush with the outside of the
/// right wall, its middle 3/4 in inside; the others on centre from that outside; the last flush with
/// the outside of the left wall, as far out there as the right one is here.
fn joists_between(floor: usize, a: f64, b: f64) -> usize {
    let (low, high) = (a.min(b), a.max(b));
    let outside = OUTSIDE[floor];
    let last = -(outside - 10_973.0) + BOARD / 2.0;
    let on_centre = (1..28).map(|place| outside - SPACING * f64::from(place));
    let joists = [outside - BOARD / 2.0, last].into_iter();
    let joists = joists.chain(on_centre.filter(|joist| *joist > last));
    joists.filter(|joist| low < *joist && *joist < high).count()
}

/// Where a place is on a wall, from its drawn first end.
fn offset(plan: &Plan, wall: WallId, at: Pos) -> f64 {
    let (_, wall) = plan.wall(wall).unwrap();
    let from = wall.from.pos();
    let along = wall.to.pos() - from;
    (at - from).dot(along) / along.length()
}

/// Members a move goes through by the tape, and by the product.
fn counts(plan: &Plan, design: &Design, step: &Move) -> (usize, usize) {
    let crossing = step.crossing.map(|place| &design.ways.crossings[place]);
    let members = crossing.map_or(0, |crossing| match &crossing.member {
        Member::Studs(studs) => studs.len(),
        _ => 1,
    });
    let by_tape = match step.kind {
        MoveKind::AlongWall { wall } => {
            let height = crossing.map_or(0.0, |crossing| crossing.height);
            let (a, b) = (
                offset(plan, wall, step.from.at),
                offset(plan, wall, step.to.at),
            );
            let (low, high) = (a.min(b), a.max(b));
            let studs = uprights(plan, wall, height).into_iter();
            studs.filter(|(from, to)| low < *from && *to < high).count()
        }
        MoveKind::AlongStrip { .. } | MoveKind::AcrossStrips { .. } if is_attic(design, step) => 0,
        MoveKind::AlongStrip { .. } | MoveKind::AcrossStrips { .. } => {
            // The ground floor lies at 2759: the joists under it, and those over it.
            let floor = usize::from(step.from.z > 2759.0);
            joists_between(floor, step.from.at.x, step.to.at.x)
        }
        MoveKind::ThroughTopPlates { .. }
        | MoveKind::ThroughBottomPlates { .. }
        | MoveKind::IntoWall { .. }
        | MoveKind::Outside { .. } => 1,
        MoveKind::InBay { .. } | MoveKind::ThroughCeiling { .. } | MoveKind::OnFace { .. } => 0,
    };
    (by_tape, members)
}

/// Roof trusses are crossed without a bore.
fn is_attic(design: &Design, step: &Move) -> bool {
    let top = design.framing.levels.last().unwrap();
    step.from.z > top.floor + top.ceiling
}

#[test]
fn every_hole_of_house_b_is_where_the_tape_finds_a_member() {
    let plan = super::plan("house-b");
    let design = Design::of(&plan);
    let mut met = BTreeSet::new();
    let (mut walls, mut joists) = (0, 0);
    for way in &design.ways.ways {
        let label = plan.cable_label(way.cable);
        assert_eq!(way.trouble, None, "{label}");
        for step in &way.moves {
            let (by_tape, members) = counts(&plan, &design, step);
            assert_eq!(by_tape, members, "{label}: {step:?}");
            met.extend(step.crossing);
            match step.kind {
                MoveKind::AlongWall { .. } => walls += members,
                MoveKind::AcrossStrips { .. } => joists += members,
                _ => {}
            }
        }
        let last = way
            .moves
            .iter()
            .filter_map(|step| step.crossing)
            .next_back();
        let last = last.map(|place| &design.ways.crossings[place]).unwrap();
        let into_closet = (last.wall, matches!(last.member, Member::TopPlates(2)));
        assert_eq!(
            into_closet,
            (Some(WallId(5)), true),
            "{label} comes down to the panel"
        );
    }
    assert!(walls > 20 && joists > 100, "{walls} studs, {joists} joists");
    let all: BTreeSet<usize> = (0..design.ways.crossings.len()).collect();
    assert_eq!(met, all, "nothing is bored that no path goes through");
    let bored: BTreeSet<usize> = design.bores.iter().map(|bore| bore.crossing).collect();
    assert_eq!(bored, all, "nothing is left to bore");
    let paths: BTreeSet<LevelId> = plan.drops.iter().map(|drop| drop.level).collect();
    assert_eq!(paths.len(), 3, "from all three levels");
}

/// The tape itself, where it was walked by hand: W25 from its first bay to the one beside the door
/// at 3962 has nine studs, 476 to 3728; W5 one at 914; W12 at 9417, 9823, 10230 and 10636; W4's
/// like in W9, 4401 and 4807; and 24 joists between the left wall and the closet's bay at 9652:
/// 11074.5 less 4 to 27 times 406.4. Over the ground floor 27 are on centre, and the last is at -51.
#[test]
fn the_tape_agrees_with_what_was_walked_by_hand() {
    let plan = super::plan("house-b");
    let between = |wall: u32, a: f64, b: f64| {
        let studs = uprights(&plan, WallId(wall), 610.0).into_iter();
        let mut studs: Vec<i64> = studs
            .filter(|(from, to)| a < *from && *to < b)
            .map(|(from, _)| (from + BOARD / 2.0).round() as i64)
            .collect();
        studs.sort_unstable();
        studs
    };
    let nine = [476, 883, 1289, 1695, 2102, 2508, 2915, 3321, 3727];
    assert_eq!(between(25, 283.0, 3816.0), nine);
    assert_eq!(between(5, 711.0, 1118.0), [914]);
    assert_eq!(between(12, 9214.0, 10_760.0), [9417, 9823, 10_230, 10_636]);
    assert_eq!(between(9, 4337.0, 5150.0), [4401, 4807]);
    assert_eq!(joists_between(0, 0.0, 9652.0), 24);
    assert_eq!(joists_between(0, 8240.0, 9652.0), 3);
    assert_eq!(joists_between(1, -60.0, 11_000.0), 28);
}
