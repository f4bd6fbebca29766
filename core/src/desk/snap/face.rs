//! Where a drop or a closet lands: the nearest face of a wall.

use super::{Hold, Snap, step};
use crate::desk::Reach;
use crate::framing::{JointKind, LevelFraming, StudKind};
use crate::plan::{Level, Role, Side, Wall};
use crate::shape::{Point, Pos, Segment};
use crate::units::{Mm, Units};

/// A box keeps this far from the end of a wall and from an opening's framing, millimetres: half
/// of a one-gang bracket and a little.
const CLEAR: f64 = 60.0;
/// A wall counts as meant from this far away at any scale, millimetres.
const MEANT: f64 = 250.0;
/// A box goes so far along to an upright that holds it, millimetres: more than half the room between
/// studs 24 in apart.
const HELD: i32 = 300;
/// Studs beside an opening take up this much, millimetres: a jack and a king.
const BESIDE_OPENING: f64 = 76.2;

/// A place on a face of a wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Facing<'a> {
    /// The wall.
    pub wall: &'a Wall,
    /// Where along it the pointer is, within the wall's length.
    pub offset: f64,
    /// The face the pointer is on, or the outside one.
    pub side: Side,
    /// Whether that face looks out of the house.
    pub outside: bool,
}

impl Facing<'_> {
    /// The wall's centre line.
    pub fn line(&self) -> Option<Segment> {
        self.wall.line()
    }
}

/// The wall whose face is nearest to a pointer, if one is within reach.
///
/// The face is the one on the pointer's side. It looks out where the place just in front of it
/// lies outside the outline of outside walls.
pub(crate) fn nearest_wall<'a>(
    level: &'a Level,
    framing: Option<&LevelFraming>,
    at: Point,
    reach: Reach,
) -> Option<Facing<'a>> {
    let within = reach.around.f64().max(MEANT);
    let distance = |wall: &&'a Wall| {
        let off = wall.line()?.distance_to(at.pos()) - wall.width().0 / 2.0;
        (off <= within).then_some((off.max(0.0), *wall))
    };
    let nearest = level.walls.iter().filter_map(|wall| distance(&wall));
    let (_, wall) = nearest.min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.id.cmp(&b.1.id)))?;
    let line = wall.line()?;
    let side = Side::of(line.aside_of(at.pos()));
    let offset = line.offset_of(at.pos()).clamp(0.0, line.length);
    let facing = Facing {
        wall,
        offset,
        side,
        outside: false,
    };
    Some(Facing {
        outside: looks_out(&facing, framing),
        ..facing
    })
}

impl<'a> Facing<'a> {
    /// The same place on the face that looks out, if the wall is an outside wall that has one.
    pub fn outwards(self, framing: Option<&LevelFraming>) -> Option<Facing<'a>> {
        [self.side, other(self.side)]
            .into_iter()
            .map(|side| Facing { side, ..self })
            .find(|facing| looks_out(facing, framing))
            .map(|facing| Facing {
                outside: true,
                ..facing
            })
    }
}

fn other(side: Side) -> Side {
    match side {
        Side::Left => Side::Right,
        Side::Right => Side::Left,
    }
}

/// Only outside walls look out: where what lies in front of the face is outside the outline.
fn looks_out(facing: &Facing, framing: Option<&LevelFraming>) -> bool {
    let (Some(framing), Some(line)) = (framing, facing.line()) else {
        return false;
    };
    let aside = facing.side.sign() * (facing.wall.width().0 / 2.0 + 50.0);
    facing.wall.role == Role::Exterior && !framing.outline.contains(line.at(facing.offset, aside))
}

/// Where on the wall a box at a height really goes: in whole steps, clear of the wall's ends, of
/// walls that meet it and of openings at that height; and the stud it is beside, if it is. One that
/// is nailed, with an outline, goes to the nearest side of an upright that holds it.
pub(crate) fn boxed(
    facing: &Facing,
    level: &Level,
    framing: Option<&LevelFraming>,
    (height, outline): (Mm, Option<(f64, f64)>),
    reach: Reach,
    units: Units,
) -> (Mm, Snap) {
    let wanted = match reach.free {
        true => facing.offset,
        false => step(facing.offset, units),
    };
    let mut blocked = openings(facing, level, height);
    blocked.extend(joints(facing, framing));
    let length = facing.wall.from.distance(facing.wall.to);
    let offset = nearest_free(length.f64(), &blocked, wanted);
    let offset = Mm::rounded(offset).max(Mm(0)).min(length);
    let framed = framing.and_then(|level| level.wall(facing.wall.id));
    let wall = framed.zip(outline);
    let hung = wall.and_then(|(wall, outline)| {
        let near = wall.nearest_hang(level, offset.f64(), height.f64(), outline);
        near.filter(|(at, _)| (*at - offset).0.abs() <= if reach.free { 0 } else { HELD })
    });
    let offset = hung.map_or(offset, |(at, _)| at);
    let mut holds = vec![match facing.outside {
        true => Hold::OutsideOf(facing.wall.id),
        false => Hold::FaceOf(facing.wall.id),
    }];
    let hung = hung
        .zip(framed)
        .map(|((_, hang), wall)| wall.hang_words(hang, facing.wall.lumber));
    match outline {
        Some(_) => holds.extend(hung.map(Hold::Hung)),
        None => holds.extend(stud_beside(facing, framing, offset.f64()).map(Hold::Stud)),
    }
    let at = on_face(facing.wall, offset, facing.side).point();
    (offset, Snap { at, holds })
}

/// The offset nearest to `wanted` that lies on the wall and in no blocked stretch; `wanted` itself,
/// kept on the wall, where there is none.
fn nearest_free(length: f64, blocked: &[(f64, f64)], wanted: f64) -> f64 {
    let clear = CLEAR.min(length / 2.0);
    let limits = clear..=length - clear;
    let is_free = |offset: &f64| {
        blocked
            .iter()
            .all(|(from, to)| offset <= from || offset >= to)
    };
    let inside = wanted.clamp(*limits.start(), *limits.end());
    let edges = blocked.iter().flat_map(|(from, to)| [*from, *to]);
    std::iter::once(inside)
        .chain(edges)
        .filter(|offset| limits.contains(offset) && is_free(offset))
        .min_by(|a, b| (a - wanted).abs().total_cmp(&(b - wanted).abs()))
        .unwrap_or(inside)
}

/// Stretches of the wall with an opening at this height, the studs beside it included.
fn openings(facing: &Facing, level: &Level, height: Mm) -> Vec<(f64, f64)> {
    let openings = level.openings_of(facing.wall.id).into_iter();
    openings
        .filter(|opening| opening.sill < height + Mm(100) && height < opening.head + Mm(100))
        .map(|opening| {
            let beside = BESIDE_OPENING + CLEAR;
            let (from, to) = (opening.offset.f64(), (opening.offset + opening.width).f64());
            (from - beside, to + beside)
        })
        .collect()
}

/// Stretches of the wall where another one meets it on the side of this face.
fn joints(facing: &Facing, framing: Option<&LevelFraming>) -> Vec<(f64, f64)> {
    let framed = framing.and_then(|level| level.wall(facing.wall.id));
    let here = framed.into_iter().flat_map(|wall| &wall.joints);
    here.filter(|joint| match (joint.kind, facing.side) {
        (JointKind::Splice, _) => false,
        (JointKind::TeeButt, _) => true,
        (_, Side::Left) => joint.left,
        (_, Side::Right) => joint.right,
    })
    .map(|joint| {
        let beside = joint.half + CLEAR;
        (joint.at - beside, joint.at + beside)
    })
    .collect()
}

/// The number of the full-height stud a box at this offset would be fixed to.
fn stud_beside(facing: &Facing, framing: Option<&LevelFraming>, offset: f64) -> Option<u32> {
    let studs = &framing?.wall(facing.wall.id)?.studs;
    let full = studs
        .iter()
        .filter(|stud| stud.number > 0 && stud.kind != StudKind::Jack);
    let off = |from: f64, to: f64| (from - offset).max(offset - to).max(0.0);
    let near = full.map(|stud| (off(stud.from, stud.to), stud.number));
    let (off, number) = near.min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)))?;
    (off <= CLEAR).then_some(number)
}

/// The position of a place on a wall's face.
pub(crate) fn on_face(wall: &Wall, offset: Mm, side: Side) -> Pos {
    let aside = side.sign() * wall.width().0 / 2.0;
    wall.line()
        .map_or(wall.from.pos(), |line| line.at(offset.f64(), aside))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::framing::Framing;
    use crate::plan::edit::Edit;
    use crate::plan::{Lumber, Opening, OpeningId, OpeningKind, Plan, WallId};

    const REACH: Reach = Reach {
        around: Mm(150),
        free: false,
    };

    /// A house of 6 by 4 m walked clockwise, so that inside is on the right of every wall.
    fn house() -> Plan {
        let corners = [(0, 0), (6000, 0), (6000, 4000), (0, 4000), (0, 0)];
        corners.windows(2).fold(Plan::new(), |plan, ends| {
            let wall = Edit::AddWall {
                level: plan.levels[0].id,
                from: Point::new(ends[0].0, ends[0].1),
                to: Point::new(ends[1].0, ends[1].1),
                lumber: Lumber::TwoBySix,
                role: Role::Exterior,
            };
            plan.apply(&wall).unwrap()
        })
    }

    fn told(plan: &Plan, at: (i32, i32), height: i32) -> Option<(Mm, Side, String)> {
        let framing = Framing::of(plan);
        let framing = Some(&framing.levels[0]);
        let at = Point::new(at.0, at.1);
        let facing = nearest_wall(&plan.levels[0], framing, at, REACH)?;
        let height = Mm(height);
        let (offset, snap) = boxed(
            &facing,
            &plan.levels[0],
            framing,
            (height, None),
            REACH,
            Units::Metric,
        );
        Some((offset, facing.side, snap.words()))
    }

    #[test]
    fn the_pointer_side_tells_the_face() {
        let plan = house();
        let inside = told(&plan, (2610, 200), 406);
        assert_eq!(inside, Some((Mm(2600), Side::Right, "on W1".into())));
        let (_, side, words) = told(&plan, (2610, -200), 406).unwrap();
        assert_eq!((side, words.as_str()), (Side::Left, "outside of W1"));
        assert_eq!(told(&plan, (3000, 2000), 406), None);
    }

    #[test]
    fn a_box_stays_clear_of_ends_and_doors() {
        let door = Opening {
            id: OpeningId(0),
            wall: WallId(1),
            offset: Mm(2000),
            width: Mm(900),
            sill: Mm(0),
            head: Mm(2032),
            kind: OpeningKind::Door,
        };
        let plan = house().apply(&Edit::AddOpening(door)).unwrap();
        let offset = |x, height| told(&plan, (x, 100), height).unwrap().0;
        assert_eq!(offset(100, 406), Mm(130));
        assert_eq!(offset(2200, 406), Mm(1864));
        assert_eq!(offset(2800, 406), Mm(3036));
        assert_eq!(offset(2800, 2400), Mm(2800));
    }

    #[test]
    fn a_stud_near_the_box_is_named() {
        let plan = house();
        let framing = Framing::of(&plan);
        let stud = framing.levels[0].walls[0]
            .studs
            .iter()
            .find(|s| s.number == 5);
        let stud = stud.unwrap();
        let words = told(&plan, (stud.to as i32 + 20, 90), 406).unwrap().2;
        assert_eq!(words, "on W1, stud 5");
    }

    /// By hand: studs of W1, a 2x6, stand on 406.4 from 69.85 before its drawn end, so at 2774.95 and
    /// 3181.35; one gang is 54 wide. A box at 2600 hangs before the first of them, one held fast where it
    /// is stays.
    #[test]
    fn a_box_goes_to_the_side_of_a_stud_and_says_which() {
        let plan = house();
        let framing = Framing::of(&plan);
        let framing = Some(&framing.levels[0]);
        let hung = |x: i32, free: bool| {
            let reach = Reach { free, ..REACH };
            let at = Point::new(x, 100);
            let facing = nearest_wall(&plan.levels[0], framing, at, reach).unwrap();
            let seat = (Mm(406), Some((54.0, 95.0)));
            let (level, units) = (&plan.levels[0], Units::Metric);
            let (offset, snap) = boxed(&facing, level, framing, seat, reach, units);
            (offset.0, snap.words())
        };
        let side = |stud: u32, wall: &str| format!("on W1, on stud {stud}, {wall} side");
        assert_eq!(hung(2600, false), (2729, side(9, "W4")));
        assert_eq!(hung(2810, false), (2821, side(9, "W2")));
        assert_eq!(hung(2600, true), (2600, String::from("on W1")));
    }

    #[test]
    fn an_outside_wall_is_turned_to_its_outer_face() {
        let plan = house();
        let framing = Framing::of(&plan);
        let framing = Some(&framing.levels[0]);
        let at = Point::new(3000, 3900);
        let facing = nearest_wall(&plan.levels[0], framing, at, REACH).unwrap();
        assert!(!facing.outside);
        let out = facing.outwards(framing).unwrap();
        assert!(out.outside && out.side == Side::Left);
        let face = on_face(out.wall, Mm(3000), out.side);
        assert!(face.y > 4000.0);
    }
}
