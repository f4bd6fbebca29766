//! A wall seen from one of its sides, to scale: wood, openings, boxes, power, cables and bores.
//!
//! x is the distance from the end on the left hand, y is minus the height above the finished floor,
//! both in house millimetres.

mod measure;
pub(crate) mod measured;
mod wiring;
mod wood;

use std::cmp::Ordering;

use super::labels::{ANYWHERE, Bounds, Label, Run, place, said};
use super::obstacles::{Obstacles, Rect};
use super::{About, Ink, Item, Picture, Shape, Type};
use crate::design::Design;
use crate::framing::WallFraming;
use crate::plan::{ClosetPlace, Level, Place, Plan, Side, Wall, WallId};
use crate::schedule::BoxCorner;
use crate::shape::Pos;
use crate::tongue::Tongue;

/// Thickness of plates, millimetres.
const BOARD: f64 = crate::plan::Lumber::THICKNESS.0;
/// How far cable is drawn beyond the plates, millimetres.
const BEYOND: f64 = 150.0;
/// Smallest radius a bore is drawn with, paper millimetres.
const SMALLEST: f64 = 0.8;

/// Draws a wall seen from a side at a scale, in type of these sizes and in a tongue. A wall that is not framed gives an empty picture.
pub fn elevation(
    plan: &Plan,
    design: &Design,
    wall: WallId,
    from: Side,
    scale: f64,
    (sizes, tongue): (Type, Tongue),
) -> Picture {
    let picture = Picture::at_scale(scale);
    let (Some((level, wall)), Some(frame)) = (plan.wall(wall), design.framing.wall(wall)) else {
        return picture;
    };
    let mut view = View {
        plan,
        design,
        level,
        wall,
        frame,
        from,
        sizes,
        tongue,
        picture,
        obstacles: Obstacles::default(),
        labels: Vec::new(),
        dimensions: Vec::new(),
    };
    view.draw();
    view.picture
}

/// The side a wall is best seen from: the one with more boxes on it, the panel among them; the
/// panel's if even, else the right one.
pub fn best_side(plan: &Plan, wall: WallId) -> Side {
    let panel = plan.closet.and_then(|closet| match closet.place {
        ClosetPlace::Wall { wall: w, side, .. } if w == wall => Some(side),
        _ => None,
    });
    let on = |side: Side| {
        let here = plan.drops.iter().filter(|drop| match drop.place {
            Place::Wall {
                wall: w, side: s, ..
            } => w == wall && s == side,
            _ => false,
        });
        here.count() + usize::from(panel == Some(side))
    };
    match on(Side::Left).cmp(&on(Side::Right)) {
        Ordering::Greater => Side::Left,
        Ordering::Less => Side::Right,
        Ordering::Equal => panel.unwrap_or(Side::Right),
    }
}

struct View<'p> {
    plan: &'p Plan,
    design: &'p Design,
    level: &'p Level,
    wall: &'p Wall,
    frame: &'p WallFraming,
    from: Side,
    sizes: Type,
    tongue: Tongue,
    picture: Picture,
    obstacles: Obstacles,
    labels: Vec<Label>,
    /// What is to be dimensioned.
    dimensions: Vec<Measured>,
}

/// A place along a wall that is dimensioned from the nearer of two others, all from the wall's first end.
struct Measured {
    offset: f64,
    /// The corners that a box is measured from in the room list too; `None` for the ends of the plates.
    corners: Option<[BoxCorner; 2]>,
    /// What is there.
    name: String,
}

impl View<'_> {
    fn draw(&mut self) {
        self.wood();
        self.openings();
        self.wood_in_the_way();
        self.keep_outs();
        self.power();
        self.cables();
        self.closet();
        self.boxes();
        self.bores();
        self.stud_numbers();
        self.dimension();
        let labels = std::mem::take(&mut self.labels);
        let items = place(
            &said(&labels, self.tongue),
            &mut self.obstacles,
            &Bounds::NONE,
            self.picture.scale,
            &mut Vec::new(),
        );
        self.picture.items.extend(items);
    }

    /// Length of the plates.
    fn length(&self) -> f64 {
        self.frame.end - self.frame.start
    }

    /// An offset from the wall's first end and a height as a place in the picture.
    fn at(&self, offset: f64, height: f64) -> Pos {
        let x = match self.from {
            Side::Right => offset - self.frame.start,
            Side::Left => self.frame.end - offset,
        };
        Pos::new(x, -height)
    }

    fn paper(&self, at: Pos) -> Pos {
        at * (1.0 / self.picture.scale)
    }

    fn rectangle(&mut self, ink: Ink, offsets: (f64, f64), heights: (f64, f64)) {
        let corners = vec![
            self.at(offsets.0, heights.0),
            self.at(offsets.1, heights.0),
            self.at(offsets.1, heights.1),
            self.at(offsets.0, heights.1),
        ];
        self.picture.push(Item::plain(ink, Shape::Area(corners)));
    }

    fn label(&mut self, at: Pos, clear: f64, forms: Vec<Vec<Run>>, ink: Ink, about: About) {
        self.labels.push(Label {
            anchors: vec![at],
            clear,
            forms,
            reach: ANYWHERE,
            centred: clear == 0.0,
            ink,
            about: Some(about),
            faint: false,
            paper: false,
        });
    }

    /// Nothing is written on wood: where a stud, a plate or a header stands has to be seen.
    fn wood_in_the_way(&mut self) {
        let is_wood = |ink: Ink| matches!(ink, Ink::Stud | Ink::Cripple | Ink::Plate | Ink::Header);
        let scale = self.picture.scale;
        let wood = self.picture.items.iter();
        let wood = wood.filter(|item| is_wood(item.ink) && matches!(item.shape, Shape::Area(_)));
        let wood: Vec<Rect> = wood
            .filter_map(|item| item.shape.bounds(scale))
            .map(|(low, high)| Rect::new(self.paper(low), self.paper(high)))
            .collect();
        for piece in wood {
            self.obstacles.add_wood(piece);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::framing::StudKind;
    use crate::picture::sample;

    fn seen(wall: u32, from: Side) -> Picture {
        let plan = sample::house();
        let design = Design::of(&plan);
        elevation(
            &plan,
            &design,
            WallId(wall),
            from,
            48.0,
            (Type::PAPER, Tongue::English),
        )
    }

    fn count(picture: &Picture, ink: Ink) -> usize {
        picture.items.iter().filter(|item| item.ink == ink).count()
    }

    #[test]
    fn wood_stands_as_framed() {
        let plan = sample::house();
        let framing = crate::framing::Framing::of(&plan);
        let frame = framing.wall(WallId(5)).unwrap();
        let picture = seen(5, Side::Right);
        let cripples = frame
            .studs
            .iter()
            .filter(|s| s.kind == StudKind::Cripple)
            .count();
        assert_eq!(count(&picture, Ink::Cripple), cripples);
        assert_eq!(count(&picture, Ink::Stud), frame.studs.len() - cripples);
    }

    #[test]
    fn every_bore_of_the_wall_is_drawn_and_its_row_named() {
        let plan = sample::house();
        let design = Design::of(&plan);
        let picture = seen(6, Side::Right);
        let rows = design
            .drill_list
            .iter()
            .filter(|row| row.wall == Some(WallId(6)));
        let bores: usize = rows.clone().map(|row| row.bores.len()).sum();
        assert!(bores > 1);
        assert_eq!(count(&picture, Ink::BoreDot), bores);
        for row in rows {
            let number = row.number.to_string();
            let named = |item: &&Item| match &item.shape {
                Shape::Text(text) => item.ink == Ink::BoreName && text.text == number,
                _ => false,
            };
            assert_eq!(picture.items.iter().filter(named).count(), 1);
        }
    }

    #[test]
    fn from_the_other_side_left_is_right() {
        let at = |from| {
            let picture = seen(6, from);
            let drop = picture
                .items
                .iter()
                .find(|item| item.ink == Ink::Drop)
                .unwrap();
            let (low, high) = drop.shape.bounds(1.0).unwrap();
            (low.x + high.x) / 2.0
        };
        let plan = sample::house();
        let framing = crate::framing::Framing::of(&plan);
        let frame = framing.wall(WallId(6)).unwrap();
        let sum = at(Side::Right) + at(Side::Left);
        assert!((sum - (frame.end - frame.start)).abs() < 1e-6);
    }

    #[test]
    fn a_wall_that_is_not_there_is_an_empty_picture() {
        assert!(seen(99, Side::Left).items.is_empty());
    }
}
