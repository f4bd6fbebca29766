//! Tables on paper: one thing a row, rows of one height, columns that share the width.
//!
//! Text that is too long for its cell takes a second line and is then shortened; a row never grows,
//! so that a finger finds its line. What was shortened stands in full in a note under its row.

use super::paper::Area;
use crate::picture::font::{self, MM_PER_POINT, Weight};
use crate::picture::{Anchor, Ink, Item, Picture, Shape, Text};
use crate::shape::Pos;

/// Running text, paper millimetres: 10 pt.
pub(super) const BODY: f64 = 10.0 * MM_PER_POINT;
/// Identities, paper millimetres: 13 pt.
pub(super) const ID: f64 = 13.0 * MM_PER_POINT;
/// Side of a tick box: 1/4 in.
pub(super) const TICK: f64 = 6.35;
/// Height of a row: a tick box and air, or two lines of text.
pub(super) const ROW: f64 = 9.0;
/// Height of the head: two lines of text.
pub(super) const HEAD: f64 = 9.5;
/// Height of a heading between rows.
const BREAK: f64 = 8.0;
/// A line that crosses out goes so far past the words on both sides.
const STRIKE: f64 = 1.0;
/// Space at both sides of a cell.
const PAD: f64 = 1.0;
/// Distance between the two lines of a cell, as a share of the font size.
const LEADING: f64 = 1.12;

/// A column.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Column {
    /// Its head.
    pub title: &'static str,
    /// Its least width, millimetres.
    pub least: f64,
    /// Its part of what is left over; 0 for none.
    pub share: f64,
    /// Where its text stands.
    pub anchor: Anchor,
}

/// A column of text.
pub(super) const fn column(title: &'static str, least: f64, share: f64) -> Column {
    Column {
        title,
        least,
        share,
        anchor: Anchor::Start,
    }
}

/// A column of figures, flush right.
pub(super) const fn figures(title: &'static str, least: f64) -> Column {
    Column {
        title,
        least,
        share: 0.0,
        anchor: Anchor::End,
    }
}

/// A column of tick boxes or short words, centred.
pub(super) const fn centred(title: &'static str, least: f64) -> Column {
    Column {
        title,
        least,
        share: 0.0,
        anchor: Anchor::Middle,
    }
}

/// What a cell holds.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Cell {
    /// Running text.
    Text(String),
    /// Running text in bold.
    Strong(String),
    /// An identity: 13 pt bold, one line.
    Id(String),
    /// An identity that counts no more: crossed out.
    Struck(String),
    /// Words of one kind, such as cables: as many as fit, then how many more.
    List(Vec<String>),
    /// A box to tick.
    Tick,
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
    /// What belongs to the row before and has no room in its cells, over the table's width: one
    /// entry a line once [`Table::fitted`] has wrapped it.
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
        self.columns.iter().map(|column| column.least).sum()
    }

    /// The table with its notes wrapped to a width, and what its cells have no room for at that
    /// width in notes.
    pub fn fitted(mut self, width: f64) -> Self {
        self.note_what_is_cut(width);
        let first = self.columns.first().map_or(0.0, |column| column.least);
        let room = width - first - 2.0 * PAD;
        for line in &mut self.lines {
            if let Line::Note(words) = line {
                let wrapped = words
                    .iter()
                    .flat_map(|words| font::wrap(words, Weight::Regular, BODY, room));
                *words = wrapped.collect();
            }
        }
        self
    }

    fn note_what_is_cut(&mut self, width: f64) {
        let edges = self.edges(0.0, width);
        let cut = |cells: &[Cell]| -> Vec<String> {
            let cells = cells.iter().zip(edges.windows(2));
            let long = cells.filter_map(|(cell, span)| cell.cut(span[1] - span[0] - 2.0 * PAD));
            long.map(str::to_string).collect()
        };
        let mut noted = Vec::with_capacity(self.lines.len());
        let mut pending: Vec<String> = Vec::new();
        for line in std::mem::take(&mut self.lines) {
            match line {
                Line::Note(words) => {
                    pending.extend(words);
                    noted.push(Line::Note(std::mem::take(&mut pending)));
                }
                other => {
                    if !pending.is_empty() {
                        noted.push(Line::Note(std::mem::take(&mut pending)));
                    }
                    if let Line::Row(cells) = &other {
                        pending = cut(cells);
                    }
                    noted.push(other);
                }
            }
        }
        if !pending.is_empty() {
            noted.push(Line::Note(pending));
        }
        self.lines = noted;
    }

    /// What a line needs below it on its page: a heading, with its note if it has one, the row after it,
    /// a row its note.
    fn needed(&self, place: usize) -> f64 {
        let own = self.lines.get(place).map_or(0.0, Line::height);
        let heads = |place: usize| matches!(self.lines.get(place), Some(Line::Break(_)));
        match (self.lines.get(place), self.lines.get(place + 1)) {
            (Some(Line::Break(_)), Some(Line::Row(_) | Line::Note(_))) => {
                own + self.needed(place + 1)
            }
            (Some(Line::Note(_)), Some(Line::Row(_))) if place > 0 && heads(place - 1) => {
                own + self.needed(place + 1)
            }
            (Some(Line::Row(_)), Some(note @ Line::Note(_))) => own + note.height(),
            _ => own,
        }
    }

    /// Cuts the lines into pages that fit a height. A heading stays with the row after it, a note
    /// with the row before. At least one page, even for a table without lines.
    pub fn pages(&self, height: f64) -> Vec<&[Line]> {
        let mut pages = Vec::new();
        let (mut first, mut used) = (0, HEAD);
        for (place, line) in self.lines.iter().enumerate() {
            if used + self.needed(place) > height && place > first {
                pages.push(&self.lines[first..place]);
                (first, used) = (place, HEAD);
            }
            used += line.height();
        }
        pages.push(&self.lines[first..]);
        pages
    }

    /// Draws lines with the head over them, into an area whose height [`Table::pages`] was given.
    pub fn draw(&self, page: &mut Picture, area: Area, lines: &[Line]) {
        let edges = self.edges(area.low.x, area.width());
        self.draw_head(page, area, &edges);
        let mut top = area.low.y + HEAD;
        for (number, line) in lines.iter().enumerate() {
            match line {
                Line::Note(words) => {
                    let indent = edges.get(1).map_or(area.low.x, |edge| *edge) + PAD;
                    for (place, words) in words.iter().enumerate() {
                        let y = top + BODY + place as f64 * BODY * LEADING - 0.6;
                        let at = Pos::new(indent, y);
                        page.push(text(at, Anchor::Start, BODY, Weight::Regular, words));
                    }
                }
                Line::Row(cells) => {
                    for ((cell, column), span) in
                        cells.iter().zip(&self.columns).zip(edges.windows(2))
                    {
                        draw_cell(page, cell, column.anchor, (span[0], span[1]), top);
                    }
                }
                Line::Break(words) => {
                    let at = Pos::new(area.low.x + PAD, top + BREAK - 2.4);
                    let room = area.width() - 2.0 * PAD;
                    let words = font::shorten(words, Weight::Bold, BODY, room);
                    page.push(text(at, Anchor::Start, BODY, Weight::Bold, &words));
                }
            }
            top += line.height();
            if !matches!(lines.get(number + 1), Some(Line::Note(_))) {
                rule(page, Ink::Rule, area, top);
            }
        }
    }

    /// Where columns begin and end.
    fn edges(&self, left: f64, width: f64) -> Vec<f64> {
        let spare = (width - self.least_width()).max(0.0);
        let shares: f64 = self.columns.iter().map(|c| c.share).sum();
        let mut edges = vec![left];
        let mut at = left;
        for column in &self.columns {
            let part = if shares > 0.0 {
                column.share / shares
            } else {
                0.0
            };
            at += column.least + spare * part;
            edges.push(at);
        }
        edges
    }

    fn draw_head(&self, page: &mut Picture, area: Area, edges: &[f64]) {
        for (column, span) in self.columns.iter().zip(edges.windows(2)) {
            let room = span[1] - span[0] - 2.0 * PAD;
            let lines = font::wrap(column.title, Weight::Bold, BODY, room);
            let last = area.low.y + HEAD - 1.8;
            let x = place(column.anchor, (span[0], span[1]));
            for (up, words) in lines.iter().rev().take(2).enumerate() {
                let at = Pos::new(x, last - up as f64 * BODY * LEADING);
                page.push(text(at, column.anchor, BODY, Weight::Bold, words));
            }
        }
        rule(page, Ink::Heavy, area, area.low.y + HEAD);
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

    /// Its words, where they are shortened in a room of this width. A list counts what it leaves out,
    /// an identity is never longer than its column.
    fn cut(&self, room: f64) -> Option<&str> {
        let (words, weight) = match self {
            Self::Text(words) => (words, Weight::Regular),
            Self::Strong(words) => (words, Weight::Bold),
            _ => return None,
        };
        let lines = two_lines(words, weight, BODY, room);
        let cut = |line: &String| line.ends_with('…') || line.is_empty();
        let is_whole = words.ends_with('…') || !lines.iter().any(cut);
        (!is_whole).then_some(words.as_str())
    }
}

impl Line {
    fn height(&self) -> f64 {
        match self {
            Self::Row(_) => ROW,
            Self::Break(_) => BREAK,
            Self::Note(words) => words.len() as f64 * BODY * LEADING + 1.8,
        }
    }
}

fn rule(page: &mut Picture, ink: Ink, area: Area, y: f64) {
    let ends = vec![Pos::new(area.low.x, y), Pos::new(area.high.x, y)];
    page.push(Item::plain(ink, Shape::Line(ends)));
}

fn place(anchor: Anchor, (left, right): (f64, f64)) -> f64 {
    match anchor {
        Anchor::Start => left + PAD,
        Anchor::Middle => (left + right) / 2.0,
        Anchor::End => right - PAD,
    }
}

fn draw_cell(page: &mut Picture, cell: &Cell, anchor: Anchor, span: (f64, f64), top: f64) {
    let room = span.1 - span.0 - 2.0 * PAD;
    let x = place(anchor, span);
    let middle = top + ROW / 2.0;
    let mut put = |lines: &[String], size: f64, weight| {
        let step = size * LEADING;
        let first =
            middle + font::CAP_HEIGHT / 2.0 * size - step * (lines.len() as f64 - 1.0) / 2.0;
        for (place, words) in lines.iter().enumerate() {
            let at = Pos::new(x, first + place as f64 * step);
            page.push(text(at, anchor, size, weight, words));
        }
    };
    match cell {
        Cell::Text(words) => put(
            &two_lines(words, Weight::Regular, BODY, room),
            BODY,
            Weight::Regular,
        ),
        Cell::Strong(words) => put(
            &two_lines(words, Weight::Bold, BODY, room),
            BODY,
            Weight::Bold,
        ),
        Cell::Id(words) => {
            let line = font::shorten(words, Weight::Bold, ID, room);
            put(&[line], ID, Weight::Bold);
        }
        Cell::Struck(words) => {
            let line = font::shorten(words, Weight::Bold, ID, room);
            let half = font::width(&line, Weight::Bold) * ID / 2.0 + STRIKE;
            put(&[line], ID, Weight::Bold);
            let centre = match anchor {
                Anchor::Start => x + half - STRIKE,
                Anchor::Middle => x,
                Anchor::End => x - half + STRIKE,
            };
            let ends = [centre - half, centre + half].map(|x| Pos::new(x, middle));
            page.push(Item::plain(Ink::Heavy, Shape::Line(ends.to_vec())));
        }
        Cell::List(words) => put(&listed(words, room), BODY, Weight::Bold),
        Cell::Tick => tick(page, Pos::new((span.0 + span.1) / 2.0, middle)),
        Cell::Ticked => ticked(page, Pos::new((span.0 + span.1) / 2.0, middle)),
        Cell::Blank => {
            let y = top + ROW - 1.8;
            let ends = vec![Pos::new(span.0 + PAD, y), Pos::new(span.1 - PAD, y)];
            page.push(Item::plain(Ink::Rule, Shape::Line(ends)));
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

/// At most two lines; what is left of the text is shortened into the second.
pub(super) fn two_lines(words: &str, weight: Weight, size: f64, room: f64) -> Vec<String> {
    let lines = font::wrap(words, weight, size, room);
    match lines.as_slice() {
        [first, _, _, ..] => {
            let rest = words
                .split_whitespace()
                .skip(first.split_whitespace().count());
            let rest = rest.collect::<Vec<_>>().join(" ");
            vec![first.clone(), font::shorten(&rest, weight, size, room)]
        }
        _ => lines,
    }
}

/// As many words as fit two lines, then "+ 7": how many more there are.
fn listed(words: &[String], room: f64) -> Vec<String> {
    for kept in (0..=words.len()).rev() {
        let mut shown = words[..kept].to_vec();
        if kept < words.len() {
            shown.push(format!("+{}", words.len() - kept));
        }
        let lines = font::wrap(&shown.join(" "), Weight::Bold, BODY, room);
        if lines.len() <= 2 && !lines.iter().any(|line| line.ends_with('…')) {
            return lines;
        }
    }
    Vec::new()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn table(rows: usize) -> Table {
        let row = |n: usize| Line::Row(vec![Cell::Id(n.to_string()), Cell::Tick]);
        let mut lines = vec![Line::Break(String::from("Ground"))];
        lines.extend((0..rows).map(row));
        Table {
            columns: vec![column("No.", 12.0, 1.0), centred("drilled", 14.0)],
            lines,
        }
    }

    #[test]
    fn every_line_stands_on_one_page_in_order() {
        let table = table(50);
        let pages = table.pages(120.0);
        assert!(pages.len() > 4);
        let lines: Vec<&Line> = pages.iter().flat_map(|page| page.iter()).collect();
        assert!(lines.into_iter().eq(table.lines.iter()));
        assert_eq!(super::tests::table(0).pages(120.0).len(), 1);
    }

    #[test]
    fn a_heading_is_not_left_at_the_foot() {
        let mut table = table(10);
        table.lines.insert(11, Line::Break(String::from("Upper")));
        table
            .lines
            .push(Line::Row(vec![Cell::Id(String::from("x"))]));
        let height = HEAD + BREAK + 10.0 * ROW + BREAK + 1.0;
        let pages = table.pages(height);
        assert!(matches!(pages[1][0], Line::Break(_)));
    }

    #[test]
    fn what_does_not_fit_is_counted() {
        let names: Vec<String> = (1..=18).map(|n| format!("D{n}A")).collect();
        let lines = listed(&names, 40.0);
        assert!(lines.len() <= 2);
        assert!(
            lines.last().is_some_and(|line| line.contains('+')),
            "{lines:?}"
        );
        assert_eq!(listed(&names[..2], 40.0), ["D1A D2A"]);
    }

    #[test]
    fn what_is_shortened_stands_in_full_under_its_row() {
        let mut table = table(2);
        let long = "a beam of laminated veneer over the wide opening to the garden";
        table.lines.push(Line::Row(vec![Cell::Text(long.into())]));
        table.lines.push(Line::Note(vec![String::from("its note")]));
        let fitted = table.clone().fitted(60.0);
        let note = |words: &[&str]| Line::Note(words.iter().map(|w| (*w).to_string()).collect());
        assert_eq!(fitted.lines.len(), table.lines.len());
        let wrapped = font::wrap(long, Weight::Regular, BODY, 60.0 - 12.0 - 2.0 * PAD);
        let mut words: Vec<&str> = wrapped.iter().map(String::as_str).collect();
        words.push("its note");
        assert_eq!(fitted.lines.last(), Some(&note(&words)));
        assert_eq!(table.clone().fitted(160.0).lines, table.lines);
    }

    #[test]
    fn long_text_takes_two_lines_and_is_shortened() {
        let lines = two_lines(
            "W12, studs 3 to 9 from its W4 end, above the header of the window",
            Weight::Regular,
            BODY,
            40.0,
        );
        assert_eq!(lines.len(), 2);
        assert!(lines[1].ends_with('…'));
    }
}
