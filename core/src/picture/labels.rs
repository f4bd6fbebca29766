//! Where text goes: never on text, on a symbol or on a path; aside with a leader where it is crowded.
//!
//! Labels are placed one after the other in the order given, each at the first free place of a fixed
//! row of places around what it names: near before far, the long form before the short one. So the
//! same picture always comes out the same. Places are looked for in paper millimetres.

use std::borrow::Cow;

use super::font::{self, Weight};
use super::obstacles::{Obstacles, Rect};
use super::{About, Anchor, Ink, Item, Shape, Text};
use crate::shape::Pos;
use crate::tongue::Tongue;

/// A text that names something.
#[derive(Clone, Debug)]
pub(super) struct Label {
    /// Places it may name the thing at, best first; drawing millimetres.
    pub anchors: Vec<Pos>,
    /// Room the thing itself takes around its place, paper millimetres.
    pub clear: f64,
    /// Forms of the text, longest first; each is a row of runs.
    pub forms: Vec<Vec<Run>>,
    /// How far it may go, paper millimetres; beyond that it is left out.
    pub reach: f64,
    /// Whether it may start on its very place rather than beside it.
    pub centred: bool,
    /// What its ink means.
    pub ink: Ink,
    /// What it is about.
    pub about: Option<About>,
    /// Stands back.
    pub faint: bool,
    /// Stands on paper of its own, over wood or hatching.
    pub paper: bool,
}

/// A stretch of text of one size and weight.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Run {
    pub text: String,
    pub size: f64,
    pub weight: Weight,
}

impl Run {
    /// A bold run.
    pub fn bold(text: impl Into<String>, size: f64) -> Self {
        Self {
            text: text.into(),
            size,
            weight: Weight::Bold,
        }
    }

    /// A regular run.
    pub fn plain(text: impl Into<String>, size: f64) -> Self {
        Self {
            text: text.into(),
            size,
            weight: Weight::Regular,
        }
    }

    fn width(&self) -> f64 {
        font::width(&self.text, self.weight) * self.size
    }
}

/// Labels in a tongue, before they are given their places.
pub(super) fn said(labels: &[Label], tongue: Tongue) -> Cow<'_, [Label]> {
    if tongue == Tongue::English {
        return Cow::Borrowed(labels);
    }
    let run = |run: &Run| Run {
        text: tongue.say(&run.text),
        ..run.clone()
    };
    let label = |label: &Label| Label {
        forms: label
            .forms
            .iter()
            .map(|form| form.iter().map(run).collect())
            .collect(),
        ..label.clone()
    };
    Cow::Owned(labels.iter().map(label).collect())
}

/// Farther than anything on the largest sheet, paper millimetres.
pub(super) const ANYWHERE: f64 = 600.0;

/// Distances tried, paper millimetres from the edge of what is named.
const DISTANCES: [f64; 17] = [
    0.5, 2.0, 4.0, 6.5, 9.0, 12.0, 16.0, 21.0, 27.0, 34.0, 45.0, 60.0, 80.0, 110.0, 150.0, 200.0,
    280.0,
];
/// A label farther off than this gets a leader, paper millimetres.
const NEAR: f64 = 1.5;
/// So far a label goes to have its leader seen, paper millimetres.
const FAR: f64 = 45.0;
/// A shorter form is taken once the long one would lie this much farther off, paper millimetres.
const FORM_WORTH: f64 = 9.0;
/// Free space around text, paper millimetres.
const AIR: f64 = 0.35;
/// Gap between two runs, as a share of the second's size.
const GAP: f64 = 0.3;

/// Sixteen directions, the ones read most easily first: right, left, above, below, then between.
const DIRECTIONS: [(f64, f64); 16] = [
    (1.0, 0.0),
    (-1.0, 0.0),
    (0.0, -1.0),
    (0.0, 1.0),
    (0.707, -0.707),
    (0.707, 0.707),
    (-0.707, -0.707),
    (-0.707, 0.707),
    (0.924, -0.383),
    (0.924, 0.383),
    (-0.924, -0.383),
    (-0.924, 0.383),
    (0.383, -0.924),
    (-0.383, -0.924),
    (0.383, 0.924),
    (-0.383, 0.924),
];

/// A place found for a label.
struct Spot {
    form: usize,
    rect: Rect,
    leader: Option<(Pos, Pos)>,
}

/// Within what labels are placed.
pub(super) struct Bounds {
    /// Places outside these corners are not used, drawing millimetres.
    pub frame: Option<(Pos, Pos)>,
    /// No more labels are placed once so much was asked of the obstacles.
    pub most: u64,
}

impl Bounds {
    /// Anywhere, for as long as it takes.
    pub const NONE: Self = Self {
        frame: None,
        most: u64::MAX,
    };
}

/// Places labels in order and returns what to draw. What found no place within its reach, or none in time,
/// is left out; `left_out` gets its index.
pub(super) fn place(
    labels: &[Label],
    obstacles: &mut Obstacles,
    bounds: &Bounds,
    scale: f64,
    left_out: &mut Vec<usize>,
) -> Vec<Item> {
    let paper = 1.0 / scale;
    let frame = bounds
        .frame
        .map(|(low, high)| Rect::new(low * paper, high * paper));
    let mut items = Vec::new();
    for (index, label) in labels.iter().enumerate() {
        let in_time = obstacles.asked() <= bounds.most;
        let found = in_time.then(|| find(label, obstacles, frame.as_ref(), paper));
        match found.flatten() {
            Some(spot) => {
                obstacles.add_text(spot.rect.grown(AIR));
                if let Some((from, to)) = spot.leader {
                    obstacles.add_leader(from, to);
                }
                items.extend(draw(label, &spot, scale));
            }
            None => left_out.push(index),
        }
    }
    items
}

/// The first free spot of a label.
fn find(label: &Label, obstacles: &Obstacles, frame: Option<&Rect>, paper: f64) -> Option<Spot> {
    let sizes: Vec<(f64, f64)> = label.forms.iter().map(|form| extent(form)).collect();
    let free = |rect: &Rect| {
        frame.is_none_or(|frame| frame.holds(rect)) && obstacles.is_free(&rect.grown(AIR))
    };
    if label.centred {
        for anchor in &label.anchors {
            for (form, (width, height)) in sizes.iter().enumerate() {
                let rect = Rect::around(*anchor * paper, *width, *height);
                if free(&rect) {
                    let leader = None;
                    return Some(Spot { form, rect, leader });
                }
            }
        }
    }
    let within = |reach: f64, clear: &dyn Fn(Pos, Pos) -> bool| {
        aside(label, reach, &sizes, paper, &free, clear)
    };
    let is_clear = |from, to| obstacles.is_clear(from, to);
    // A label far off is worse than a leader that runs along in a wall or a line, and a leader that would cross
    // another is better than no label, but only then. What need not be named, as a wall, is near its name.
    let must = label.reach >= ANYWHERE;
    let seen = |from, to| is_clear(from, to) && (!must || obstacles.is_seen(from, to));
    let strict = within(label.reach.min(FAR), &seen);
    let strict = strict.or_else(|| within(label.reach, &is_clear));
    // Where no leader fits without crossing another, it strikes out no text at least.
    let legible = |from, to| obstacles.is_legible(from, to);
    let last = || within(label.reach, &legible).or_else(|| within(label.reach, &|_, _| true));
    strict.or_else(|| must.then(last)?)
}

/// The first free spot beside a label's places whose leader may run where it would.
fn aside(
    label: &Label,
    reach: f64,
    sizes: &[(f64, f64)],
    paper: f64,
    free: &dyn Fn(&Rect) -> bool,
    clear: &dyn Fn(Pos, Pos) -> bool,
) -> Option<Spot> {
    for (form, distance) in order(sizes.len(), reach) {
        for anchor in &label.anchors {
            let at = *anchor * paper;
            for direction in DIRECTIONS {
                let rect = beside(at, label.clear + distance, sizes[form], direction);
                if !free(&rect) {
                    continue;
                }
                let leader = (distance > NEAR).then(|| leader(at, label.clear, &rect));
                if leader.is_none_or(|(from, to)| clear(from, to)) {
                    return Some(Spot { form, rect, leader });
                }
            }
        }
    }
    None
}

/// Forms and distances in the order they are tried.
fn order(forms: usize, reach: f64) -> Vec<(usize, f64)> {
    let distances = DISTANCES.iter().filter(|distance| **distance <= reach);
    let mut order: Vec<(usize, f64)> = distances
        .flat_map(|distance| (0..forms).map(move |form| (form, *distance)))
        .collect();
    let cost = |(form, distance): &(usize, f64)| *form as f64 * FORM_WORTH + distance;
    order.sort_by(|a, b| cost(a).total_cmp(&cost(b)).then(a.0.cmp(&b.0)));
    order
}

/// Width and height of a row of runs, paper millimetres.
fn extent(form: &[Run]) -> (f64, f64) {
    let gaps: f64 = form.iter().skip(1).map(|run| run.size * GAP).sum();
    let width = form.iter().map(Run::width).sum::<f64>() + gaps;
    let tallest = form.iter().map(|run| run.size).fold(0.0, f64::max);
    (width, tallest * (font::ASCENT + font::DESCENT))
}

/// The box whose near side lies so far from a place in a direction.
fn beside(at: Pos, distance: f64, (width, height): (f64, f64), (x, y): (f64, f64)) -> Rect {
    // Between the four main directions the box leans on a corner rather than on a side.
    let lean = |part: f64| (part * 2.0).clamp(-1.0, 1.0);
    let middle = Pos::new(
        at.x + x * distance + lean(x) * width / 2.0,
        at.y + y * distance + lean(y) * height / 2.0,
    );
    Rect::around(middle, width, height)
}

/// From the edge of what is named to the nearest edge of the label.
fn leader(at: Pos, clear: f64, rect: &Rect) -> (Pos, Pos) {
    let to = rect.grown(AIR * 1.5).nearest(at);
    let from = (to - at).unit().map_or(at, |unit| at + unit * clear);
    (from, to)
}

fn draw(label: &Label, spot: &Spot, scale: f64) -> Vec<Item> {
    let mut items = Vec::new();
    if let Some((from, to)) = spot.leader {
        let line = Shape::Line(vec![from * scale, to * scale]);
        items.push(Item::plain(Ink::Leader, line).faint_if(label.faint));
    }
    if label.paper {
        let (low, high) = (spot.rect.low * scale, spot.rect.high * scale);
        let corners = [low, Pos::new(high.x, low.y), high, Pos::new(low.x, high.y)];
        let paper = Shape::Area(corners.to_vec());
        items.push(Item::plain(Ink::Paper, paper).faint_if(label.faint));
    }
    let Some(form) = label.forms.get(spot.form) else {
        return items;
    };
    let tallest = form.iter().map(|run| run.size).fold(0.0, f64::max);
    let base = spot.rect.low.y + tallest * font::ASCENT;
    let mut x = spot.rect.low.x;
    for (place, run) in form.iter().enumerate() {
        if place > 0 {
            x += run.size * GAP;
        }
        let text = Text {
            at: Pos::new(x, base) * scale,
            anchor: Anchor::Start,
            size: run.size,
            weight: run.weight,
            text: run.text.clone(),
            upwards: false,
        };
        items.push(Item {
            ink: label.ink,
            shape: Shape::Text(text),
            about: label.about,
            words: String::new(),
            faint: label.faint,
        });
        x += run.width();
    }
    items
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn label(x: f64, y: f64, text: &str) -> Label {
        Label {
            anchors: vec![Pos::new(x, y)],
            clear: 2.0,
            forms: vec![
                vec![Run::bold(text, 4.6), Run::plain("5 studs · 1 in", 3.5)],
                vec![Run::bold(text, 4.6)],
            ],
            reach: ANYWHERE,
            centred: false,
            ink: Ink::BoreName,
            about: None,
            faint: false,
            paper: false,
        }
    }

    fn rects(items: &[Item], scale: f64) -> Vec<Rect> {
        let texts = items
            .iter()
            .filter(|item| matches!(item.shape, Shape::Text(_)));
        texts
            .filter_map(|item| item.shape.bounds(scale))
            .map(|(low, high)| Rect::new(low, high))
            .collect()
    }

    #[test]
    fn alone_the_long_form_stands_beside_its_place() {
        let items = place(
            &[label(0.0, 0.0, "14")],
            &mut Obstacles::default(),
            &Bounds::NONE,
            48.0,
            &mut Vec::new(),
        );
        assert_eq!(items.len(), 2);
        assert!(items.iter().all(|item| item.ink == Ink::BoreName));
    }

    #[test]
    fn crowded_out_it_shortens_or_keeps_a_leader() {
        let labels: Vec<Label> = (0..12).map(|n| label(f64::from(n), 0.0, "14")).collect();
        let mut left_out = Vec::new();
        let items = place(
            &labels,
            &mut Obstacles::default(),
            &Bounds::NONE,
            1.0,
            &mut left_out,
        );
        assert!(left_out.is_empty());
        assert!(items.iter().any(|item| item.ink == Ink::Leader));
    }

    #[test]
    fn a_label_that_may_not_go_far_is_left_out_and_named() {
        let mut short = label(0.0, 0.0, "8");
        short.reach = 4.0;
        let mut obstacles = Obstacles::default();
        obstacles.add_box(Rect::around(Pos::new(0.0, 0.0), 60.0, 60.0));
        let mut left_out = Vec::new();
        let items = place(&[short], &mut obstacles, &Bounds::NONE, 1.0, &mut left_out);
        assert!(items.is_empty());
        assert_eq!(left_out, [0]);
    }

    proptest! {
        #[test]
        fn no_text_lies_on_text(places in prop::collection::vec((0.0..9000.0, 0.0..9000.0), 1..60)) {
            let labels: Vec<Label> = places.iter().map(|(x, y)| label(*x, *y, "D12")).collect();
            let items = place(&labels, &mut Obstacles::default(), &Bounds::NONE, 48.0, &mut Vec::new());
            let rects = rects(&items, 48.0);
            for (index, one) in rects.iter().enumerate() {
                prop_assert!(rects[index + 1..].iter().all(|other| !one.overlaps(other)));
            }
        }
    }
}
