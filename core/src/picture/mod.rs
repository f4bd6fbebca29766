//! What is drawn, once, for the screen and for paper.
//!
//! A [`Picture`] is a list of items in drawing millimetres with the meaning of their ink and no
//! colour: the page maps [`Ink`] to a class, paper maps it to line weight, dash and fill. Sizes of
//! text and symbols are in paper millimetres, so the same drawing is legible at every scale. A
//! screen is paper whose millimetre is [`SCREEN_MM`] to a CSS pixel. Nothing here decides anything
//! about the plan; it only shows it.

mod corner;
mod dimension;
mod elevation;
pub mod font;
mod hatch;
mod ink;
mod labels;
pub mod legend;
mod level;
mod marks;
mod obstacles;
mod openings;
#[cfg(test)]
pub(crate) mod sample;
mod section;
mod symbols;
mod trunks;
mod walls;

pub use corner::corner;
#[cfg(test)]
pub(crate) use elevation::measured::from as measured;
pub use elevation::{best_side, elevation};
pub use font::Weight;
pub use ink::{CABLE_STYLES, Ink, casing_width, trunk_width};
pub use level::{Showing, Stress, draw as level, usual_heights};
pub use section::{Naming, section, section_width};
pub use symbols::drop_place;
pub use trunks::way_pieces;

use crate::plan::{CableId, DropId, KeepOutId, OpeningId, PowerRunId, RoomId, WallId};
use crate::shape::Pos;

/// Paper millimetres to one CSS pixel: 1/96 in.
pub const SCREEN_MM: f64 = 25.4 / 96.0;

/// A drawing to scale.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Picture {
    /// Drawing millimetres to one paper millimetre: 48 at 1/4 in = 1 ft.
    pub scale: f64,
    /// What is drawn, from the bottom up.
    pub items: Vec<Item>,
}

/// One thing drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What its ink means.
    pub ink: Ink,
    /// Its shape, in drawing millimetres.
    pub shape: Shape,
    /// What it is about, for pointing at and for hearing; `None` for what only decorates.
    pub about: Option<About>,
    /// What it is, in words, for those who hear the page; empty for what only decorates.
    pub words: String,
    /// Stands back in this step of the job.
    pub faint: bool,
}

/// What an item of a picture is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum About {
    /// A wall.
    Wall(WallId),
    /// A door, window or cased opening.
    Opening(OpeningId),
    /// A room.
    Room(RoomId),
    /// A keep-out.
    KeepOut(KeepOutId),
    /// A power run.
    PowerRun(PowerRunId),
    /// A drop.
    Drop(DropId),
    /// A cable where it runs alone.
    Cable(CableId),
    /// A line of the drill list, by its number.
    Bore(u32),
    /// The closet.
    Closet,
    /// A finding, as an index into [`crate::design::Design::findings`].
    Finding(usize),
}

/// A shape in drawing millimetres, x to the right and y down.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A chain of lines.
    Line(Vec<Pos>),
    /// An area: corners in order, the first not repeated.
    Area(Vec<Pos>),
    /// A circle.
    Circle {
        /// Its centre.
        at: Pos,
        /// Its radius, drawing millimetres.
        radius: f64,
    },
    /// A line of text.
    Text(Text),
}

/// A line of text.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// Where its base line starts, is centred or ends.
    pub at: Pos,
    /// Which of these.
    pub anchor: Anchor,
    /// Font size in paper millimetres.
    pub size: f64,
    /// Its weight.
    pub weight: Weight,
    /// What is written.
    pub text: String,
    /// Turned to read upwards.
    pub upwards: bool,
}

/// Which point of a text's base line lies at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Anchor {
    /// The start.
    Start,
    /// The middle.
    Middle,
    /// The end.
    End,
}

/// Font sizes of a picture in paper millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Type {
    /// Running text.
    pub body: f64,
    /// Identities: drops, bores.
    pub id: f64,
}

impl Type {
    /// On paper: body 10 pt, identities 13 pt bold, to be read at arm's length.
    pub const PAPER: Type = Type {
        body: 10.0 * font::MM_PER_POINT,
        id: 13.0 * font::MM_PER_POINT,
    };
    /// On a screen: body 12 px, identities 13 px bold.
    pub const SCREEN: Type = Type {
        body: 12.0 * SCREEN_MM,
        id: 13.0 * SCREEN_MM,
    };
}

impl Item {
    /// An item that only decorates.
    pub fn plain(ink: Ink, shape: Shape) -> Self {
        Self {
            ink,
            shape,
            about: None,
            words: String::new(),
            faint: false,
        }
    }

    /// An item about something, with its words.
    pub fn about(ink: Ink, shape: Shape, about: About, words: impl Into<String>) -> Self {
        Self {
            about: Some(about),
            words: words.into(),
            ..Self::plain(ink, shape)
        }
    }

    /// The same, standing back.
    pub fn faint_if(self, faint: bool) -> Self {
        Self { faint, ..self }
    }
}

impl Picture {
    /// An empty picture at a scale.
    pub fn at_scale(scale: f64) -> Self {
        Self {
            scale,
            items: Vec::new(),
        }
    }

    /// Puts an item on top.
    pub fn push(&mut self, item: Item) {
        self.items.push(item);
    }

    /// Smallest and largest coordinates of everything drawn, text included; `None` when empty.
    pub fn bounds(&self) -> Option<(Pos, Pos)> {
        let boxes = self
            .items
            .iter()
            .filter_map(|item| item.shape.bounds(self.scale));
        boxes.reduce(|(low, high), (a, b)| {
            (
                Pos::new(low.x.min(a.x), low.y.min(a.y)),
                Pos::new(high.x.max(b.x), high.y.max(b.y)),
            )
        })
    }
}

impl Shape {
    /// Smallest and largest coordinates at a scale; `None` for a line without points.
    pub fn bounds(&self, scale: f64) -> Option<(Pos, Pos)> {
        match self {
            Self::Line(points) | Self::Area(points) => {
                let first = *points.first()?;
                Some(points.iter().fold((first, first), |(low, high), p| {
                    (
                        Pos::new(low.x.min(p.x), low.y.min(p.y)),
                        Pos::new(high.x.max(p.x), high.y.max(p.y)),
                    )
                }))
            }
            Self::Circle { at, radius } => {
                let reach = Pos::new(*radius, *radius);
                Some((*at - reach, *at + reach))
            }
            Self::Text(text) => Some(text.bounds(scale)),
        }
    }
}

impl Text {
    /// The box its letters may fill, in drawing millimetres.
    pub fn bounds(&self, scale: f64) -> (Pos, Pos) {
        let size = self.size * scale;
        let width = font::width(&self.text, self.weight) * size;
        let before = match self.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => width / 2.0,
            Anchor::End => width,
        };
        let (over, under) = (font::ASCENT * size, font::DESCENT * size);
        let (low, high) = if self.upwards {
            (Pos::new(-over, before - width), Pos::new(under, before))
        } else {
            (Pos::new(-before, -over), Pos::new(width - before, under))
        };
        (self.at + low, self.at + high)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bounds_take_in_text_whichever_way_it_reads() {
        let text = |anchor, upwards| Text {
            at: Pos::new(100.0, 100.0),
            anchor,
            size: 4.0,
            weight: Weight::Bold,
            text: String::from("D12"),
            upwards,
        };
        let width = font::width("D12", Weight::Bold) * 4.0 * 48.0;
        let (low, high) = text(Anchor::End, false).bounds(48.0);
        assert!((high.x - 100.0).abs() < 1e-9 && (high.x - low.x - width).abs() < 1e-9);
        let (low, high) = text(Anchor::Start, true).bounds(48.0);
        assert!((high.y - 100.0).abs() < 1e-9 && (high.y - low.y - width).abs() < 1e-9);
        assert!(low.x < 100.0 && high.x > 100.0);
    }

    #[test]
    fn an_empty_picture_has_no_bounds() {
        assert_eq!(Picture::at_scale(48.0).bounds(), None);
    }
}
