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
    let longest = if items.len() > MANY {
        MANY
    } else {
        LONGEST_RUN
    };
    let runs = runs(items.get(from..to).unwrap_or_default(), longest);
    let draw = |(key, run): (String, Range<usize>)| {
        let items = from + run.start..from + run.end;
        html! { <InkRun {key} picture={props.picture.clone()} {items} chosen={props.chosen} /> }
    };
    html! { <>{ for runs.into_iter().map(draw) }</> }
}

/// The most items of a run.
const LONGEST_RUN: usize = 48;

/// A picture of more items is drawn with few elements. A house of 350 cables has about 1,500.
const MANY: usize = 2_500;

/// Neighbouring items of one layer, so that what moves in one leaves the runs of others as they
/// are; each with a key that stays its own when another layer has a run more.
fn runs(items: &[Item], longest: usize) -> Vec<(String, Range<usize>)> {
    let mut start = 0;
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    let of_one_layer = items.chunk_by(|a, b| layer(a.ink) == layer(b.ink));
    let parts = of_one_layer.flat_map(|same| same.chunks(longest));
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
    if props.picture.items.len() > MANY {
        return html! { <>{ for together(items, scale, props.chosen_here()) }</> };
    }
    let draw = |(item, key)| draw(item, key, scale, props.chosen);
    html! { <>{ for items.iter().zip(keys(items)).map(draw) }</> }
}

/// Lines, areas and circles of one look as one path: a browser lays out a few elements much faster than
/// thousands. Texts, and what is chosen, stay by themselves.
fn together(items: &[Item], scale: f64, chosen: Option<About>) -> Vec<Html> {
    let is_chosen = |item: &Item| item.about.is_some() && item.about == chosen;
    let alone = |item: &Item| is_chosen(item) || matches!(item.shape, Shape::Text(_));
    let alike = |a: &Item, b: &Item| {
        let look = |item: &Item| (item.ink, item.faint);
        !alone(a) && !alone(b) && look(a) == look(b)
    };
    let parts = items.chunk_by(|a, b| alike(a, b)).enumerate();
    let drawn = parts.map(|(place, part)| match part {
        [one] => draw(one, Key::from(place), scale, chosen),
        _ => {
            let d = part
                .iter()
                .filter_map(|item| outline(&item.shape))
                .collect();
            Look::of(&part[0], Key::from(place), None).path(d)
        }
    });
    drawn.collect()
}

/// The line of a shape; `None` for text.
fn outline(shape: &Shape) -> Option<String> {
    match shape {
        Shape::Line(points) => Some(chain(points)),
        Shape::Area(points) => Some(format!("{}Z", chain(points))),
        Shape::Circle { at, radius } => Some(circle(*at, *radius)),
        Shape::Text(_) => None,
    }
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
    let look = Look::of(item, key, is_chosen);
    match &item.shape {
        Shape::Text(text) => look.text(text, scale),
        shape => look.path(outline(shape).unwrap_or_default()),
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
    fn of(item: &Item, key: Key, chosen: Option<&'static str>) -> Self {
        Self {
            key,
            ink: item.ink.class(),
            style: style(item.ink),
            chosen,
            faint: item.faint.then_some("true"),
            width: width(item.ink),
            dashes: dashes(item.ink),
        }
    }

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
    let mut data = String::with_capacity(points.len() * 16);
    for point in points {
        data.push(if data.is_empty() { 'M' } else { 'L' });
        push_tenths(&mut data, point.x);
        data.push(' ');
        push_tenths(&mut data, point.y);
    }
    data
}

/// Writes a number to one place after the point, which the general way takes several times as long for.
fn push_tenths(data: &mut String, number: f64) {
    let tenths = (number * 10.0).round() as i64;
    let (whole, rest) = (tenths.unsigned_abs() / 10, tenths.unsigned_abs() % 10);
    if tenths < 0 {
        data.push('-');
    }
    data.push_str(&whole.to_string());
    data.push('.');
    data.push_str(&rest.to_string());
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
    fn lines_are_written_to_a_tenth_of_a_millimetre() {
        let points = [(0.0, -0.04), (-0.26, 12.0), (1234.56, -7.5)];
        let points = points.map(|(x, y)| Pos::new(x, y));
        assert_eq!(chain(&points), "M0.0 0.0L-0.3 12.0L1234.6 -7.5");
        assert_eq!(chain(&[]), "");
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
            runs(&items, LONGEST_RUN)
        };
        assert_eq!(
            of(&few),
            [("walls 1".into(), 0..3), ("drops 1".into(), 3..5)]
        );
        let keys: Vec<String> = of(&more).into_iter().map(|(key, _)| key).collect();
        assert_eq!(keys, ["walls 1", "names 1", "drops 1"]);
    }
}
