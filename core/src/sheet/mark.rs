//! A page taken apart into marks: shapes and text in page millimetres with their pens.

use super::pen::{Fill, Pen, is_reversed, pen};
use crate::picture::{Anchor, Ink, Item, Picture, Shape, Weight};
use crate::shape::Pos;

/// One mark on a page, from the bottom up.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Mark {
    /// A chain of lines or an area.
    Path {
        points: Vec<Pos>,
        closed: bool,
        pen: Pen,
        white: bool,
    },
    /// A circle.
    Circle { at: Pos, radius: f64, pen: Pen },
    /// A line of text.
    Text {
        at: Pos,
        anchor: Anchor,
        size: f64,
        weight: Weight,
        text: String,
        upwards: bool,
    },
}

#[cfg(test)]
impl Mark {
    /// How far down it reaches.
    pub fn bottom(&self) -> f64 {
        match self {
            Self::Path { points, .. } => points.iter().map(|at| at.y).fold(0.0, f64::max),
            Self::Circle { at, radius, .. } => at.y + radius,
            Self::Text { at, .. } => at.y,
        }
    }
}

/// A picture laid on a page.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Laid {
    /// What is drawn.
    pub picture: Picture,
    /// Where the picture's origin lies on the page, millimetres.
    pub origin: Pos,
}

impl Laid {
    /// Its marks in page millimetres.
    pub fn marks(&self) -> impl Iterator<Item = Mark> + '_ {
        self.picture.items.iter().map(|item| self.mark(item))
    }

    fn mark(&self, item: &Item) -> Mark {
        let place = |at: Pos| self.origin + at * (1.0 / self.picture.scale);
        let chain = |points: &[Pos], closed| Mark::Path {
            points: points.iter().map(|at| place(*at)).collect(),
            closed,
            pen: path_pen(item.ink, closed),
            white: is_reversed(item.ink),
        };
        match &item.shape {
            Shape::Line(points) => chain(points, false),
            Shape::Area(points) => chain(points, true),
            Shape::Circle { at, radius } => Mark::Circle {
                at: place(*at),
                radius: radius / self.picture.scale,
                pen: pen(item.ink),
            },
            Shape::Text(text) => Mark::Text {
                at: place(text.at),
                anchor: text.anchor,
                size: text.size,
                weight: text.weight,
                text: printable(&text.text),
                upwards: text.upwards,
            },
        }
    }
}

/// Signs that only steer a printer or turn the direction of reading become spaces.
fn printable(text: &str) -> String {
    let steers = |sign: char| {
        sign.is_control()
            || matches!(sign, '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}')
    };
    text.chars()
        .map(|sign| if steers(sign) { ' ' } else { sign })
        .collect()
}

/// An open chain is never filled.
fn path_pen(ink: Ink, closed: bool) -> Pen {
    let pen = pen(ink);
    match closed {
        true => pen,
        false => Pen {
            fill: Fill::Open,
            ..pen
        },
    }
}
