//! A corner cut across at the height of its bore and seen from above, to scale: both walls, their uprights,
//! the two halves of the bore, and how deep each goes.
//!
//! Places are house millimetres from where the halves meet, x to the right and y down as on the plan.

use super::font::{self, Weight};
use super::{Anchor, Ink, Item, Picture, Shape, Text, Type};
use crate::bore::{Corner, Half};
use crate::design::Design;
use crate::framing::{Stud, WallFraming};
use crate::plan::Plan;
use crate::shape::Pos;
use crate::units::{Mm, Size};

/// How far a wall is drawn beyond the face of its bay, and how far behind the corner, millimetres.
const SHOWN: (f64, f64) = (95.0, 100.0);
/// How far into the bay a half's middle line is drawn, millimetres.
const LEAD: f64 = 60.0;
/// From a wall's face to a dimension line, and half the length of its strokes, paper millimetres.
const APART: (f64, f64) = (5.0, 1.1);
/// Length and half width of an arrow's head, paper millimetres.
const ARROW: (f64, f64) = (2.6, 1.0);

/// Draws a corner with a bore of this bit at a height above the floor.
pub fn corner(
    plan: &Plan,
    design: &Design,
    corner: &Corner,
    (bit, height): (Size, f64),
    scale: f64,
    sizes: Type,
) -> Picture {
    let mut view = View {
        plan,
        corner,
        height,
        sizes,
        picture: Picture::at_scale(scale),
    };
    let framed = |half: &Half| design.framing.wall(half.wall());
    let walls: Vec<(&Half, &WallFraming)> = corner
        .halves
        .iter()
        .filter_map(|half| Some((half, framed(half)?)))
        .collect();
    for &(half, wall) in &walls {
        view.faces(half, wall);
    }
    for &(half, wall) in &walls {
        view.uprights(half, wall);
    }
    for &(half, _) in &walls {
        view.bore(half, bit);
    }
    view.meeting(bit);
    if let [one, other] = walls[..] {
        view.depth(one.0, other);
        view.depth(other.0, one);
    }
    for (half, _) in walls {
        view.name(half);
    }
    view.picture
}

struct View<'p> {
    plan: &'p Plan,
    corner: &'p Corner,
    height: f64,
    sizes: Type,
    picture: Picture,
}

impl View<'_> {
    /// A place along a half's wall and aside from its middle, both from where the halves meet.
    fn at(half: &Half, along: f64, aside: f64) -> Pos {
        half.towards * along + half.towards.quarter_turn() * aside
    }

    /// From where to where a wall is drawn along a half: as far as it goes, at most.
    fn shown(&self, half: &Half, wall: &WallFraming) -> (f64, f64) {
        let (low, high) = self.extent(half, wall);
        (low.max(-SHOWN.1), high.min(half.depth + SHOWN.0))
    }

    /// Where a wall's plates begin and end along a half.
    fn extent(&self, half: &Half, wall: &WallFraming) -> (f64, f64) {
        let along = |offset| self.along(half, wall, offset);
        let (one, other) = (along(wall.start), along(wall.end));
        (one.min(other), one.max(other))
    }

    fn along(&self, half: &Half, wall: &WallFraming, offset: f64) -> f64 {
        (wall.line.at(offset, 0.0) - self.corner.meets).dot(half.towards)
    }

    fn half_width(&self, half: &Half) -> f64 {
        let wall = self.plan.wall(half.wall());
        wall.map_or(0.0, |(_, wall)| wall.width().0 / 2.0)
    }

    fn line(&mut self, ink: Ink, points: Vec<Pos>) {
        self.picture.push(Item::plain(ink, Shape::Line(points)));
    }

    fn faces(&mut self, half: &Half, wall: &WallFraming) {
        let (low, high) = self.shown(half, wall);
        let width = self.half_width(half);
        let corners = [(low, -width), (high, -width), (high, width), (low, width)];
        let corners = corners.map(|(along, aside)| Self::at(half, along, aside));
        self.picture.push(Item::plain(
            Ink::WallPartition,
            Shape::Area(corners.to_vec()),
        ));
        for aside in [-width, width] {
            let ends = [low, high].map(|along| Self::at(half, along, aside));
            self.line(Ink::WallFace, ends.to_vec());
        }
        // The end of the plates is a line; where the drawing ends, the wall goes on.
        let (first, last) = self.extent(half, wall);
        for end in [first, last] {
            if low <= end && end <= high {
                let ends = [-width, width].map(|aside| Self::at(half, end, aside));
                self.line(Ink::WallFace, ends.to_vec());
            }
        }
    }

    fn uprights(&mut self, half: &Half, wall: &WallFraming) {
        let (low, high) = self.shown(half, wall);
        let width = self.half_width(half);
        let stands = |stud: &&Stud| stud.bottom <= self.height && self.height <= stud.top;
        let studs: Vec<Stud> = wall.studs.iter().filter(stands).copied().collect();
        for stud in studs {
            let (one, other) = (
                self.along(half, wall, stud.from),
                self.along(half, wall, stud.to),
            );
            let (near, far) = (one.min(other), one.max(other));
            if near < low - 0.5 || far > high + 0.5 {
                continue;
            }
            let corners = [(near, -width), (far, -width), (far, width), (near, width)];
            let corners = corners.map(|(along, aside)| Self::at(half, along, aside));
            self.picture
                .push(Item::plain(Ink::Stud, Shape::Area(corners.to_vec())));
            self.line(Ink::Grain, vec![corners[0], corners[2]]);
            self.line(Ink::Grain, vec![corners[1], corners[3]]);
        }
    }

    /// The hole as wide as its bit, and its middle line with an arrow at the face the bit is put to.
    fn bore(&mut self, half: &Half, bit: Size) {
        let radius = bit.0 / 2.0;
        let corners = [
            (0.0, -radius),
            (half.depth, -radius),
            (half.depth, radius),
            (0.0, radius),
        ];
        let corners = corners.map(|(along, aside)| Self::at(half, along, aside));
        self.picture
            .push(Item::plain(Ink::Paper, Shape::Area(corners.to_vec())));
        for aside in [-radius, radius] {
            let ends = [0.0, half.depth].map(|along| Self::at(half, along, aside));
            self.line(Ink::Steel, ends.to_vec());
        }
        let ends = [0.0, half.depth + LEAD].map(|along| Self::at(half, along, 0.0));
        self.line(Ink::Cable(3), ends.to_vec());
        let scale = self.picture.scale;
        let (back, side) = (half.depth + ARROW.0 * scale, ARROW.1 * scale);
        let head = [(half.depth, 0.0), (back, side), (back, -side)];
        let head = head.map(|(along, aside)| Self::at(half, along, aside));
        self.picture
            .push(Item::plain(Ink::Solid, Shape::Area(head.to_vec())));
    }

    fn meeting(&mut self, bit: Size) {
        let circle = Shape::Circle {
            at: Pos::default(),
            radius: bit.0 / 2.0,
        };
        self.picture.push(Item::plain(Ink::BoreCircle, circle));
        let dot = Shape::Circle {
            at: Pos::default(),
            radius: 0.7 * self.picture.scale,
        };
        self.picture.push(Item::plain(Ink::BoreDot, dot));
    }

    /// How deep a half goes, on the side of its wall that the other half does not lie on.
    fn depth(&mut self, half: &Half, other: (&Half, &WallFraming)) {
        let scale = self.picture.scale;
        let away = match half.towards.quarter_turn().dot(other.0.towards) > 0.0 {
            true => -1.0,
            false => 1.0,
        };
        // Behind the corner the other wall reaches out this far.
        let behind = -self.shown(other.0, other.1).0;
        let clear = self.half_width(half).max(behind);
        let aside = away * (clear + APART.0 * scale);
        let ends = [0.0, half.depth].map(|along| Self::at(half, along, aside));
        self.line(Ink::Dimension, ends.to_vec());
        let stroke = APART.1 * scale;
        for end in ends {
            let across = half.towards.quarter_turn() * stroke;
            self.line(Ink::Dimension, vec![end - across, end + across]);
        }
        let words = self.plan.units.position(Mm::rounded(half.depth));
        let off = half.towards.quarter_turn() * away;
        let middle = (ends[0] + ends[1]) * 0.5 + off * (1.4 * scale);
        self.words(middle, off, &words, Weight::Regular, Ink::Dimension);
    }

    /// The wall's name where its drawing ends.
    fn name(&mut self, half: &Half) {
        let at = Self::at(half, half.depth + SHOWN.0 + 1.4 * self.picture.scale, 0.0);
        let name = self.plan.wall(half.wall()).map(|(_, wall)| wall.label());
        let name = name.unwrap_or_default();
        self.words(at, half.towards, &name, Weight::Bold, Ink::WallName);
    }

    /// Words that begin at a place and lie off from it in a direction.
    fn words(&mut self, at: Pos, off: Pos, words: &str, weight: Weight, ink: Ink) {
        let size = self.sizes.body;
        let high = font::CAP_HEIGHT * size * self.picture.scale;
        let anchor = match off.x {
            x if x > 0.5 => Anchor::Start,
            x if x < -0.5 => Anchor::End,
            _ => Anchor::Middle,
        };
        // Half a letter down where they stand beside, a whole one where they stand under.
        let down = high * (off.y.clamp(-1.0, 1.0) + 1.0) / 2.0;
        let text = Text {
            at: at + Pos::new(0.0, down),
            anchor,
            size,
            weight,
            text: words.to_string(),
            upwards: false,
        };
        self.picture.push(Item::plain(ink, Shape::Text(text)));
    }
}
