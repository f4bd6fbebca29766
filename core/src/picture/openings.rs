//! Doors, windows and cased openings in plan.

use std::f64::consts::FRAC_1_SQRT_2;

use super::walls::reach;
use super::{About, Ink, Item, Picture, Shape};
use crate::framing::LevelFraming;
use crate::plan::{Level, Opening, OpeningKind, Role, Wall};
use crate::shape::{Pos, Segment};

/// A door wider than this has two leaves, millimetres: 4 ft.
const TWO_LEAVES: f64 = 1220.0;
/// A door wider than this is an overhead door, millimetres: 7 ft.
const OVERHEAD: f64 = 2135.0;

/// Cosine and sine of every eleventh and a quarter degree up to a right angle.
const QUARTER: [(f64, f64); 9] = [
    (1.0, 0.0),
    (0.980785, 0.195090),
    (0.923880, 0.382683),
    (0.831470, 0.555570),
    (FRAC_1_SQRT_2, FRAC_1_SQRT_2),
    (0.555570, 0.831470),
    (0.382683, 0.923880),
    (0.195090, 0.980785),
    (0.0, 1.0),
];

/// Draws every opening of a level.
pub(super) fn draw(picture: &mut Picture, level: &Level, framing: &LevelFraming, faint: bool) {
    for opening in &level.openings {
        let wall = level.wall(opening.wall);
        if let Some((wall, line)) = wall.and_then(|wall| Some((wall, wall.line()?))) {
            draw_opening(picture, framing, opening, wall, &line, faint);
        }
    }
}

fn draw_opening(
    picture: &mut Picture,
    framing: &LevelFraming,
    opening: &Opening,
    wall: &Wall,
    line: &Segment,
    faint: bool,
) {
    let half = wall.width().0 / 2.0;
    let (near, far) = reach(opening);
    let corners = vec![
        line.at(near, -half),
        line.at(far, -half),
        line.at(far, half),
        line.at(near, half),
    ];
    let about = About::Opening(opening.id);
    let words = format!("{} in {}", opening.kind.name(), wall.label());
    let gap = Item::about(Ink::OpeningGap, Shape::Area(corners), about, words);
    picture.push(gap.faint_if(faint));
    let lines = match opening.kind {
        OpeningKind::Window => window(line, near, far, half),
        OpeningKind::Cased => edges(line, near, far, half),
        OpeningKind::Door if far - near > OVERHEAD => edges(line, near, far, half),
        OpeningKind::Door => Vec::new(),
    };
    for points in lines {
        let item = Item::about(Ink::OpeningLine, Shape::Line(points), about, "");
        picture.push(item.faint_if(faint));
    }
    if opening.kind == OpeningKind::Door && far - near <= OVERHEAD {
        for points in swings(framing, wall, line, near, far) {
            let item = Item::about(Ink::DoorSwing, Shape::Line(points), about, "");
            picture.push(item.faint_if(faint));
        }
    }
}

/// Both faces and the glass between them.
fn window(line: &Segment, near: f64, far: f64, half: f64) -> Vec<Vec<Pos>> {
    [-half, 0.0, half]
        .map(|aside| vec![line.at(near, aside), line.at(far, aside)])
        .to_vec()
}

/// Both faces.
fn edges(line: &Segment, near: f64, far: f64, half: f64) -> Vec<Vec<Pos>> {
    [-half, half]
        .map(|aside| vec![line.at(near, aside), line.at(far, aside)])
        .to_vec()
}

/// Leaves and the quarter circles they swing through.
fn swings(
    framing: &LevelFraming,
    wall: &Wall,
    line: &Segment,
    near: f64,
    far: f64,
) -> Vec<Vec<Pos>> {
    let side = inward(framing, wall, line, (near + far) / 2.0);
    if far - near > TWO_LEAVES {
        let middle = (near + far) / 2.0;
        return vec![
            leaf(line, near, middle, side),
            leaf(line, far, middle, side),
        ];
    }
    vec![leaf(line, near, far, side)]
}

/// The side a door of an outside wall opens to: inwards. Others open to the right.
fn inward(framing: &LevelFraming, wall: &Wall, line: &Segment, middle: f64) -> f64 {
    let inside = |aside: f64| framing.outline.contains(line.at(middle, aside));
    match wall.role {
        Role::Exterior if inside(-400.0) && !inside(400.0) => -1.0,
        _ => 1.0,
    }
}

/// From the hinge along the open leaf, and round to the other jamb.
fn leaf(line: &Segment, hinge: f64, jamb: f64, side: f64) -> Vec<Pos> {
    let width = jamb - hinge;
    let reach = width.abs();
    let swing = QUARTER
        .iter()
        .rev()
        .map(|(along, aside)| line.at(hinge + width * along, side * reach * aside));
    std::iter::once(line.at(hinge, 0.0)).chain(swing).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_leaf_is_as_long_as_its_opening_all_the_way_round() {
        let line = Segment::between(Pos::new(0.0, 0.0), Pos::new(4000.0, 0.0)).unwrap();
        let swing = leaf(&line, 1900.0, 1000.0, 1.0);
        let hinge = swing[0];
        assert!(
            swing[1..]
                .iter()
                .all(|p| (p.distance(hinge) - 900.0).abs() < 0.01)
        );
        assert_eq!(swing.last().map(|p| p.x), Some(1000.0));
    }
}
