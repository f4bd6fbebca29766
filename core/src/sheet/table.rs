//! Tables on paper: one thing a row, columns that share the width.
//!
//! Text that is too long for its cell is wrapped, never cut: its row grows. What is too tall for one
//! row goes on in the next.

mod fitted;

pub(super) use fitted::{Fit, Fitted};

use crate::picture::font::{self, MM_PER_POINT, Weight};
use crate::picture::{Anchor, Ink, Item, Picture, Shape, Text};
use crate::shape::Pos;
use crate::tongue::Tongue;

/// Running text, paper millimetres: 10 pt.
pub(super) const BODY: f64 = 10.0 * MM_PER_POINT;
/// Identities, paper millimetres: 13 pt.
pub(super) const ID: f64 = 13.0 * MM_PER_POINT;
/// Side of a tick box: 1/4 in.
pub(super) const TICK: f64 = 6.35;

/// Space at both sides of a cell.
const PAD: f64 = 1.0;
/// No column is narrower than this, millimetres.
const LEAST: f64 = 6.0;
/// What is left over of a width goes from column to column by this part of it, as often as this at most.
const STEP: f64 = 0.08;
const ROUNDS: usize = 8;

/// A column.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Column {
    /// Its head.
    pub title: String,
    /// Its least width, millimetres.
    pub least: f64,
    /// Its part of what is left over; 0 for none.
    pub share: f64,
    /// Where its text stands.
    pub anchor: Anchor,
}

/// A column of text.
pub(super) fn column(title: &str, least: f64, share: f64) -> Column {
    Column {
        title: title.to_string(),
        least,
        share,
        anchor: Anchor::Start,
    }
}

/// A column of figures, flush right.
pub(super) fn figures(title: &str, least: f64) -> Column {
    Column {
        anchor: Anchor::End,
        ..column(title, least, 0.0)
    }
}

/// A column of tick boxes or short words, centred.
pub(super) fn centred(title: &str, least: f64) -> Column {
    Column {
        anchor: Anchor::Middle,
        ..column(title, least, 0.0)
    }
}

/// What a cell holds.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Cell {
    /// Running text.
    Text(String),
    /// Running text in bold.
    Strong(String),
    /// An identity: 13 pt bold.
    Id(String),
    /// An identity that counts no more: crossed out.
    Struck(String),
    /// Identities of one kind, such as cables, in bold.
    List(Vec<String>),
    /// A box to tick.
    Tick,
    /// A box to tick with how many there are.
    TickOf(String),
    /// A box that is ticked already.
    Ticked,
    /// A line to write on.
    Blank,
}

/// A line of a table.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Line {
    /// One cell a column.
    Row(Vec<Cell>),
    /// A heading over the rows that follow.
    Break(String),
    /// What belongs to the row before and needs more room than a cell: one entry a paragraph, a
    /// little indented.
    Note(Vec<String>),
}

/// A table.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Table {
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its lines.
    pub lines: Vec<Line>,
}

impl Table {
    /// The least width its columns need, millimetres.
    pub fn least_width(&self) -> f64 {
        self.columns.iter().map(Column::needs).sum()
    }

    /// The table in a tongue. Identities are the same in every tongue.
    pub fn said(&self, tongue: Tongue) -> Self {
        let cell = |cell: &Cell| match cell {
            Cell::Text(words) => Cell::Text(tongue.say(words)),
            Cell::Strong(words) => Cell::Strong(tongue.say(words)),
            Cell::TickOf(words) => Cell::TickOf(tongue.say(words)),
            other => other.clone(),
        };
        let columns = self.columns.iter().map(|column| Column {
            title: tongue.say(&column.title),
            ..column.clone()
        });
        let lines = self.lines.iter().map(|line| match line {
            Line::Row(cells) => Line::Row(cells.iter().map(cell).collect()),
            Line::Break(words) => Line::Break(tongue.say(words)),
            Line::Note(words) => Line::Note(words.iter().map(|w| tongue.say(w)).collect()),
        });
        Self {
            columns: columns.collect(),
            lines: lines.collect(),
        }
    }

    /// The table with its text wrapped to a width.
    pub fn fitted(&self, width: f64) -> Fitted {
        Fitted::of(self, width)
    }

    /// Where columns begin and end, from 0. What the columns do not need is given to those that share it,
    /// first by their shares and then so that the rows are lowest. Where the width is too small for all that
    /// the columns need, those that share give way.
    fn edges(&self, width: f64) -> Vec<f64> {
        let spare = width - self.least_width();
        let total: f64 = self.columns.iter().map(|c| c.share).sum();
        let part = |column: &Column| match total > 0.0 {
            true => column.share / total,
            false => 0.0,
        };
        let parts: Vec<f64> = self.columns.iter().map(part).collect();
        match spare > 0.0 {
            true => self.edges_of(spare, &self.lowest(spare, parts)),
            false => self.edges_of(spare, &parts),
        }
    }

    /// Where columns begin and end if each gets its part of what is left over.
    fn edges_of(&self, spare: f64, parts: &[f64]) -> Vec<f64> {
        let mut edges = vec![0.0];
        let mut at = 0.0;
        for (column, part) in self.columns.iter().zip(parts) {
            at += (column.needs() + spare * part).max(LEAST);
            edges.push(at);
        }
        edges
    }

    /// Parts of what is left over with which the rows are lower: from these on, a step at a time from one
    /// column to another, as long as that saves height.
    fn lowest(&self, spare: f64, mut parts: Vec<f64>) -> Vec<f64> {
        let sharing = |place: &usize| self.columns.get(*place).is_some_and(|c| c.share > 0.0);
        let sharing: Vec<usize> = (0..self.columns.len()).filter(sharing).collect();
        let height = |parts: &[f64]| fitted::rows_height(self, &self.edges_of(spare, parts));
        let mut best = height(&parts);
        for _ in 0..ROUNDS {
            let before = best;
            for from in &sharing {
                for to in sharing.iter().filter(|to| *to != from) {
                    let moved = moved(&parts, *from, *to);
                    let lower = height(&moved);
                    if lower < best - 1e-9 {
                        (parts, best) = (moved, lower);
                    }
                }
            }
            if before - best < 1e-9 {
                break;
            }
        }
        parts
    }
}

/// Parts with a step of one of them given to another.
fn moved(parts: &[f64], from: usize, to: usize) -> Vec<f64> {
    let step = parts.get(from).map_or(0.0, |part| part.min(STEP));
    let change = |place| match place {
        _ if place == from => -step,
        _ if place == to => step,
        _ => 0.0,
    };
    let changed = parts.iter().enumerate();
    changed.map(|(place, part)| part + change(place)).collect()
}

impl Column {
    /// The width at which no word of its head is broken, and no less than its least.
    fn needs(&self) -> f64 {
        let words = self.title.split_whitespace();
        let wide = words.map(|word| font::width(word, Weight::Bold) * BODY + 2.0 * PAD + 0.1);
        wide.fold(self.least, f64::max)
    }
}

impl Cell {
    /// A box that is ticked already, or still to be ticked.
    pub fn ticked(is: bool) -> Self {
        match is {
            true => Self::Ticked,
            false => Self::Tick,
        }
    }
}

/// A tick box around its middle.
pub(super) fn tick(page: &mut Picture, middle: Pos) {
    let half = TICK / 2.0;
    let corners = [
        (-half, -half),
        (half, -half),
        (half, half),
        (-half, half),
        (-half, -half),
    ];
    let edge = corners.map(|(x, y)| middle + Pos::new(x, y)).to_vec();
    page.push(Item::plain(Ink::Box, Shape::Line(edge)));
}

/// A tick box with its tick.
fn ticked(page: &mut Picture, middle: Pos) {
    tick(page, middle);
    let stroke = [(-0.33, -0.02), (-0.08, 0.28), (0.36, -0.34)];
    let stroke = stroke.map(|(x, y)| middle + Pos::new(x, y) * TICK);
    page.push(Item::plain(Ink::Heavy, Shape::Line(stroke.to_vec())));
}

/// A line of text as an item.
pub(super) fn text(at: Pos, anchor: Anchor, size: f64, weight: Weight, words: &str) -> Item {
    Item::plain(
        Ink::Note,
        Shape::Text(Text {
            at,
            anchor,
            size,
            weight,
            text: words.to_string(),
            upwards: false,
        }),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::mark::{Laid, Mark};
    use crate::sheet::paper::Area;

    fn table(rows: usize) -> Table {
        let row = |n: usize| Line::Row(vec![Cell::Id(n.to_string()), Cell::Tick]);
        let mut lines = vec![Line::Break(String::from("Ground"))];
        lines.extend((0..rows).map(row));
        Table {
            columns: vec![column("No.", 12.0, 1.0), centred("drilled", 14.0)],
            lines,
        }
    }

    /// The words of a table drawn on pages of this size, page by page.
    fn drawn(table: &Table, width: f64, height: f64) -> Vec<Vec<String>> {
        let fitted = table.fitted(width);
        let area = Area::new(Pos::default(), Pos::new(width, height));
        let page = |lines: Vec<Fit>| {
            let mut picture = Picture::at_scale(1.0);
            fitted.draw(&mut picture, area, &lines);
            let (_, high) = picture.bounds().unwrap_or_default();
            assert!(high.y <= height + 1e-9, "{} over {height}", high.y);
            let laid = Laid {
                picture,
                origin: Pos::default(),
            };
            let words = laid.marks().filter_map(|mark| match mark {
                Mark::Text { text, .. } => Some(text),
                _ => None,
            });
            words.collect()
        };
        fitted.pages(&[], height).into_iter().map(page).collect()
    }

    #[test]
    fn every_row_stands_on_one_page_in_order() {
        let pages = drawn(&table(50), 60.0, 120.0);
        assert!(pages.len() > 3);
        let numbers: Vec<usize> = pages
            .iter()
            .flatten()
            .filter_map(|words| words.parse().ok())
            .collect();
        assert!(numbers.into_iter().eq(0..50));
        assert_eq!(table(0).fitted(60.0).pages(&[], 120.0).len(), 1);
    }

    #[test]
    fn a_page_that_begins_under_a_heading_repeats_it() {
        let mut table = table(40);
        let heading = |words: &str| Line::Break(String::from(words));
        table.lines.insert(20, heading("Upper"));
        table.lines.insert(0, heading("Ground"));
        for height in 60..140 {
            let mut under = String::new();
            for page in drawn(&table, 60.0, f64::from(height)) {
                let is_heading = |words: &&String| *words == "Ground" || *words == "Upper";
                let told: Vec<&String> = page.iter().filter(is_heading).collect();
                let first = told.first().map(|first| first.as_str());
                assert!(
                    first == Some(under.as_str()) || under != "Upper",
                    "{height}: {page:?}"
                );
                assert!(first.is_some(), "{height}: {page:?}");
                under = told.last().map_or(String::new(), |last| (*last).clone());
            }
            assert_eq!(under, "Upper");
        }
    }

    #[test]
    fn a_heading_is_not_left_at_the_foot() {
        let mut table = table(10);
        table.lines.insert(11, Line::Break(String::from("Upper")));
        let last = Line::Row(vec![Cell::Id(String::from("x"))]);
        table.lines.push(last);
        for height in 60..140 {
            let pages = drawn(&table, 60.0, f64::from(height));
            let is_alone = |page: &Vec<String>| page.last().is_some_and(|last| last == "Upper");
            assert!(!pages.iter().any(is_alone), "{height}");
        }
    }

    #[test]
    fn nothing_is_cut_however_long_it_is_and_however_low_the_page() {
        let names: Vec<String> = (1..=400).map(|n| format!("D{n}A")).collect();
        let long = "a beam of laminated veneer over the wide opening to the garden ".repeat(9);
        let note: Vec<String> = (1..=90).map(|n| format!("note {n}")).collect();
        let table = Table {
            columns: vec![column("No.", 12.0, 0.0), column("what", 30.0, 1.0)],
            lines: vec![
                Line::Row(vec![Cell::Id(String::from("7")), Cell::List(names.clone())]),
                Line::Row(vec![Cell::Id(String::from("8")), Cell::Text(long.clone())]),
                Line::Note(note.clone()),
                Line::Break(long.clone()),
            ],
        };
        for (width, height) in [(42.0, 90.0), (160.0, 120.0)] {
            let words = drawn(&table, width, height).concat().join(" ");
            let words: Vec<&str> = words.split_whitespace().collect();
            let all = |wanted: &str| {
                let wanted: Vec<&str> = wanted.split_whitespace().collect();
                words.windows(wanted.len()).any(|some| some == wanted)
            };
            assert!(names.iter().all(|name| words.contains(&name.as_str())));
            assert!(all(long.split_once(' ').unwrap().0) && !words.iter().any(|w| w.contains('…')));
            assert!(note.iter().all(|one| all(one)));
            let count = words.iter().filter(|word| **word == "laminated").count();
            assert_eq!(count, 18);
        }
    }

    #[test]
    fn a_head_of_many_words_grows() {
        let mut table = table(1);
        table.columns[0].title = String::from("where it comes through the floor");
        let words = drawn(&table, 40.0, 90.0).concat().join(" ");
        assert!(
            words.contains("through") && words.contains("floor"),
            "{words}"
        );
    }
}
