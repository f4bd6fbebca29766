//! A picture of the core as SVG: each item with the name of its ink, for the style sheet to dress.

use std::collections::BTreeMap;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::ops::Range;
use std::rc::Rc;

use borewright_core::picture::{
    About, Anchor, Ink, Item, Picture, SCREEN_MM, Shape, Text, Weight, trunk_width,
};
use borewright_core::shape::Pos;
use yew::prelude::*;
use yew::virtual_dom::Key;

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
    let draw = |(key, run): (String, Range<usize>)| {
        let items = from + run.start..from + run.end;
        html! { <InkRun {key} picture={props.picture.clone()} {items} chosen={props.chosen} /> }
    };
    html! { <>{ for runs.into_iter().map(draw) }</> }
}

/// The most items of a run.
const LONGEST_RUN: usize = 48;

/// Neighbouring items of one layer, so that what moves in one leaves the runs of others as they
/// are; each with a key that stays its own when another layer has a run more.
fn runs(items: &[Item]) -> Vec<(String, Range<usize>)> {
    let mut start = 0;
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    let of_one_layer = items.chunk_by(|a, b| layer(a.ink) == layer(b.ink));
    let parts = of_one_layer.flat_map(|same| same.chunks(LONGEST_RUN));
    parts
        .map(|part| {
            let layer = part.first().map_or("", |item| layer(item.ink));
            let count = counts.entry(layer).or_default();
            *count += 1;
            let run = start..start + part.len();
            start = run.end;
            (format!("{layer} {count}"), run)
        })
        .collect()
}

/// Inks that are drawn by turns are of one layer.
fn layer(ink: Ink) -> &'static str {
    match ink {
        Ink::WallPartition | Ink::WallFace | Ink::WallBearing | Ink::WallExterior => "walls",
        Ink::OpeningGap | Ink::OpeningLine | Ink::DoorSwing => "openings",
        Ink::Cable(_) | Ink::Trunk(_) => "ways",
        Ink::Drop | Ink::DropLetter => "drops",
        Ink::Leader | Ink::DropName => "names",
        _ => ink.class(),
    }
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
    let items = props.run();
    let draw = |(item, key)| draw(item, key, scale, props.chosen);
    html! { <>{ for items.iter().zip(keys(items)).map(draw) }</> }
}

/// A key for each item, so that one more or less of them leaves the others untouched: what it is
/// about, or else where it lies, and which of several such.
fn keys(items: &[Item]) -> Vec<Key> {
    let mut counts: BTreeMap<u64, u64> = BTreeMap::new();
    let identities = items.iter().map(identity);
    identities
        .map(|identity| {
            let count = counts.entry(identity).or_default();
            *count += 1;
            Key::from(format!("{identity:x} {count}"))
        })
        .collect()
}

/// Alike for items that are the same thing in two pictures.
fn identity(item: &Item) -> u64 {
    let mut hasher = DefaultHasher::new();
    item.ink.class().hash(&mut hasher);
    match (item.about, &item.shape) {
        (Some(about), _) => about.hash(&mut hasher),
        (None, Shape::Line(points) | Shape::Area(points)) => {
            for point in points {
                place(*point).hash(&mut hasher);
            }
        }
        (None, Shape::Circle { at, .. }) => place(*at).hash(&mut hasher),
        (None, Shape::Text(text)) => text.text.hash(&mut hasher),
    }
    hasher.finish()
}

fn place(at: Pos) -> (u64, u64) {
    (at.x.to_bits(), at.y.to_bits())
}

fn draw(item: &Item, key: Key, scale: f64, chosen: Option<About>) -> Html {
    let is_chosen = (item.about.is_some() && item.about == chosen).then_some("true");
    let look = Look {
        key,
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
    key: Key,
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
            <path key={self.key} class="Ink" data-ink={self.ink} data-style={self.style} data-chosen={self.chosen}
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
            <text key={self.key} class="Ink" data-ink={self.ink} data-style={self.style} data-chosen={self.chosen}
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

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

    wasm_bindgen_test_configure!(run_in_browser);

    fn line(ink: Ink, x: f64) -> Item {
        Item::plain(ink, Shape::Line(vec![Pos::new(x, 0.0), Pos::new(x, 1.0)]))
    }

    #[wasm_bindgen_test]
    fn one_more_item_leaves_the_keys_of_the_others() {
        let few = [0.0, 1.0, 1.0, 2.0].map(|x| line(Ink::Trunk(2), x));
        let more = [3.0, 0.0, 1.0, 1.0, 2.0].map(|x| line(Ink::Trunk(2), x));
        assert_eq!(keys(&few), keys(&more)[1..]);
        let different: std::collections::HashSet<Key> = keys(&more).into_iter().collect();
        assert_eq!(different.len(), 5, "two alike are told apart");
    }

    #[wasm_bindgen_test]
    fn one_more_run_leaves_the_keys_of_the_others() {
        let walls = [Ink::WallPartition, Ink::WallFace, Ink::WallPartition];
        let few = [&walls[..], &[Ink::Drop, Ink::DropLetter]].concat();
        let more = [&walls[..], &[Ink::Leader], &[Ink::Drop, Ink::DropLetter]].concat();
        let of = |inks: &[Ink]| {
            let items: Vec<Item> = inks.iter().map(|ink| line(*ink, 0.0)).collect();
            runs(&items)
        };
        assert_eq!(
            of(&few),
            [("walls 1".into(), 0..3), ("drops 1".into(), 3..5)]
        );
        let keys: Vec<String> = of(&more).into_iter().map(|(key, _)| key).collect();
        assert_eq!(keys, ["walls 1", "names 1", "drops 1"]);
    }
}
