//! A link as a printed code, large enough to be read from dusty paper.

use super::paper::Area;
use super::table::{BODY, text};
use crate::file::link::Modules;
use crate::picture::font::{self, Weight};
use crate::picture::{Anchor, Ink, Item, Picture, Shape};
use crate::shape::Pos;
use crate::tongue::Tongue;

/// Side of a module, millimetres: three dots at 150 dots to the inch.
const MODULE: f64 = 0.52;
/// White border, modules: the four that readers ask for.
const QUIET: f64 = 4.0;

/// Width of what is told beside a code.
pub(super) const TOLD: f64 = 22.0;

/// Width of the white border of a code.
pub(super) fn border() -> f64 {
    QUIET * MODULE
}

/// Side of a code with its white border, millimetres.
pub(super) fn side(code: &Modules) -> f64 {
    (code.size as f64 + 2.0 * QUIET) * MODULE
}

/// Draws the code of a plan's link into the upper left of an area, and beside it what it opens.
pub(super) fn draw_told(picture: &mut Picture, code: &Modules, area: Area, tongue: Tongue) {
    let (side, leading) = (side(code), BODY * 1.25);
    draw(picture, code, area);
    let at = area.low + Pos::new(side + 1.0, side / 2.0 - leading);
    let words = tongue.say("This plan on your phone: nothing to install.");
    let room = (area.high.x - at.x).max(TOLD - 2.0);
    let lines = font::wrap(&words, Weight::Regular, BODY, room);
    for (place, line) in lines.iter().enumerate() {
        let at = at + Pos::new(0.0, place as f64 * leading);
        picture.push(text(at, Anchor::Start, BODY, Weight::Regular, line));
    }
}

/// Draws a code into the upper left of an area; dark modules of a row that touch are one shape.
pub(super) fn draw(picture: &mut Picture, code: &Modules, area: Area) {
    let corner = area.low + Pos::new(QUIET, QUIET) * MODULE;
    for row in 0..code.size {
        let mut column = 0;
        while column < code.size {
            let run = (column..code.size)
                .take_while(|c| code.is_dark(*c, row))
                .count();
            if run > 0 {
                bar(picture, corner, (column, row), run);
            }
            column += run.max(1);
        }
    }
}

fn bar(picture: &mut Picture, corner: Pos, (column, row): (usize, usize), run: usize) {
    let low = corner + Pos::new(column as f64, row as f64) * MODULE;
    let high = low + Pos::new(run as f64, 1.0) * MODULE;
    let corners = vec![low, Pos::new(high.x, low.y), high, Pos::new(low.x, high.y)];
    picture.push(Item::plain(Ink::Solid, Shape::Area(corners)));
}
