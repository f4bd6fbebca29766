//! Label sheets for common label stock, given by its dimensions. Nothing but labels is printed on
//! them: a frame would land on the labels.
//!
//! A label for a cable bears the identity at both ends of the strip: wrapped around, one of them lies
//! outside; folded over the cable as a flag, both can be read.

use super::mark::Laid;
use super::paper::{Extent, Size};
use super::table::{BODY, ID, text};
use super::{Draft, Kind, Paper, frame};
use crate::picture::font::{self, Weight};
use crate::picture::{Anchor, Ink, Item, Picture, Shape, Text};
use crate::plan::Plan;
use crate::schedule::{Label, LabelPlace, labels};
use crate::shape::Pos;
use crate::tongue::Tongue;

/// A sheet of labels, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Stock {
    sheet: Size,
    /// Its labels by their dimensions, as the stock is sold.
    name: &'static str,
    /// Labels across and down.
    count: (usize, usize),
    /// Upper left corner of the first label.
    first: (f64, f64),
    /// Width and height of a label.
    label: (f64, f64),
    /// From one label to the next, across and down.
    pitch: (f64, f64),
}

/// 80 to a letter sheet, 1-3/4 by 1/2 in.
const LETTER: Stock = Stock {
    sheet: Size::Letter,
    name: "1-3/4 by 1/2 in, 80 to a letter sheet",
    count: (4, 20),
    first: (7.62, 12.7),
    label: (44.45, 12.7),
    pitch: (52.07, 12.7),
};

/// 65 to an A4 sheet, 38.1 by 21.2 mm.
const A4: Stock = Stock {
    sheet: Size::A4,
    name: "38.1 by 21.2 mm, 65 to an A4 sheet",
    count: (5, 13),
    first: (4.75, 10.7),
    label: (38.1, 21.2),
    pitch: (40.6, 21.2),
};

/// What goes once around a cable of 6 mm, millimetres: the middle of a strip lies on the cable.
const AROUND: f64 = 6.0 * std::f64::consts::PI;
/// A printer may be off by this much, millimetres.
const OFF: f64 = 0.8;
/// Distance between lines of a label, as a share of the font size.
const LEADING: f64 = 1.08;

impl Stock {
    fn of(paper: &Paper) -> Self {
        match paper.size {
            Size::Letter | Size::Tabloid => LETTER,
            Size::A4 | Size::A3 => A4,
        }
    }

    /// The upper left corner of a label, counted along the rows.
    fn corner(&self, place: usize) -> Pos {
        let (column, row) = (place % self.count.0, place / self.count.0);
        Pos::new(
            self.first.0 + column as f64 * self.pitch.0,
            self.first.1 + row as f64 * self.pitch.1,
        )
    }
}

/// The label sheets of a job, on letter or A4 stock as the paper suggests.
pub(super) fn pages(plan: &Plan, paper: &Paper) -> Vec<Draft> {
    let stock = Stock::of(paper);
    let labels = labels(plan);
    let each = stock.count.0 * stock.count.1;
    let job = short_name(&plan.title);
    let page = |some: &[Label]| {
        let mut picture = Picture::at_scale(1.0);
        for (place, label) in some.iter().enumerate() {
            draw(&mut picture, stock, stock.corner(place), label, &job);
        }
        draft(stock, Kind::Labels, "Labels", picture)
    };
    labels.chunks(each).map(page).collect()
}

/// One page with the edge of every label, to hold against the stock before labels are printed.
pub(super) fn test_page(paper: &Paper) -> Vec<Draft> {
    let stock = Stock::of(paper);
    let mut picture = Picture::at_scale(1.0);
    let (wide, tall) = stock.label;
    for place in 0..stock.count.0 * stock.count.1 {
        let low = stock.corner(place);
        let corners = [
            (0.0, 0.0),
            (wide, 0.0),
            (wide, tall),
            (0.0, tall),
            (0.0, 0.0),
        ];
        let edge = corners.map(|(x, y)| low + Pos::new(x, y)).to_vec();
        picture.push(Item::plain(Ink::Frame, Shape::Line(edge)));
    }
    let lines = [
        stock.name,
        "Print on plain paper",
        "at 100 %.",
        "Hold it with a sheet of",
        "labels against the light:",
        "every edge within 1/32 in,",
        "or 1 mm, of its label.",
    ];
    for (place, words) in lines.iter().enumerate() {
        let lines = font::wrap(words, Weight::Regular, BODY, wide - 3.0);
        let low = stock.corner(place * stock.count.0);
        put(&mut picture, low, stock.label, &lines, Weight::Regular);
    }
    vec![draft(
        stock,
        Kind::LabelTest,
        "To line the printer up",
        picture,
    )]
}

fn draft(stock: Stock, kind: Kind, what: &str, picture: Picture) -> Draft {
    let extent: Extent = stock.sheet.portrait();
    Draft {
        heading: frame::Heading {
            kind,
            title: String::new(),
            subtitle: String::new(),
            name: format!("{what}: {}", stock.name),
            corner: String::new(),
            tongue: Tongue::English,
        },
        extent,
        layers: vec![Laid {
            picture,
            origin: Pos::default(),
        }],
        scale: None,
        goes_on: false,
    }
}

fn draw(picture: &mut Picture, stock: Stock, low: Pos, label: &Label, job: &str) {
    match label.place {
        LabelPlace::ClosetEnd | LabelPlace::DropEnd => strip(picture, stock, low, label, job),
        LabelPlace::Plate | LabelPlace::Panel => flat(picture, stock, low, label),
    }
}

/// A label around a cable: identity and job at both ends, between them what it is and where it goes.
fn strip(picture: &mut Picture, stock: Stock, low: Pos, label: &Label, job: &str) {
    let (wide, tall) = stock.label;
    let end = (wide - AROUND) / 2.0 - OFF;
    let tall = tall - 2.0 * OFF;
    let fits = |room: f64, size: f64| font::width(&label.name, Weight::Bold) * size <= room;
    // Upright, along the cable, where it is too long to lie across the end.
    let (size, upwards) = [(ID, false), (ID, true), (BODY, false), (BODY, true)]
        .into_iter()
        .find(|(size, upwards)| fits(if *upwards { tall } else { end }, *size))
        .unwrap_or((BODY, false));
    let taken = match upwards {
        true => end,
        false => end.max(font::width(&label.name, Weight::Bold) * size),
    };
    for middle in [OFF + taken / 2.0, wide - OFF - taken / 2.0] {
        let at = low + Pos::new(middle, stock.label.1 / 2.0);
        let room = if upwards { tall } else { taken };
        identity(picture, at, (&label.name, size), job, (room, upwards));
    }
    let between = wide - 2.0 * (taken + OFF) - 1.0;
    let lines = font::wrap(&label.note, Weight::Regular, BODY, between);
    let fits = lines.len() as f64 * BODY * LEADING <= tall
        && lines
            .iter()
            .all(|line| font::width(line, Weight::Regular) * BODY <= between);
    if fits {
        put(picture, low, stock.label, &lines, Weight::Regular);
    }
}

/// An identity with the job's short name under it, or beside it where they read upwards.
fn identity(
    picture: &mut Picture,
    middle: Pos,
    (name, size): (&str, f64),
    job: &str,
    (room, upwards): (f64, bool),
) {
    // As much of the job's short name as there is room for: two letters tell two jobs of a van apart.
    let ends = (2..=job.chars().count()).rev();
    let mut parts = ends.map(|end| job.chars().take(end).collect::<String>());
    let job = parts.find(|part| font::width(part, Weight::Regular) * BODY <= room);
    let job = job.as_deref();
    let step = (size + BODY) / 2.0 * LEADING;
    let apart = if job.is_some() { step / 2.0 } else { 0.0 };
    let mut line = |words: &str, size: f64, weight, off: f64| {
        let base = off + size * font::CAP_HEIGHT / 2.0;
        let at = match upwards {
            true => middle + Pos::new(base, 0.0),
            false => middle + Pos::new(0.0, base),
        };
        picture.push(Item::plain(
            Ink::Note,
            Shape::Text(Text {
                at,
                anchor: Anchor::Middle,
                size,
                weight,
                text: words.to_string(),
                upwards,
            }),
        ));
    };
    line(name, size, Weight::Bold, -apart);
    if let Some(job) = job {
        line(job, BODY, Weight::Regular, apart);
    }
}

/// A label on a plate or a panel: the identity in large type, and under it what it is.
fn flat(picture: &mut Picture, stock: Stock, low: Pos, label: &Label) {
    let middle = low + Pos::new(stock.label.0 / 2.0, stock.label.1 / 2.0);
    let room = stock.label.0 - 4.0;
    let note = font::wrap(&label.note, Weight::Regular, BODY, room);
    let up = Pos::new(0.0, -0.6);
    let down = Pos::new(0.0, BODY * 1.05);
    let (id, plain) = (Weight::Bold, Weight::Regular);
    picture.push(text(middle + up, Anchor::Middle, ID, id, &label.name));
    for line in note.iter().take(1) {
        picture.push(text(middle + down, Anchor::Middle, BODY, plain, line));
    }
}

/// Lines in the middle of a label.
fn put(picture: &mut Picture, low: Pos, label: (f64, f64), lines: &[String], weight: Weight) {
    let step = BODY * LEADING;
    let up = lines.len().saturating_sub(1) as f64 * step / 2.0;
    for (down, words) in lines.iter().enumerate() {
        let y = label.1 / 2.0 - up + down as f64 * step + BODY * font::CAP_HEIGHT / 2.0;
        let at = low + Pos::new(label.0 / 2.0, y);
        picture.push(text(at, Anchor::Middle, BODY, weight, words));
    }
}

/// The most signs of a job's short name.
const SHORT: usize = 5;

/// A job's short name: the first letter of every word, and its numbers. "LRL3" of "Larch Row, lot 3".
pub(super) fn short_name(title: &str) -> String {
    let words = title.split(|sign: char| !sign.is_alphanumeric());
    let part = |word: &str| -> String {
        match word.chars().next() {
            Some(first) if first.is_numeric() => word.to_string(),
            Some(first) => first.to_uppercase().collect(),
            None => String::new(),
        }
    };
    words
        .map(part)
        .collect::<String>()
        .chars()
        .take(SHORT)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::sample;
    use crate::sheet::mark::Mark;

    fn words(page: &Draft) -> Vec<String> {
        let marks = page.layers.iter().flat_map(Laid::marks);
        let words = marks.filter_map(|mark| match mark {
            Mark::Text { text, .. } => Some(text),
            _ => None,
        });
        words.collect()
    }

    #[test]
    fn labels_stay_on_their_sheet_and_inside_their_edges() {
        let plan = sample::house();
        for stock in [LETTER, A4] {
            let extent = stock.sheet.portrait();
            let last = stock.corner(stock.count.0 * stock.count.1 - 1);
            assert!(last.x + stock.label.0 < extent.width);
            assert!(last.y + stock.label.1 < extent.height);
            for label in labels(&plan) {
                let mut picture = Picture::at_scale(1.0);
                draw(&mut picture, stock, Pos::default(), &label, "LRL3");
                let (low, high) = picture.bounds().unwrap();
                assert!(low.x >= 0.0 && high.x <= stock.label.0, "{label:?}");
                assert!(low.y >= -0.3 && high.y <= stock.label.1 + 0.3, "{label:?}");
            }
        }
    }

    /// Whichever way round it is put on a cable of 6 mm, one end of the strip lies outside with the
    /// whole identity on it.
    #[test]
    fn the_identity_stands_whole_at_both_ends_of_a_strip() {
        for (plan, stock) in crate::sheet::laws::plans()
            .iter()
            .flat_map(|plan| [LETTER, A4].map(|stock| (plan, stock)))
        {
            let strips = labels(plan)
                .into_iter()
                .filter(|label| matches!(label.place, LabelPlace::ClosetEnd | LabelPlace::DropEnd));
            let job = short_name(&plan.title);
            for label in strips {
                let mut picture = Picture::at_scale(1.0);
                draw(&mut picture, stock, Pos::default(), &label, &job);
                let names: Vec<(Pos, Pos)> = picture
                    .items
                    .iter()
                    .filter_map(|item| match &item.shape {
                        Shape::Text(text) if text.text == label.name => item.shape.bounds(1.0),
                        _ => None,
                    })
                    .collect();
                let end = (stock.label.0 - AROUND) / 2.0;
                let is_job = |text: &str| text.chars().count() > 1 && job.starts_with(text);
                let jobs = picture.items.iter().filter(|item| match &item.shape {
                    Shape::Text(text) => is_job(&text.text),
                    _ => false,
                });
                assert!(jobs.count() == 2 || job.len() < 2, "{} {job}", label.name);
                assert_eq!(names.len(), 2);
                assert!(names[0].1.x <= end + 0.5, "{} {names:?} {end}", label.name);
                assert!(names[1].0.x >= stock.label.0 - end - 0.5, "{names:?}");
            }
        }
    }

    #[test]
    fn every_label_is_on_a_page_and_the_stock_has_a_page_to_line_up_by() {
        let plan = sample::house();
        for size in [Size::Letter, Size::A4] {
            let paper = Paper::of(size);
            let pages = pages(&plan, &paper);
            let named: Vec<String> = pages.iter().flat_map(words).collect();
            for (_, cable) in plan.cables() {
                let name = plan.cable_label(cable.id);
                let count = named.iter().filter(|word| **word == name).count();
                // Four strips with it at both ends, and the panel's.
                assert_eq!(count, 9, "{name}");
            }
            let test = test_page(&paper);
            let edges = test[0].layers[0].picture.items.iter();
            let edges = edges.filter(|item| item.ink == Ink::Frame).count();
            let stock = Stock::of(&paper);
            assert_eq!(edges, stock.count.0 * stock.count.1);
        }
    }

    #[test]
    fn a_job_has_a_short_name() {
        assert_eq!(short_name("Larch Row, lot 3"), "LRL3");
        assert_eq!(short_name("Quince House, plot 9"), "QHP9");
        assert_eq!(short_name(""), "");
        assert_eq!(short_name("éclair 12345678"), "É1234");
    }
}
