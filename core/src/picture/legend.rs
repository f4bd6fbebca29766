//! The signs a picture uses, with their words; its scale bar.
//!
//! Both are pictures at scale 1: paper millimetres from their upper left corner.

use std::collections::BTreeSet;

use super::font::{self, Weight};
use super::{Anchor, Ink, Item, Picture, Shape, Text, Type, symbols};
use crate::plan::{CableKindId, DropKind, Plan};
use crate::shape::Pos;
use crate::units::{Mm, Units};

/// Room for a sign, paper millimetres.
const SIGN: f64 = 9.0;
/// Distance from line to line, as a share of the body size.
const LINE: f64 = 1.75;
/// Space between two columns, paper millimetres.
const GUTTER: f64 = 5.0;

/// One sign with its words.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// The sign around (0, 0), paper millimetres.
    pub sign: Vec<Item>,
    /// What it means.
    pub words: String,
}

/// The signs used in a picture of a level, in a fixed order, drops first.
pub fn entries(plan: &Plan, picture: &Picture, sizes: Type) -> Vec<Entry> {
    let inks: BTreeSet<Ink> = picture.items.iter().map(|item| item.ink).collect();
    let mut entries = drop_entries(plan, picture, sizes);
    if inks.contains(&Ink::Closet) {
        entries.push(closet_entry(sizes));
    }
    entries.extend(cable_entries(plan, &inks));
    entries.extend(
        SIMPLE
            .iter()
            .filter(|sign| inks.contains(&sign.ink))
            .map(Sign::entry),
    );
    entries
}

/// Lays entries out in columns within a width. Returns the picture and its height.
pub fn lay_out(entries: &[Entry], sizes: Type, width: f64) -> (Picture, f64) {
    let mut picture = Picture::at_scale(1.0);
    let (rows, lefts) = columns(entries, sizes, width);
    let pitch = sizes.body * LINE;
    for (place, entry) in entries.iter().enumerate() {
        let (column, row) = (place / rows, place % rows);
        let left = lefts.get(column).copied().unwrap_or(0.0);
        let corner = Pos::new(left, row as f64 * pitch);
        let middle = corner + Pos::new(SIGN / 2.0 - 0.5, pitch / 2.0);
        for item in &entry.sign {
            picture.push(moved(item, middle));
        }
        let at = corner + Pos::new(SIGN, pitch / 2.0 + font::CAP_HEIGHT / 2.0 * sizes.body);
        picture.push(note(at, Anchor::Start, &entry.words, sizes));
    }
    (picture, rows as f64 * pitch)
}

/// The fewest rows whose columns fit the width, and where the columns start.
fn columns(entries: &[Entry], sizes: Type, width: f64) -> (usize, Vec<f64>) {
    let wide = |entry: &Entry| SIGN + font::width(&entry.words, Weight::Regular) * sizes.body;
    for rows in 1..=entries.len() {
        let mut lefts = Vec::new();
        let mut at = 0.0;
        for column in entries.chunks(rows) {
            lefts.push(at);
            at += column.iter().map(wide).fold(0.0, f64::max) + GUTTER;
        }
        if at - GUTTER <= width || rows == entries.len() {
            return (rows, lefts);
        }
    }
    (1, Vec::new())
}

/// A scale bar no longer than `room` paper millimetres, with figures under it; its height is
/// [`SCALE_BAR_HEIGHT`]. `scale` is house millimetres to a paper millimetre.
pub fn scale_bar(scale: f64, units: Units, sizes: Type, room: f64) -> Picture {
    let mut picture = Picture::at_scale(1.0);
    let (unit, word) = match units {
        Units::Imperial => (304.8, "ft"),
        Units::Metric => (1000.0, "m"),
    };
    let fits = |count: &&u32| f64::from(**count) * unit / scale <= room;
    let steps = [400_u32, 200, 100, 40, 20, 10, 4, 2, 1];
    let count = steps.iter().find(fits).copied().unwrap_or(1);
    let parts = if count % 4 == 0 { 4 } else { count.min(2) };
    let part = f64::from(count) * unit / scale / f64::from(parts);
    for place in 0..parts {
        let left = f64::from(place) * part;
        let corners = [
            (left, 0.0),
            (left + part, 0.0),
            (left + part, BAR),
            (left, BAR),
        ];
        let area = Shape::Area(corners.map(|(x, y)| Pos::new(x, y)).to_vec());
        let ink = if place % 2 == 0 { Ink::Solid } else { Ink::Box };
        picture.push(Item::plain(ink, area));
    }
    let edge = [(0.0, 0.0), (part * f64::from(parts), 0.0)]
        .into_iter()
        .chain([(part * f64::from(parts), BAR), (0.0, BAR), (0.0, 0.0)]);
    let edge = edge.map(|(x, y)| Pos::new(x, y)).collect();
    picture.push(Item::plain(Ink::Frame, Shape::Line(edge)));
    let base = BAR + sizes.body * 1.0;
    let mut places = vec![0, parts / 2, parts];
    places.dedup();
    for place in places {
        let value = count / parts * place;
        let text = match place == parts {
            true => format!("{value} {word}"),
            false => value.to_string(),
        };
        let at = Pos::new(f64::from(place) * part, base);
        picture.push(note(at, Anchor::Middle, &text, sizes));
    }
    picture
}

/// Height of a scale bar with its figures at paper sizes, millimetres.
pub const SCALE_BAR_HEIGHT: f64 = 6.5;
/// Height of the bar itself.
const BAR: f64 = 2.0;

fn note(at: Pos, anchor: Anchor, text: &str, sizes: Type) -> Item {
    let text = Text {
        at,
        anchor,
        size: sizes.body,
        weight: Weight::Regular,
        text: text.to_string(),
        upwards: false,
    };
    Item::plain(Ink::Note, Shape::Text(text))
}

fn moved(item: &Item, by: Pos) -> Item {
    let shift = |points: &[Pos]| points.iter().map(|at| *at + by).collect();
    let shape = match &item.shape {
        Shape::Line(points) => Shape::Line(shift(points)),
        Shape::Area(points) => Shape::Area(shift(points)),
        Shape::Circle { at, radius } => Shape::Circle {
            at: *at + by,
            radius: *radius,
        },
        Shape::Text(text) => Shape::Text(Text {
            at: text.at + by,
            ..text.clone()
        }),
    };
    Item::plain(item.ink, shape)
}

/// Kinds of drops that the picture shows, each by its own symbol.
fn drop_entries(plan: &Plan, picture: &Picture, sizes: Type) -> Vec<Entry> {
    let shown: BTreeSet<_> = picture.items.iter().filter_map(|item| item.about).collect();
    let is_shown = |kind: DropKind| {
        move |drop: &&crate::plan::Drop| drop.kind == kind && drop.height().is_some()
    };
    let mut entries = Vec::new();
    let mut drawn: BTreeSet<&str> = BTreeSet::new();
    for kind in DropKind::ALL {
        let here = plan
            .drops
            .iter()
            .filter(|drop| shown.contains(&super::About::Drop(drop.id)));
        let Some(drop) = here.clone().find(|drop| drop.kind == kind) else {
            continue;
        };
        let words = kind_words(kind);
        if !drawn.insert(words) {
            continue;
        }
        let height = here
            .clone()
            .find(is_shown(kind))
            .and_then(|drop| super::usual_heights(plan, drop.level).get(&kind).copied());
        let mut sign = Picture::at_scale(1.0);
        let spot = symbols::Spot {
            at: Pos::default(),
            foot: Pos::default(),
            out: Some(Pos::new(1.0, 0.0)),
        };
        let mut drop = drop.clone();
        drop.aim = None;
        symbols::draw(&mut sign, &drop, spot, sizes, false);
        entries.push(Entry {
            sign: sign.items,
            words: with_height(plan.units, words, height),
        });
    }
    entries
}

fn kind_words(kind: DropKind) -> &'static str {
    match kind {
        DropKind::Data => "outlet, cables",
        DropKind::Television => "television",
        DropKind::CeilingAccessPoint | DropKind::WallAccessPoint => "access point",
        DropKind::Camera => "camera, aim",
        DropKind::Doorbell => "doorbell",
        DropKind::Other => "other drop",
    }
}

fn with_height(units: Units, words: &str, height: Option<Mm>) -> String {
    match height {
        Some(height) => format!("{words}, {}", units.height(height)),
        None => words.to_string(),
    }
}

fn closet_entry(sizes: Type) -> Entry {
    let mut sign = Picture::at_scale(1.0);
    let spot = symbols::Spot {
        at: Pos::default(),
        foot: Pos::default(),
        out: None,
    };
    symbols::draw_closet(&mut sign, spot, sizes, false);
    Entry {
        sign: sign.items,
        words: String::from("closet"),
    }
}

/// Cable kinds drawn alone, by their dash and letter, and the trunk.
fn cable_entries(plan: &Plan, inks: &BTreeSet<Ink>) -> Vec<Entry> {
    let mut entries = Vec::new();
    for (place, spec) in plan.catalogue.cables.iter().enumerate() {
        let style = (place % usize::from(super::CABLE_STYLES)) as u8;
        let used = plan
            .cables()
            .any(|(_, cable)| cable.kind == CableKindId(place as u16));
        if used && inks.contains(&Ink::Cable(style)) {
            entries.push(Entry {
                sign: vec![line(Ink::Cable(style))],
                words: format!("{} ({})", spec.name, spec.letter),
            });
        }
    }
    if inks.iter().any(|ink| matches!(ink, Ink::Trunk(_))) {
        entries.push(Entry {
            sign: vec![line(Ink::Trunk(6))],
            words: String::from("trunk, ×6 cables"),
        });
    }
    entries
}

fn line(ink: Ink) -> Item {
    let points = vec![
        Pos::new(-SIGN / 2.0 + 0.8, 0.0),
        Pos::new(SIGN / 2.0 - 0.8, 0.0),
    ];
    Item::plain(ink, Shape::Line(points))
}

/// A sign that looks the same wherever it stands.
struct Sign {
    ink: Ink,
    words: &'static str,
    draw: fn(Ink) -> Vec<Item>,
}

impl Sign {
    fn entry(&self) -> Entry {
        Entry {
            sign: (self.draw)(self.ink),
            words: self.words.to_string(),
        }
    }
}

const SIMPLE: [Sign; 14] = [
    Sign {
        ink: Ink::Riser,
        words: "down from the level above",
        draw: |ink| {
            vec![Item::plain(
                ink,
                Shape::Area(symbols::triangle(Pos::default(), 1.3)),
            )]
        },
    },
    Sign {
        ink: Ink::Bore,
        words: "bore along a wall",
        draw: |ink| vec![Item::plain(ink, chain(&[(0.0, -1.8), (0.0, 1.8)]))],
    },
    Sign {
        ink: Ink::BoreRing,
        words: "up through top plates",
        draw: |ink| vec![ring(ink, 1.1)],
    },
    Sign {
        ink: Ink::BoreDown,
        words: "down through bottom plate and floor",
        draw: |ink| vec![ring(ink, 1.1)],
    },
    Sign {
        ink: Ink::BoreOver,
        words: "bore in joists overhead",
        draw: |ink| vec![Item::plain(ink, chain(&[(-1.8, 0.0), (1.8, 0.0)]))],
    },
    Sign {
        ink: Ink::BoreUnder,
        words: "bore in joists underfoot",
        draw: |ink| vec![Item::plain(ink, chain(&[(-1.8, 0.0), (1.8, 0.0)]))],
    },
    Sign {
        ink: Ink::Seal,
        words: "to be sealed",
        draw: |ink| vec![ring(ink, 1.76), ring(Ink::BoreRing, 1.1)],
    },
    Sign {
        ink: Ink::NailPlate,
        words: "steel nail plate",
        draw: |ink| {
            let square = symbols::square(Pos::new(0.0, 1.3), 0.7);
            vec![
                Item::plain(Ink::Bore, chain(&[(0.0, -1.8), (0.0, 1.3)])),
                Item::plain(ink, Shape::Area(square)),
            ]
        },
    },
    Sign {
        ink: Ink::Tie,
        words: "tie over the plate",
        draw: |ink| {
            vec![
                ring(Ink::BoreRing, 1.1),
                Item::plain(ink, chain(&[(-2.2, 0.0), (2.2, 0.0)])),
            ]
        },
    },
    Sign {
        ink: Ink::Power,
        words: "power by others",
        draw: |ink| vec![line(ink)],
    },
    Sign {
        ink: Ink::KeepOut,
        words: "keep out",
        draw: |ink| {
            let corners = [(-3.5, -2.0), (3.5, -2.0), (3.5, 2.0), (-3.5, 2.0)];
            let corners = corners.map(|(x, y)| Pos::new(x, y));
            let lines = super::hatch::hatching(&corners, 1.6);
            lines
                .into_iter()
                .map(|(from, to)| Item::plain(ink, Shape::Line(vec![from, to])))
                .collect()
        },
    },
    Sign {
        ink: Ink::WallExterior,
        words: "outside or bearing wall",
        draw: |ink| vec![Item::plain(ink, Shape::Area(bar()))],
    },
    Sign {
        ink: Ink::WallPartition,
        words: "partition",
        draw: |_| {
            [-1.0, 1.0]
                .map(|y| Item::plain(Ink::WallFace, chain(&[(-3.7, y), (3.7, y)])))
                .to_vec()
        },
    },
    Sign {
        ink: Ink::NeverDrill,
        words: "never drill",
        draw: |ink| {
            vec![
                Item::plain(ink, chain(&[(-1.5, -1.5), (1.5, 1.5)])),
                Item::plain(ink, chain(&[(-1.5, 1.5), (1.5, -1.5)])),
            ]
        },
    },
];

fn chain(points: &[(f64, f64)]) -> Shape {
    Shape::Line(points.iter().map(|(x, y)| Pos::new(*x, *y)).collect())
}

fn ring(ink: Ink, radius: f64) -> Item {
    Item::plain(
        ink,
        Shape::Circle {
            at: Pos::default(),
            radius,
        },
    )
}

fn bar() -> Vec<Pos> {
    [(-3.7, -1.0), (3.7, -1.0), (3.7, 1.0), (-3.7, 1.0)]
        .map(|(x, y)| Pos::new(x, y))
        .to_vec()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::picture::{Showing, level, sample};
    use crate::plan::LevelId;

    #[test]
    fn every_sign_of_the_picture_and_no_other_is_explained() {
        let plan = sample::house();
        let design = Design::of(&plan);
        let showing = Showing::on_paper(48.0, None);
        let picture = level(&plan, &design, LevelId(1), &showing);
        let entries = entries(&plan, &picture, Type::PAPER);
        let words: Vec<&str> = entries.iter().map(|entry| entry.words.as_str()).collect();
        assert_eq!(words[..2], ["outlet, cables, 16 in", "television, 16 in"]);
        for expected in [
            "doorbell, 45 in",
            "closet",
            "Cat 6 (d)",
            "power by others",
            "keep out",
        ] {
            assert!(words.contains(&expected), "{expected} in {words:?}");
        }
        assert!(!words.contains(&"other drop"));
    }

    #[test]
    fn a_scale_bar_is_as_long_as_it_says() {
        for (scale, units, length) in [
            (96.0, Units::Imperial, 20.0 * 304.8 / 96.0),
            (50.0, Units::Metric, 80.0),
            (2500.0, Units::Metric, 80.0),
        ] {
            let bar = scale_bar(scale, units, Type::PAPER, 80.0);
            let edge = bar
                .items
                .iter()
                .find(|item| item.ink == Ink::Frame)
                .unwrap();
            let (low, high) = edge.shape.bounds(1.0).unwrap();
            assert!((high.x - low.x - length).abs() < 1e-9, "{}", high.x - low.x);
        }
    }

    #[test]
    fn entries_are_laid_out_within_the_width() {
        let entry = |words: &str| Entry {
            sign: Vec::new(),
            words: words.to_string(),
        };
        let entries = [entry("outlet"), entry("trunk, ×6 cables"), entry("closet")];
        let (picture, height) = lay_out(&entries, Type::PAPER, 80.0);
        assert!(height > 0.0);
        assert!(picture.bounds().unwrap().1.x <= 80.0);
    }
}
