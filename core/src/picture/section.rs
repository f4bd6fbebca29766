//! A bore cut across: the bore with its cables to scale, and where it sits in its member.
//!
//! The picture is at scale 1: paper millimetres from its upper left corner.

use super::font::{self, Weight};
use super::{About, Anchor, CABLE_STYLES, Ink, Item, Picture, Shape, Text, Type};
use crate::bore::Bore;
use crate::design::Design;
use crate::plan::{CableKindId, Plan};
use crate::route::{Crossing, Member};
use crate::shape::Pos;
use crate::shape::packing::{Effort, pack};
use crate::units::Size;

/// Wood shown around the bore, as a share of its diameter.
const AROUND: f64 = 0.06;
/// Share of the width that the bore itself takes, or more where this much is left beside it for the
/// member and its measures, paper millimetres.
const LENS: f64 = 0.42;
const BESIDE: f64 = 34.0;
/// Share of the rest that the member to scale may take.
const STRIP: f64 = 0.45;

/// A cable's name shrinks to this share of the body size before it is left out.
const LEAST: f64 = 0.75;

/// What is written in the cables of a section.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Naming {
    /// Each cable's own name.
    Cable,
    /// The letter of its kind: which cable of a kind lies where makes no difference.
    Kind,
}

/// Draws a bore, given by its index in [`Design::bores`], so wide in paper millimetres. A bore the
/// design does not have gives an empty picture.
pub fn section(
    plan: &Plan,
    design: &Design,
    bore: usize,
    width: f64,
    (sizes, naming): (Type, Naming),
) -> Picture {
    let mut picture = Picture::at_scale(1.0);
    let Some(bore) = design.bores.get(bore) else {
        return picture;
    };
    let Some(crossing) = design.ways.crossings.get(bore.crossing) else {
        return picture;
    };
    let side = (width * LENS).max(width - BESIDE);
    lens(&mut picture, plan, bore, side, (sizes, naming));
    let left = side + 3.0;
    in_member(
        &mut picture,
        plan,
        design,
        bore,
        crossing,
        (left, width, side),
        sizes,
    );
    picture
}

/// The least width, in paper millimetres, at which every cable of a bore is named by its kind at full
/// size, and the bore itself is at least so wide.
pub fn section_width(plan: &Plan, bore: &Bore, sizes: Type, least: f64) -> f64 {
    let radius = |id: &crate::plan::CableId| {
        let (_, cable) = plan.cable(*id)?;
        let diameter = plan.catalogue.diameter(cable.kind).0.max(0.1);
        let wide = font::width(&letter(plan, cable.kind), Weight::Bold);
        Some(sizes.body / name_size(1.0, wide) / diameter * bore.bit.0)
    };
    let largest = bore
        .cables
        .iter()
        .filter_map(radius)
        .fold(least / 2.0, f64::max);
    largest / (0.5 - AROUND) + BESIDE + 0.1
}

/// The letter of a kind of cable.
fn letter(plan: &Plan, kind: CableKindId) -> String {
    plan.catalogue
        .cable(kind)
        .map_or_else(String::new, |spec| spec.letter.to_string())
}

/// The largest type in which a name so wide, in ems, stands inside a circle.
fn name_size(radius: f64, wide: f64) -> f64 {
    1.86 * radius
        / (wide * wide + font::CAP_HEIGHT * font::CAP_HEIGHT)
            .sqrt()
            .max(0.1)
}

/// The bore filling a square of wood, with its cables packed as tightly as they go.
fn lens(
    picture: &mut Picture,
    plan: &Plan,
    bore: &Bore,
    side: f64,
    (sizes, naming): (Type, Naming),
) {
    let about = About::Bore(bore.number);
    let corners = [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)];
    let wood = Shape::Area(corners.map(|(x, y)| Pos::new(x, y)).to_vec());
    picture.push(Item::about(Ink::Wood, wood, about, ""));
    for share in [0.22, 0.42, 0.6, 0.81] {
        let y = side * share;
        let grain = vec![Pos::new(0.0, y), Pos::new(side, y + side * 0.03)];
        picture.push(Item::about(Ink::Grain, Shape::Line(grain), about, ""));
    }
    let middle = Pos::new(side / 2.0, side / 2.0);
    let radius = side * (0.5 - AROUND);
    let words = format!(
        "Bore {}, {}, {:.0} per cent full",
        bore.number,
        plan.units.size(bore.bit),
        bore.fill * 100.0
    );
    let circle = Shape::Circle { at: middle, radius };
    picture.push(Item::about(Ink::BoreCircle, circle, about, words));
    let to_paper = radius / (bore.bit.0 / 2.0).max(0.1);
    for cable in packed(plan, bore) {
        let at = middle + cable.at * to_paper;
        let radius = cable.radius * to_paper;
        let about = About::Cable(cable.id);
        let end = Shape::Circle { at, radius };
        let words = format!("Cable {}", cable.label);
        picture.push(Item::about(Ink::CableEnd(cable.style), end, about, words));
        let name = match naming {
            Naming::Cable => cable.label.clone(),
            Naming::Kind => cable.letter.clone(),
        };
        let wide = font::width(&name, Weight::Bold);
        let size = sizes.body.min(name_size(radius, wide));
        if size >= LEAST * sizes.body {
            let at = at + Pos::new(0.0, size * font::CAP_HEIGHT / 2.0);
            let text = line(at, Anchor::Middle, size, &name);
            picture.push(Item::about(Ink::CableName, text, about, ""));
        }
    }
}

/// A cable in a bore, millimetres from its middle.
struct Packed {
    id: crate::plan::CableId,
    at: Pos,
    radius: f64,
    style: u8,
    label: String,
    letter: String,
}

/// The cables of a bore side by side; as one row where they cannot be packed.
fn packed(plan: &Plan, bore: &Bore) -> Vec<Packed> {
    let known: Vec<_> = bore
        .cables
        .iter()
        .filter_map(|id| plan.cable(*id).map(|(_, cable)| cable))
        .collect();
    let diameters: Vec<f64> = known
        .iter()
        .map(|cable| plan.catalogue.diameter(cable.kind).0.max(0.1))
        .collect();
    let centres = match pack(&diameters, Effort::LIVE) {
        Ok(packing) => packing.centres,
        Err(_) => return Vec::new(),
    };
    let cables = known.iter().zip(centres).zip(&diameters);
    cables
        .map(|((cable, (x, y)), diameter)| Packed {
            id: cable.id,
            at: Pos::new(x, y),
            radius: diameter / 2.0,
            style: (cable.kind.0 % u16::from(CABLE_STYLES)) as u8,
            label: plan.cable_label(cable.id),
            letter: letter(plan, cable.kind),
        })
        .collect()
}

/// The depth of the member across the bore: the wood on both sides of it.
fn depth(plan: &Plan, design: &Design, crossing: &Crossing) -> Option<Size> {
    match crossing.member {
        Member::Joist { space } | Member::Web { space } => {
            Some(Size(design.framing.spaces.get(space)?.depth))
        }
        Member::Sheathing | Member::Soffit => None,
        _ => {
            let (_, wall) = crossing.wall.and_then(|id| plan.wall(id))?;
            Some(wall.width())
        }
    }
}

/// The member to scale with the bore in it, the wood left on both sides, and steel where it goes.
fn in_member(
    picture: &mut Picture,
    plan: &Plan,
    design: &Design,
    bore: &Bore,
    crossing: &Crossing,
    (left, right, height): (f64, f64, f64),
    sizes: Type,
) {
    let Some(depth) = depth(plan, design, crossing) else {
        let words = format!("{} bore", plan.units.size(bore.bit));
        let text = line(
            Pos::new(left, height / 2.0),
            Anchor::Start,
            sizes.body,
            &words,
        );
        picture.push(Item::plain(Ink::Dimension, text));
        return;
    };
    let most = (right - left) * STRIP;
    let scale = (height / depth.0).min(most / (bore.bit.0 * 1.2).max(1.0));
    let height = depth.0 * scale;
    let wide = (bore.bit.0 * scale * 1.2).max(3.0);
    let corners = [
        (left, 0.0),
        (left + wide, 0.0),
        (left + wide, height),
        (left, height),
    ];
    let member = Shape::Area(corners.map(|(x, y)| Pos::new(x, y)).to_vec());
    picture.push(Item::plain(Ink::Wood, member));
    let at = Pos::new(left + wide / 2.0, height / 2.0);
    let radius = bore.bit.0 / 2.0 * scale;
    let circle = Shape::Circle { at, radius };
    picture.push(Item::about(
        Ink::BoreCircle,
        circle,
        About::Bore(bore.number),
        "",
    ));
    if bore.nail_plates > 0 {
        for y in [0.0, height] {
            let steel = vec![Pos::new(left, y), Pos::new(left + wide, y)];
            picture.push(Item::plain(Ink::Steel, Shape::Line(steel)));
        }
    }
    let wood = Size(((depth.0 - bore.bit.0) / 2.0).max(0.0));
    let (edge, size) = (plan.units.limit(wood), plan.units.size(bore.bit));
    let rows = [
        (0.0, at.y - radius, edge.as_str()),
        (at.y - radius, at.y + radius, size.as_str()),
        (at.y + radius, height, edge.as_str()),
    ];
    measures(picture, rows, (left + wide + 2.5, right), sizes);
}

/// The measures beside the member: ticks, a span and its words a row.
fn measures(
    picture: &mut Picture,
    rows: [(f64, f64, &str); 3],
    (x, right): (f64, f64),
    sizes: Type,
) {
    for (from, to, words) in rows {
        for y in [from, to] {
            let tick = vec![Pos::new(x - 1.0, y), Pos::new(x + 1.0, y)];
            picture.push(Item::plain(Ink::Dimension, Shape::Line(tick)));
        }
        let span = vec![Pos::new(x, from), Pos::new(x, to)];
        picture.push(Item::plain(Ink::Dimension, Shape::Line(span)));
        let at = Pos::new(
            x + 2.0,
            (from + to) / 2.0 + sizes.body * font::CAP_HEIGHT / 2.0,
        );
        let words = font::shorten(words, Weight::Regular, sizes.body, right - x - 2.0);
        picture.push(Item::plain(Ink::Dimension, plain(at, sizes.body, &words)));
    }
}

fn line(at: Pos, anchor: Anchor, size: f64, words: &str) -> Shape {
    Shape::Text(Text {
        at,
        anchor,
        size,
        weight: Weight::Bold,
        text: words.to_string(),
        upwards: false,
    })
}

fn plain(at: Pos, size: f64, words: &str) -> Shape {
    Shape::Text(Text {
        at,
        anchor: Anchor::Start,
        size,
        weight: Weight::Regular,
        text: words.to_string(),
        upwards: false,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::sample;

    #[test]
    fn cables_lie_in_their_bore_side_by_side() {
        let plan = sample::house();
        let design = Design::of(&plan);
        for (index, bore) in design
            .bores
            .iter()
            .enumerate()
            .filter(|(_, b)| b.within_rules)
        {
            let picture = section(&plan, &design, index, 70.0, (Type::SCREEN, Naming::Cable));
            let circle = |ink: fn(&Ink) -> bool| {
                let circles = picture.items.iter().filter(move |item| ink(&item.ink));
                circles.filter_map(|item| match item.shape {
                    Shape::Circle { at, radius } => Some((at, radius)),
                    _ => None,
                })
            };
            let (middle, hole) = circle(|ink| *ink == Ink::BoreCircle).next().unwrap();
            let ends: Vec<_> = circle(|ink| matches!(ink, Ink::CableEnd(_))).collect();
            assert_eq!(ends.len(), bore.cables.len());
            for (place, (at, radius)) in ends.iter().enumerate() {
                assert!(at.distance(middle) + radius <= hole + 1e-6);
                let apart = |(other, r): &(Pos, f64)| at.distance(*other) >= radius + r - 1e-6;
                assert!(ends[place + 1..].iter().all(apart));
            }
        }
    }

    #[test]
    fn the_wood_left_is_rounded_down() {
        let plan = sample::house();
        let mut design = Design::of(&plan);
        let in_a_2x4 =
            |bore: &Bore| design.ways.crossings[bore.crossing].wall == Some(crate::plan::WallId(6));
        let index = design.bores.iter().position(in_a_2x4).unwrap();
        design.bores[index].bit = Size::inches(1.0);
        let picture = section(&plan, &design, index, 70.0, (Type::SCREEN, Naming::Cable));
        let says = |words: &str| {
            picture.items.iter().any(|item| match &item.shape {
                Shape::Text(text) => text.text == words,
                _ => false,
            })
        };
        assert!(says("1 in") && says("1-1/4 in"));
    }

    #[test]
    fn a_bore_that_is_not_there_is_an_empty_picture() {
        let plan = sample::house();
        let picture = section(
            &plan,
            &Design::of(&plan),
            999,
            70.0,
            (Type::SCREEN, Naming::Cable),
        );
        assert!(picture.items.is_empty());
    }
}
