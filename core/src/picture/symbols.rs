//! Our own symbols for drops and the closet.
//!
//! An open triangle with the cable count for an outlet, with a T for a television point; a ring with
//! letters for an access point; a wedge along its aim for a camera; a small square for a doorbell; a
//! diamond for anything else. A symbol stands off its wall; where others stand already it moves on
//! outwards and keeps a stem.

use super::font::{self, Weight};
use super::obstacles::{Obstacles, Rect};
use super::{About, Anchor, Ink, Item, Picture, Shape, Text, Type};
use crate::plan::{Closet, ClosetPlace, Drop, DropKind, Place, Plan, Side, WallId};
use crate::shape::Pos;

/// How far a symbol stands off the face of its wall, paper millimetres.
const GAP: f64 = 0.5;

/// A symbol on the sheet, in drawing millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Spot {
    /// Its middle.
    pub at: Pos,
    /// The true place on the face of the wall or on the ceiling.
    pub foot: Pos,
    /// Unit vector away from the wall; `None` on the ceiling.
    pub out: Option<Pos>,
}

/// Radius of the circle around a symbol, paper millimetres.
pub(super) fn reach(sizes: Type) -> f64 {
    sizes.body * 0.85
}

/// The true place of a drop in plan and the way off its wall.
pub(super) fn foot(plan: &Plan, drop: &Drop) -> Option<(Pos, Option<Pos>)> {
    match drop.place {
        Place::Wall {
            wall, offset, side, ..
        }
        | Place::Outside {
            wall, offset, side, ..
        } => on_face(plan, wall, offset.f64(), side).map(|(at, out)| (at, Some(out))),
        Place::Ceiling { at } | Place::Adrift { at } => Some((at.pos(), None)),
    }
}

/// The place of a drop in plan, on the face of its wall; `None` where its wall is gone.
pub fn drop_place(plan: &Plan, drop: &Drop) -> Option<Pos> {
    foot(plan, drop).map(|(at, _)| at)
}

/// A place on a wall's face and the unit vector off it.
pub(super) fn on_face(plan: &Plan, wall: WallId, offset: f64, side: Side) -> Option<(Pos, Pos)> {
    let (_, wall) = plan.wall(wall)?;
    let line = wall.line()?;
    let half = wall.width().0 / 2.0;
    Some((
        line.at(offset, side.sign() * half),
        line.across() * side.sign(),
    ))
}

/// Finds a drop's symbol a place among what stands there already, and takes it: off its wall, then
/// farther out, then aside.
pub(super) fn stand(
    plan: &Plan,
    drop: &Drop,
    sizes: Type,
    scale: f64,
    taken: &mut Obstacles,
) -> Option<Spot> {
    let (foot, out) = foot(plan, drop)?;
    let radius = reach(sizes);
    let pitch = 2.0 * radius + GAP;
    let room = |at: Pos| Rect::around(at * (1.0 / scale), 1.9 * radius, 1.9 * radius);
    let first = match out {
        Some(out) => foot + out * ((radius + GAP) * scale),
        None => foot,
    };
    let along = out.unwrap_or(Pos::new(1.0, 0.0));
    let places = STEPS
        .map(|(far, aside)| first + (along * far + along.quarter_turn() * aside) * (pitch * scale));
    let free = |at: &&Pos| taken.is_free(&room(**at));
    let at = places.iter().find(free).copied().unwrap_or(first);
    taken.add_box(room(at));
    Some(Spot { at, foot, out })
}

/// Where a symbol is tried, in its own widths: outwards and aside. The last ones lead well clear of
/// any cluster.
const STEPS: [(f64, f64); 22] = [
    (0.0, 0.0),
    (1.0, 0.0),
    (2.0, 0.0),
    (0.0, 1.0),
    (0.0, -1.0),
    (1.0, 1.0),
    (1.0, -1.0),
    (3.0, 0.0),
    (2.0, 1.0),
    (2.0, -1.0),
    (0.0, 2.0),
    (0.0, -2.0),
    (1.0, 2.0),
    (1.0, -2.0),
    (-1.0, 1.0),
    (-1.0, -1.0),
    (4.0, 0.0),
    (3.0, 2.0),
    (3.0, -2.0),
    (5.0, 1.0),
    (5.0, -1.0),
    (6.0, 0.0),
];

/// Draws the stem of a symbol that had to move away from its wall.
pub(super) fn draw_stem(picture: &mut Picture, spot: Spot, sizes: Type, faint: bool) {
    if spot.foot.distance(spot.at) > reach(sizes) * picture.scale * 1.3 {
        let stem = Shape::Line(vec![spot.foot, spot.at]);
        picture.push(Item::plain(Ink::Leader, stem).faint_if(faint));
    }
}

/// Draws a drop's symbol.
pub(super) fn draw(picture: &mut Picture, drop: &Drop, spot: Spot, sizes: Type, faint: bool) {
    let scale = picture.scale;
    let radius = reach(sizes) * scale;
    let words = words(drop);
    let about = About::Drop(drop.id);
    let shape = match drop.kind {
        DropKind::Data | DropKind::Television => Shape::Area(triangle(spot.at, radius)),
        DropKind::CeilingAccessPoint | DropKind::WallAccessPoint => Shape::Circle {
            at: spot.at,
            radius: radius * 0.95,
        },
        DropKind::Camera => Shape::Area(wedge(spot, aim(drop, spot), radius)),
        DropKind::Doorbell => Shape::Area(square(spot.at, radius * 0.6)),
        DropKind::Other => Shape::Area(diamond(spot.at, radius)),
    };
    picture.push(Item::about(Ink::Drop, shape, about, words).faint_if(faint));
    if drop.kind == DropKind::Doorbell {
        let dot = Shape::Circle {
            at: spot.at,
            radius: radius * 0.15,
        };
        picture.push(Item::about(Ink::Drop, dot, about, "").faint_if(faint));
    }
    if let Some(letter) = letter(drop) {
        let text = Shape::Text(Text {
            at: spot.at + Pos::new(0.0, font::CAP_HEIGHT / 2.0 * sizes.body * scale),
            anchor: Anchor::Middle,
            size: sizes.body,
            weight: Weight::Bold,
            text: letter,
            upwards: false,
        });
        picture.push(Item::about(Ink::DropLetter, text, about, "").faint_if(faint));
    }
}

/// Draws how a drop stands on site: the open box of something left to tick off around its symbol, or a
/// tick over it.
pub(super) fn draw_state(picture: &mut Picture, drop: &Drop, spot: Spot, sizes: Type, done: bool) {
    let half = reach(sizes) * 1.15 * picture.scale;
    let about = About::Drop(drop.id);
    let place = |(x, y): (f64, f64)| spot.at + Pos::new(x, y) * half;
    let (ink, points) = match done {
        true => (
            Ink::Done,
            [(-0.7, 0.1), (-0.2, 0.7), (0.9, -0.8)].map(place).to_vec(),
        ),
        false => {
            let mut corners = square(spot.at, half);
            corners.extend(corners.first().copied());
            (Ink::ToDo, corners)
        }
    };
    picture.push(Item::about(ink, Shape::Line(points), about, ""));
}

/// What a drop is, in words.
fn words(drop: &Drop) -> String {
    let count = match drop.cables.len() {
        1 => String::from("1 cable"),
        count => format!("{count} cables"),
    };
    let mut words = format!("{}, {}, {count}", drop.label(), drop.kind.name());
    for (flag, word) in [
        (drop.outdoors, "outdoors"),
        (drop.buried, "buried"),
        (drop.spare, "spare"),
    ] {
        if flag {
            words.push_str(", ");
            words.push_str(word);
        }
    }
    words
}

/// What stands inside a symbol.
fn letter(drop: &Drop) -> Option<String> {
    match drop.kind {
        DropKind::Data => Some(drop.cables.len().to_string()),
        DropKind::Television => Some(String::from("T")),
        DropKind::CeilingAccessPoint | DropKind::WallAccessPoint => Some(String::from("AP")),
        DropKind::Other => Some(String::from("X")),
        DropKind::Camera | DropKind::Doorbell => None,
    }
}

/// Where a camera looks: its aim, or straight out.
fn aim(drop: &Drop, spot: Spot) -> Pos {
    let aimed = drop.aim.and_then(|aim| aim.unit());
    aimed.or(spot.out).unwrap_or(Pos::new(0.0, 1.0))
}

/// The three corners of an upright triangle around its middle.
pub(super) fn triangle(at: Pos, radius: f64) -> Vec<Pos> {
    // Half the root of three, and a half: the corners of a regular triangle.
    let (side, foot) = (0.866 * radius, 0.5 * radius);
    vec![
        at + Pos::new(0.0, -radius),
        at + Pos::new(side, foot),
        at + Pos::new(-side, foot),
    ]
}

fn wedge(spot: Spot, aim: Pos, radius: f64) -> Vec<Pos> {
    let tip = spot.at + aim * (-0.8 * radius);
    let wide = aim.quarter_turn() * (0.85 * radius);
    let far = tip + aim * (1.7 * radius);
    vec![tip, far + wide, far + wide * -1.0]
}

/// The corners of a square of this half side.
pub(super) fn square(at: Pos, half: f64) -> Vec<Pos> {
    [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)]
        .map(|(x, y)| at + Pos::new(x, y) * half)
        .to_vec()
}

fn diamond(at: Pos, radius: f64) -> Vec<Pos> {
    [(0.0, -1.0), (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0)]
        .map(|(x, y)| at + Pos::new(x, y) * radius)
        .to_vec()
}

/// The closet's place in plan and the way off its wall.
pub(super) fn closet_spot(plan: &Plan, closet: &Closet, sizes: Type, scale: f64) -> Option<Spot> {
    match closet.place {
        ClosetPlace::Wall { wall, offset, side } => {
            let (foot, out) = on_face(plan, wall, offset.f64(), side)?;
            let at = foot + out * ((reach(sizes) + GAP) * scale);
            Some(Spot {
                at,
                foot,
                out: Some(out),
            })
        }
        ClosetPlace::Point(at) => Some(Spot {
            at: at.pos(),
            foot: at.pos(),
            out: None,
        }),
    }
}

/// Draws the closet: a filled square with a comb of ports standing out.
pub(super) fn draw_closet(picture: &mut Picture, spot: Spot, sizes: Type, faint: bool) {
    let half = reach(sizes) * picture.scale;
    let shape = Shape::Area(square(spot.at, half));
    let item = Item::about(
        Ink::Closet,
        shape,
        About::Closet,
        "Closet, where every cable comes home",
    );
    picture.push(item.faint_if(faint));
    let mark = |points: Vec<(f64, f64)>| {
        let points = points
            .into_iter()
            .map(|(x, y)| spot.at + Pos::new(x, y) * half);
        Item::about(
            Ink::ClosetMark,
            Shape::Line(points.collect()),
            About::Closet,
            "",
        )
    };
    picture.push(mark(vec![(-0.6, 0.45), (0.6, 0.45)]).faint_if(faint));
    for x in [-0.6, -0.2, 0.2, 0.6] {
        picture.push(mark(vec![(x, 0.45), (x, -0.5)]).faint_if(faint));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::Edit;
    use crate::plan::{DropKind, LevelId, Lumber, Role};
    use crate::shape::Point;
    use crate::units::Mm;

    fn plan() -> Plan {
        let wall = Edit::AddWall {
            level: LevelId(1),
            from: Point::new(0, 0),
            to: Point::new(4000, 0),
            lumber: Lumber::TwoByFour,
            role: Role::Partition,
        };
        let drop = |kind| Edit::AddDrop {
            kind,
            level: LevelId(1),
            place: Place::Wall {
                wall: WallId(1),
                offset: Mm(1000),
                side: Side::Right,
                height: Mm(406),
            },
        };
        let edits = vec![wall, drop(DropKind::Data), drop(DropKind::Television)];
        Plan::new().apply(&Edit::Together(edits)).unwrap()
    }

    #[test]
    fn a_second_symbol_at_one_place_moves_outwards() {
        let plan = plan();
        let mut taken = Obstacles::default();
        let mut stand = |drop| stand(&plan, drop, Type::PAPER, 48.0, &mut taken).unwrap();
        let (one, other) = (stand(&plan.drops[0]), stand(&plan.drops[1]));
        assert_eq!(one.foot, other.foot);
        assert!(other.at.y > one.at.y + 2.0 * reach(Type::PAPER) * 48.0);
    }

    #[test]
    fn a_symbol_says_what_it_is() {
        let plan = plan();
        assert_eq!(words(&plan.drops[0]), "D1, outlet, 2 cables");
        assert_eq!(letter(&plan.drops[0]).as_deref(), Some("2"));
        assert_eq!(letter(&plan.drops[1]).as_deref(), Some("T"));
    }
}
