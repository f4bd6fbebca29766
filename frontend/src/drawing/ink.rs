//! A picture of the core as SVG: each item with the name of its ink, for the style sheet to dress.

use std::ops::Range;
use std::rc::Rc;

use borewright_core::picture::{
    About, Anchor, Ink, Item, Picture, SCREEN_MM, Shape, Text, Weight, trunk_width,
};
use borewright_core::shape::Pos;
use yew::prelude::*;

use crate::parts::{Piece, pieces};

/// What a [`PictureInk`] draws.
#[derive(Properties)]
pub struct PictureInkProps {
    /// The picture, in the coordinates of the group it stands in.
    pub picture: Rc<Picture>,
    /// Which of its items, by their places; all of them where it is not said.
    #[prop_or_default]
    pub part: Option<(usize, usize)>,
    /// What of it is chosen.
    #[prop_or_default]
    pub chosen: Option<About>,
}

impl PartialEq for PictureInkProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.picture, &other.picture)
            && (self.part, self.chosen) == (other.part, other.chosen)
    }
}

/// The items of a picture, from the bottom up.
#[component]
pub fn PictureInk(props: &PictureInkProps) -> Html {
    let items = &props.picture.items;
    let (from, to) = props.part.unwrap_or((0, items.len()));
    let runs = runs(items.get(from..to).unwrap_or_default());
    let draw = |run: Range<usize>| {
        let items = from + run.start..from + run.end;
        html! { <InkRun picture={props.picture.clone()} {items} chosen={props.chosen} /> }
    };
    html! { <>{ for runs.into_iter().map(draw) }</> }
}

/// The most items of a run.
const LONGEST_RUN: usize = 48;

/// Neighbouring items of one ink, so that what moves in one ink leaves the runs of others as they are.
fn runs(items: &[Item]) -> Vec<Range<usize>> {
    let mut start = 0;
    let of_one_ink = items.chunk_by(|a, b| a.ink.class() == b.ink.class());
    let parts = of_one_ink.flat_map(|same| same.chunks(LONGEST_RUN));
    parts
        .map(|part| {
            let run = start..start + part.len();
            start = run.end;
            run
        })
        .collect()
}

/// What an [`InkRun`] draws.
#[derive(Properties)]
struct InkRunProps {
    picture: Rc<Picture>,
    items: Range<usize>,
    chosen: Option<About>,
}

impl InkRunProps {
    fn run(&self) -> &[Item] {
        let all = &self.picture.items;
        all.get(self.items.clone()).unwrap_or_default()
    }

    /// What is chosen, if it is among these items.
    fn chosen_here(&self) -> Option<About> {
        let chosen = self.chosen;
        chosen.filter(|_| self.run().iter().any(|item| item.about == chosen))
    }
}

/// By what is drawn: while one thing moves, most runs of the next picture are as they were.
impl PartialEq for InkRunProps {
    fn eq(&self, other: &Self) -> bool {
        self.picture.scale == other.picture.scale
            && self.chosen_here() == other.chosen_here()
            && self.run() == other.run()
    }
}

#[component]
fn InkRun(props: &InkRunProps) -> Html {
    let scale = props.picture.scale;
    let draw = |item: &Item| draw(item, scale, props.chosen);
    html! { <>{ for props.run().iter().map(draw) }</> }
}

fn draw(item: &Item, scale: f64, chosen: Option<About>) -> Html {
    let is_chosen = (item.about.is_some() && item.about == chosen).then_some("true");
    let look = Look {
        ink: item.ink.class(),
        style: style(item.ink),
        chosen: is_chosen,
        faint: item.faint.then_some("true"),
        width: width(item.ink),
        dashes: dashes(item.ink),
    };
    match &item.shape {
        Shape::Line(points) => look.path(chain(points)),
        Shape::Area(points) => look.path(format!("{}Z", chain(points))),
        Shape::Circle { at, radius } => look.path(circle(*at, *radius)),
        Shape::Text(text) => look.text(text, scale),
    }
}

/// How an item looks, apart from its shape.
struct Look {
    ink: &'static str,
    style: Option<String>,
    chosen: Option<&'static str>,
    faint: Option<&'static str>,
    width: Option<String>,
    dashes: Option<String>,
}

impl Look {
    fn path(self, d: String) -> Html {
        html! {
            <path class="Ink" data-ink={self.ink} data-style={self.style} data-chosen={self.chosen}
                data-faint={self.faint} stroke-width={self.width} stroke-dasharray={self.dashes} {d} />
        }
    }

    fn text(self, text: &Text, scale: f64) -> Html {
        let size = format!("{:.3}", text.size * scale);
        let anchor = match text.anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        let weight = (text.weight == Weight::Bold).then_some("700");
        let turn = if text.upwards { " rotate(-90)" } else { "" };
        let transform = format!("translate({:.2} {:.2}){turn}", text.at.x, text.at.y);
        html! {
            <text class="Ink" data-ink={self.ink} data-style={self.style} data-chosen={self.chosen}
                data-faint={self.faint} font-size={size} font-weight={weight} text-anchor={anchor}
                {transform}>{ figures(&text.text) }</text>
        }
    }
}

/// Text with its fractions set.
fn figures(text: &str) -> Html {
    let set = |piece: Piece| match piece {
        Piece::Plain(text) => html! { { text } },
        Piece::Joint => html! { <tspan class="Joint">{ "-" }</tspan> },
        Piece::Fraction(text) => html! { <tspan class="Fraction">{ text }</tspan> },
    };
    html! { <>{ for pieces(text).into_iter().map(set) }</> }
}

/// Which of several like inks, for what is told apart by colour too.
fn style(ink: Ink) -> Option<String> {
    match ink {
        Ink::Cable(style) | Ink::CableEnd(style) => Some(style.to_string()),
        _ => None,
    }
}

/// Line width in pixels, where it depends on more than the kind of ink.
fn width(ink: Ink) -> Option<String> {
    match ink {
        Ink::Trunk(count) => Some(format!("{:.2}", trunk_width(count) / SCREEN_MM)),
        _ => None,
    }
}

/// Dash and gap in pixels.
fn dashes(ink: Ink) -> Option<String> {
    let lengths = ink
        .dashes()
        .iter()
        .map(|mm| format!("{:.1}", mm / SCREEN_MM));
    let lengths: Vec<String> = lengths.collect();
    (!lengths.is_empty()).then(|| lengths.join(" "))
}

/// Path data of a chain of lines.
pub fn chain(points: &[Pos]) -> String {
    let points: Vec<String> = points
        .iter()
        .map(|p| format!("{:.1} {:.1}", p.x, p.y))
        .collect();
    if points.is_empty() {
        String::new()
    } else {
        format!("M{}", points.join("L"))
    }
}

fn circle(at: Pos, radius: f64) -> String {
    let (x, y, r) = (at.x - radius, at.y, radius);
    format!(
        "M{x:.2} {y:.2}a{r:.2} {r:.2} 0 1 0 {:.2} 0a{r:.2} {r:.2} 0 1 0 {:.2} 0Z",
        2.0 * r,
        -2.0 * r
    )
}
