//! A table wrapped to a width: how tall each line is, where it is cut into pages, and how it is drawn.

use super::{BODY, Cell, ID, Line, PAD, TICK, Table, text, tick, ticked};
use crate::picture::font::{self, Weight};
use crate::picture::{Anchor, Ink, Item, Picture, Shape};
use crate::shape::Pos;
use crate::sheet::paper::Area;

/// Distance between the lines of a cell, as a share of the font size.
const LEADING: f64 = 1.1;
/// Air over and under the words of a line, together.
const AIR: f64 = 0.6;
/// From the left of a table to the words under a row.
const INDENT: f64 = 6.0;
/// The least height of a row: a finger finds its line.
const ROW: f64 = 6.6;
/// ... of one with a box to tick or a line to write on.
const WRITTEN: f64 = TICK + 0.6;
/// The least height of the head: a line of text.
const HEAD: f64 = 6.0;
/// Space over the words of a heading between rows.
const OVER: f64 = 1.2;
/// Between a box to tick and what stands beside it.
const BESIDE: f64 = 1.2;
/// A line that crosses out goes so far past the words on both sides.
const STRIKE: f64 = 0.8;
/// A row or note with more lines than this goes on in another, so that every page has room for it.
const MOST: usize = 12;

/// Headings taller than this are not repeated.
const MOST_OVER: f64 = 20.0;

/// A table wrapped to a width.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::sheet) struct Fitted {
    edges: Vec<f64>,
    anchors: Vec<Anchor>,
    head: Vec<Vec<String>>,
    lines: Vec<Fit>,
}

/// A line that is wrapped.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::sheet) enum Fit {
    /// One entry a column; whether it goes on from the row before.
    Row(Vec<Put>, bool),
    Break(Vec<String>),
    Note(Vec<String>),
}

/// What a cell holds once it is wrapped.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::sheet) enum Put {
    Lines(Vec<String>, f64, Weight),
    Struck(String),
    TickOf(Vec<String>),
    Tick,
    Ticked,
    Blank,
}

impl Fitted {
    pub(super) fn of(table: &Table, width: f64) -> Self {
        let edges = table.edges(width);
        let rooms: Vec<f64> = edges
            .windows(2)
            .map(|span| span[1] - span[0] - 2.0 * PAD)
            .collect();
        let beside = width - INDENT - PAD;
        let heads = table.columns.iter().zip(&rooms);
        let head = heads.map(|(column, room)| font::wrap(&column.title, Weight::Bold, BODY, *room));
        let lines = table.lines.iter().flat_map(|line| match line {
            Line::Row(cells) => rows(cells, &rooms),
            Line::Break(words) => {
                let lines = font::wrap(words, Weight::Bold, BODY, width - 2.0 * PAD);
                lines
                    .chunks(MOST)
                    .map(|some| Fit::Break(some.to_vec()))
                    .collect()
            }
            Line::Note(words) => notes(words, beside),
        });
        Self {
            head: head.collect(),
            lines: lines.collect(),
            anchors: table.columns.iter().map(|column| column.anchor).collect(),
            edges,
        }
    }

    /// Height of the head.
    fn head_height(&self) -> f64 {
        let lines = self.head.iter().map(Vec::len).max().unwrap_or(0);
        (lines as f64 * BODY * LEADING + 1.6).max(HEAD)
    }

    /// What a line needs below it on its page: a heading the row after it, a row its note.
    fn needed(&self, place: usize) -> f64 {
        let own = self.lines.get(place).map_or(0.0, Fit::height);
        match (self.lines.get(place), self.lines.get(place + 1)) {
            (Some(Fit::Break(_)), Some(_)) => own + self.needed(place + 1),
            // A heading's own note stands with the row after it, too.
            (Some(Fit::Note(_)), Some(Fit::Row(..))) if place > 0 && self.is_heading(place - 1) => {
                own + self.needed(place + 1)
            }
            (Some(Fit::Row(..)), Some(note @ Fit::Note(_))) => own + note.height(),
            _ => own,
        }
    }

    fn is_heading(&self, place: usize) -> bool {
        matches!(self.lines.get(place), Some(Fit::Break(_)))
    }

    /// Cuts the lines into pages that fit a height. A heading stays with the row after it, a note
    /// with the row before. At least one page, even for a table without lines.
    /// The first of them may have other heights.
    /// A page that begins under a heading repeats it.
    pub fn pages(&self, begun: &[f64], rest: f64) -> Vec<Vec<Fit>> {
        let head = self.head_height();
        let mut pages: Vec<Vec<Fit>> = Vec::new();
        let (mut first, mut used) = (0, head);
        let page = |first: usize, lines: &[Fit]| [self.over(first), lines].concat();
        let mut height = begun.first().copied().unwrap_or(rest);
        for (place, line) in self.lines.iter().enumerate() {
            // A heading moved on takes along the headings over it.
            let alone = self.lines[first..place]
                .iter()
                .all(|before| matches!(before, Fit::Break(_)));
            let is_full = used + line.height() > height && place > first;
            if is_full || (used + self.needed(place) > height && !alone) {
                pages.push(page(first, &self.lines[first..place]));
                (first, used) = (place, head + heights(self.over(place)));
                height = begun.get(pages.len()).copied().unwrap_or(rest);
            }
            used += line.height();
        }
        pages.push(page(first, &self.lines[first..]));
        pages
    }

    /// The headings that a line stands under; none over a heading itself, nor where they would take a page.
    fn over(&self, place: usize) -> &[Fit] {
        let before = self.lines.get(..place).unwrap_or_default();
        let last = before
            .iter()
            .rposition(|line| matches!(line, Fit::Break(_)));
        let Some(last) = last.filter(|_| place < self.lines.len() && !self.is_heading(place))
        else {
            return &[];
        };
        let first = (0..last).rev().take_while(|at| self.is_heading(*at)).last();
        let over = &before[first.unwrap_or(last)..=last];
        match heights(over) < MOST_OVER {
            true => over,
            false => &[],
        }
    }

    /// How tall lines are with the head over them.
    pub fn height(&self, lines: &[Fit]) -> f64 {
        self.head_height() + heights(lines)
    }

    /// Draws lines with the head over them, into an area whose height [`Fitted::pages`] was given.
    pub fn draw(&self, page: &mut Picture, area: Area, lines: &[Fit]) {
        self.draw_head(page, area);
        let mut top = area.low.y + self.head_height();
        for (number, line) in lines.iter().enumerate() {
            self.draw_line(page, area, top, line);
            top += line.height();
            let goes_on = matches!(
                lines.get(number + 1),
                Some(Fit::Note(_) | Fit::Row(_, true))
            );
            if !goes_on {
                rule(page, Ink::Rule, area, top);
            }
        }
    }

    fn draw_line(&self, page: &mut Picture, area: Area, top: f64, line: &Fit) {
        let left = area.low.x;
        match line {
            Fit::Note(words) => {
                let indent = left + INDENT;
                let first = top + BODY - 0.6;
                put_lines(page, Anchor::Start, (indent, first), words, Weight::Regular);
            }
            Fit::Break(words) => {
                let first = top + OVER + BODY * font::CAP_HEIGHT + 0.6;
                put_lines(
                    page,
                    Anchor::Start,
                    (left + PAD, first),
                    words,
                    Weight::Bold,
                );
            }
            Fit::Row(cells, _) => {
                let middle = top + line.height() / 2.0;
                let spans = self.edges.windows(2).zip(&self.anchors);
                for (cell, (span, anchor)) in cells.iter().zip(spans) {
                    draw_cell(
                        page,
                        cell,
                        *anchor,
                        (left + span[0], left + span[1]),
                        middle,
                    );
                }
            }
        }
    }

    fn draw_head(&self, page: &mut Picture, area: Area) {
        let height = self.head_height();
        let spans = self.edges.windows(2).zip(&self.anchors);
        for (words, (span, anchor)) in self.head.iter().zip(spans) {
            let last = area.low.y + height - 1.8;
            let first = last - (words.len().max(1) - 1) as f64 * BODY * LEADING;
            let x = place(*anchor, (area.low.x + span[0], area.low.x + span[1]));
            put_lines(page, *anchor, (x, first), words, Weight::Bold);
        }
        rule(page, Ink::Heavy, area, area.low.y + height);
    }
}

impl Fit {
    fn height(&self) -> f64 {
        let text = |lines: usize| lines as f64 * BODY * LEADING;
        match self {
            Self::Row(cells, goes_on) => {
                let least = if *goes_on { 0.0 } else { ROW };
                cells.iter().map(Put::height).fold(least, f64::max)
            }
            Self::Break(words) => text(words.len()) + OVER + 1.0,
            Self::Note(words) => text(words.len()) + 1.4,
        }
    }
}

impl Put {
    fn height(&self) -> f64 {
        match self {
            Self::Lines(lines, ..) if lines.is_empty() => 0.0,
            Self::Lines(lines, size, _) => lines.len() as f64 * size * LEADING + AIR,
            Self::Struck(_) => ID * LEADING + AIR,
            Self::TickOf(lines) => WRITTEN.max(lines.len() as f64 * BODY * LEADING + AIR),
            Self::Tick | Self::Ticked | Self::Blank => WRITTEN,
        }
    }

    fn lines(&self) -> usize {
        match self {
            Self::Lines(lines, ..) => lines.len(),
            _ => 0,
        }
    }

    /// The part of its words that belongs to the row's `nth` piece.
    fn piece(&self, nth: usize) -> Self {
        match self {
            Self::Lines(lines, size, weight) => {
                let some = lines.chunks(MOST).nth(nth).unwrap_or_default();
                Self::Lines(some.to_vec(), *size, *weight)
            }
            other if nth == 0 => other.clone(),
            _ => Self::Lines(Vec::new(), BODY, Weight::Regular),
        }
    }
}

fn heights(lines: &[Fit]) -> f64 {
    lines.iter().map(Fit::height).sum()
}

/// How tall the rows of a table are together if its columns begin and end here.
pub(super) fn rows_height(table: &Table, edges: &[f64]) -> f64 {
    let rooms: Vec<f64> = edges
        .windows(2)
        .map(|span| span[1] - span[0] - 2.0 * PAD)
        .collect();
    let heights = table.lines.iter().map(|line| match line {
        Line::Row(cells) => rows(cells, &rooms).iter().map(Fit::height).sum(),
        Line::Break(_) | Line::Note(_) => 0.0,
    });
    heights.sum()
}

/// A row, in as many pieces as its longest cell asks for.
fn rows(cells: &[Cell], rooms: &[f64]) -> Vec<Fit> {
    let cells: Vec<Put> = cells
        .iter()
        .zip(rooms)
        .map(|(cell, room)| wrapped(cell, *room))
        .collect();
    let longest = cells.iter().map(Put::lines).max().unwrap_or(0);
    let piece = |nth| Fit::Row(cells.iter().map(|cell| cell.piece(nth)).collect(), nth > 0);
    (0..longest.div_ceil(MOST).max(1)).map(piece).collect()
}

fn wrapped(cell: &Cell, room: f64) -> Put {
    let lines =
        |words: &str, size, weight| Put::Lines(font::wrap(words, weight, size, room), size, weight);
    match cell {
        Cell::Text(words) => lines(words, BODY, Weight::Regular),
        Cell::Strong(words) => lines(words, BODY, Weight::Bold),
        Cell::Id(words) => lines(words, ID, Weight::Bold),
        Cell::Struck(words) => Put::Struck(words.clone()),
        Cell::List(words) => lines(&words.join(" "), BODY, Weight::Bold),
        Cell::TickOf(words) => {
            let room = room - TICK - BESIDE;
            Put::TickOf(font::wrap(words, Weight::Regular, BODY, room))
        }
        Cell::Tick => Put::Tick,
        Cell::Ticked => Put::Ticked,
        Cell::Blank => Put::Blank,
    }
}

fn notes(words: &[String], room: f64) -> Vec<Fit> {
    let wrapped: Vec<String> = words
        .iter()
        .flat_map(|words| font::wrap(words, Weight::Regular, BODY, room))
        .collect();
    let some = wrapped.chunks(MOST).map(|some| Fit::Note(some.to_vec()));
    some.collect()
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

/// Lines of running text under each other, the first on the line `y`.
fn put_lines(
    page: &mut Picture,
    anchor: Anchor,
    (x, y): (f64, f64),
    lines: &[String],
    weight: Weight,
) {
    for (down, words) in lines.iter().enumerate() {
        let at = Pos::new(x, y + down as f64 * BODY * LEADING);
        page.push(text(at, anchor, BODY, weight, words));
    }
}

fn draw_cell(page: &mut Picture, cell: &Put, anchor: Anchor, span: (f64, f64), middle: f64) {
    match cell {
        Put::Lines(lines, size, weight) => {
            let step = size * LEADING;
            let up = step * (lines.len() as f64 - 1.0) / 2.0;
            let first = middle + font::CAP_HEIGHT / 2.0 * size - up;
            for (down, words) in lines.iter().enumerate() {
                let at = Pos::new(place(anchor, span), first + down as f64 * step);
                page.push(text(at, anchor, *size, *weight, words));
            }
        }
        Put::Struck(words) => {
            let at = Pos::new(place(anchor, span), middle + font::CAP_HEIGHT / 2.0 * ID);
            page.push(text(at, anchor, ID, Weight::Bold, words));
            let wide = font::width(words, Weight::Bold) * ID;
            let left = match anchor {
                Anchor::Start => at.x,
                Anchor::Middle => at.x - wide / 2.0,
                Anchor::End => at.x - wide,
            };
            let ends = [left - STRIKE, left + wide + STRIKE].map(|x| Pos::new(x, middle));
            page.push(Item::plain(Ink::Heavy, Shape::Line(ends.to_vec())));
        }
        Put::TickOf(lines) => {
            let x = span.0 + PAD;
            tick(page, Pos::new(x + TICK / 2.0, middle));
            let up = BODY * LEADING * lines.len().saturating_sub(1) as f64 / 2.0;
            let first = middle + font::CAP_HEIGHT / 2.0 * BODY - up;
            let at = (x + TICK + BESIDE, first);
            put_lines(page, Anchor::Start, at, lines, Weight::Regular);
        }
        Put::Tick => tick(page, Pos::new((span.0 + span.1) / 2.0, middle)),
        Put::Ticked => ticked(page, Pos::new((span.0 + span.1) / 2.0, middle)),
        Put::Blank => {
            let y = middle + WRITTEN / 2.0 - 1.6;
            let ends = vec![Pos::new(span.0 + PAD, y), Pos::new(span.1 - PAD, y)];
            page.push(Item::plain(Ink::Rule, Shape::Line(ends)));
        }
    }
}
