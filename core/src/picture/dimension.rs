//! Dimension lines: from an end to a place, with the figure over the line.

use super::font::{self, Weight};
use super::{Anchor, Ink, Item, Picture, Shape, Text, Type};
use crate::shape::Pos;

/// Half length of the slash at both ends, paper millimetres.
const SLASH: f64 = 1.1;
/// Space between figure and line, paper millimetres.
const LIFT: f64 = 0.7;

/// Height of a row of dimensions with its figures, paper millimetres.
pub(super) fn pitch(sizes: Type) -> f64 {
    sizes.body * 1.45
}

/// A dimension along x between two places, on the line y; drawing millimetres. A figure wider than
/// its span stands beside it, on the right hand where `beside_right`.
pub(super) fn across(picture: &mut Picture, span: &Span, y: f64, sizes: Type) {
    let ends = [Pos::new(span.from, y), Pos::new(span.to, y)];
    line(picture, ends);
    let scale = picture.scale;
    let gap = (SLASH + LIFT) * scale;
    let low = y + sizes.body * font::CAP_HEIGHT / 2.0 * scale;
    let (at, anchor) = match (span.fits(sizes, scale), span.beside_right) {
        (true, _) => (
            Pos::new((span.from + span.to) / 2.0, y - LIFT * scale),
            Anchor::Middle,
        ),
        (false, true) => (Pos::new(span.to + gap, low), Anchor::Start),
        (false, false) => (Pos::new(span.from - gap, low), Anchor::End),
    };
    figure(picture, at, anchor, &span.words, false, sizes);
}

/// What a dimension along x measures and says.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Span {
    /// Its left end, drawing millimetres.
    pub from: f64,
    /// Its right end.
    pub to: f64,
    /// Its figure.
    pub words: String,
    /// A figure that does not fit stands at the right end rather than at the left one.
    pub beside_right: bool,
}

impl Span {
    fn wide(&self, sizes: Type, scale: f64) -> f64 {
        font::width(&self.words, Weight::Regular) * sizes.body * scale
    }

    fn fits(&self, sizes: Type, scale: f64) -> bool {
        self.wide(sizes, scale) + 2.0 * SLASH * scale <= self.to - self.from
    }

    /// What it takes up along x, drawing millimetres: its line and its figure.
    pub fn reach(&self, sizes: Type, scale: f64) -> (f64, f64) {
        let slash = SLASH * scale;
        let beside = match self.fits(sizes, scale) {
            true => 0.0,
            false => self.wide(sizes, scale) + LIFT * scale * 2.0,
        };
        match self.beside_right {
            true => (self.from - slash, self.to + slash + beside),
            false => (self.from - slash - beside, self.to + slash),
        }
    }
}

/// A dimension along y between two places, on the line x; its figure reads upwards.
pub(super) fn upright(picture: &mut Picture, span: (f64, f64), x: f64, words: &str, sizes: Type) {
    let ends = [Pos::new(x, span.0), Pos::new(x, span.1)];
    line(picture, ends);
    let middle = Pos::new(x - LIFT * picture.scale, (span.0 + span.1) / 2.0);
    figure(picture, middle, Anchor::Middle, words, true, sizes);
}

fn line(picture: &mut Picture, ends: [Pos; 2]) {
    let slash = Pos::new(SLASH, -SLASH) * picture.scale;
    for end in ends {
        let stroke = Shape::Line(vec![end - slash, end + slash]);
        picture.push(Item::plain(Ink::Dimension, stroke));
    }
    picture.push(Item::plain(Ink::Dimension, Shape::Line(ends.to_vec())));
}

fn figure(picture: &mut Picture, at: Pos, anchor: Anchor, words: &str, upwards: bool, sizes: Type) {
    let text = Text {
        at,
        anchor,
        size: sizes.body,
        weight: Weight::Regular,
        text: words.to_string(),
        upwards,
    };
    picture.push(Item::plain(Ink::Dimension, Shape::Text(text)));
}

/// Puts spans into rows so that none touches another of its row. Returns the row of each.
pub(super) fn rows(reaches: &[(f64, f64)]) -> Vec<usize> {
    let mut taken: Vec<Vec<(f64, f64)>> = Vec::new();
    let mut rows = Vec::new();
    for reach in reaches {
        let free = |row: &Vec<(f64, f64)>| row.iter().all(|r| r.1 <= reach.0 || reach.1 <= r.0);
        let row = taken.iter().position(free).unwrap_or(taken.len());
        if row == taken.len() {
            taken.push(Vec::new());
        }
        taken[row].push(*reach);
        rows.push(row);
    }
    rows
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spans_that_touch_take_another_row() {
        let spans = [(0.0, 10.0), (5.0, 15.0), (10.0, 20.0), (16.0, 30.0)];
        assert_eq!(rows(&spans), [0, 1, 0, 1]);
    }

    #[test]
    fn a_figure_too_wide_for_its_span_stands_beside_it() {
        let span = Span {
            from: 0.0,
            to: 10.0,
            words: String::from("9' 5-1/4\""),
            beside_right: true,
        };
        let (left, right) = span.reach(Type::PAPER, 48.0);
        assert!(left > -60.0 && right > 600.0);
        let mut picture = Picture::at_scale(48.0);
        across(&mut picture, &span, 0.0, Type::PAPER);
        let (low, high) = picture.bounds().unwrap();
        assert!(low.x >= left && high.x <= right);
    }
}
