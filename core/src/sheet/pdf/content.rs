//! What stands on a page, in the page description language: points from the lower left corner.

use pdf_writer::Content;
use pdf_writer::types::LineJoinStyle;

use super::face::{Face, NAMES};
use crate::picture::Anchor;
use crate::picture::font::{self, MM_PER_POINT, Weight};
use crate::shape::Pos;
use crate::sheet::Page;
use crate::sheet::mark::Mark;
use crate::sheet::pen::{Fill, Pen};
use pdf_writer::{Name, Str};

/// Distance of a quarter circle's handles from its ends, for a radius of 1.
const HANDLE: f64 = 0.552_284_75;

/// Writes a page's marks; notes which glyphs of the faces it uses.
pub(super) fn write(page: &Page, faces: &mut [Face; 2]) -> Vec<u8> {
    let mut sheet = Sheet {
        content: Content::new(),
        height: page.extent.height,
        faces,
    };
    sheet.content.set_line_join(LineJoinStyle::RoundJoin);
    for mark in page.marks() {
        sheet.mark(&mark);
    }
    sheet.content.finish().into_vec()
}

struct Sheet<'f, 'd> {
    content: Content,
    height: f64,
    faces: &'f mut [Face<'d>; 2],
}

impl Sheet<'_, '_> {
    fn mark(&mut self, mark: &Mark) {
        match mark {
            Mark::Path {
                points,
                closed,
                pen,
                white,
            } => {
                self.path(points, *closed);
                self.paint(pen, *white);
            }
            Mark::Circle { at, radius, pen } => {
                self.circle(*at, *radius);
                self.paint(pen, false);
            }
            Mark::Text {
                at,
                anchor,
                size,
                weight,
                text,
                upwards,
            } => self.text(*at, *anchor, *size, *weight, text, *upwards),
        }
    }

    /// A place in points, to a hundredth: 3.5 micrometres.
    fn point(&self, at: Pos) -> (f32, f32) {
        (points(at.x), points(self.height - at.y))
    }

    fn path(&mut self, chain: &[Pos], closed: bool) {
        for (place, at) in chain.iter().enumerate() {
            let (x, y) = self.point(*at);
            match place {
                0 => self.content.move_to(x, y),
                _ => self.content.line_to(x, y),
            };
        }
        if closed && !chain.is_empty() {
            self.content.close_path();
        }
    }

    fn circle(&mut self, at: Pos, radius: f64) {
        let place = |x: f64, y: f64| self.point(at + Pos::new(x, y) * radius);
        let quarter = |(x, y): (f64, f64)| {
            // From (x, y) a quarter on to (-y, x).
            let one = place(x - y * HANDLE, y + x * HANDLE);
            let two = place(-y + x * HANDLE, x + y * HANDLE);
            (one, two, place(-y, x))
        };
        let start = place(1.0, 0.0);
        let arcs = [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)].map(quarter);
        self.content.move_to(start.0, start.1);
        for ((ax, ay), (bx, by), (x, y)) in arcs {
            self.content.cubic_to(ax, ay, bx, by, x, y);
        }
        self.content.close_path();
    }

    /// Fills and strokes the path just made.
    fn paint(&mut self, pen: &Pen, white: bool) {
        let grey = |fill| if fill == Fill::White { 1.0 } else { 0.0 };
        if pen.fill != Fill::Open {
            self.content.set_fill_gray(grey(pen.fill));
        }
        if let Some(weight) = pen.stroke {
            self.content.set_stroke_gray(if white { 1.0 } else { 0.0 });
            self.content.set_line_width(points(weight));
            let dashes = pen.dashes.iter().map(|length| points(*length));
            self.content.set_dash_pattern(dashes, 0.0);
        }
        match (pen.fill != Fill::Open, pen.stroke.is_some()) {
            (true, true) => self.content.fill_nonzero_and_stroke(),
            (true, false) => self.content.fill_nonzero(),
            (false, true) => self.content.stroke(),
            (false, false) => self.content.end_path(),
        };
    }

    fn text(
        &mut self,
        at: Pos,
        anchor: Anchor,
        size: f64,
        weight: Weight,
        text: &str,
        upwards: bool,
    ) {
        let place = usize::from(weight == Weight::Bold);
        let glyphs = self.faces[place].encode(text);
        let back = font::width(text, weight)
            * size
            * match anchor {
                Anchor::Start => 0.0,
                Anchor::Middle => 0.5,
                Anchor::End => 1.0,
            };
        let along = if upwards {
            Pos::new(0.0, -1.0)
        } else {
            Pos::new(1.0, 0.0)
        };
        let (x, y) = self.point(at - along * back);
        let turn = if upwards {
            [0.0, 1.0, -1.0, 0.0]
        } else {
            [1.0, 0.0, 0.0, 1.0]
        };
        self.content.set_fill_gray(0.0);
        self.content.begin_text();
        self.content.set_font(Name(NAMES[place]), points(size));
        self.content
            .set_text_matrix([turn[0], turn[1], turn[2], turn[3], x, y]);
        self.content.show(Str(&glyphs));
        self.content.end_text();
    }
}

fn points(mm: f64) -> f32 {
    ((mm / MM_PER_POINT * 100.0).round() / 100.0) as f32
}
