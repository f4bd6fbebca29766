//! Two columns of short lines over as many pages as they need, with a code under the first that leaves
//! room: the cover, and the first page of a crew's sheets.

use super::frame::{self, Heading};
use super::mark::Laid;
use super::paper::{Area, Extent, Lie};
use super::table::{BODY, ID, TICK, text, tick};
use super::{Draft, Paper, code};
use crate::file::link::{Modules, qr};
use crate::picture::font::{self, Weight};
use crate::picture::{Anchor, Ink, Item, Picture, Shape};
use crate::plan::Plan;
use crate::shape::Pos;
use crate::tongue::Tongue;

/// Distance between lines of text.
const LEADING: f64 = BODY * 1.25;
/// Height of a line with a box to tick, or to write on.
const LINE: f64 = TICK + 1.4;
/// Space between the two columns.
const GUTTER: f64 = 8.0;
/// From a box to tick to the words beside it.
const BESIDE: f64 = TICK + 3.0;

/// What stands in a column, before it is wrapped.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Entry {
    /// A heading with a line under it.
    Heading(String),
    /// A name and its value.
    Pair(String, String),
    /// The same, under the pair before.
    Part(String, String),
    /// A paragraph.
    Words(String),
    /// Words with a box to tick.
    Ticked(String),
    /// A line to write on, with what belongs there.
    Blank(String),
}

/// Lays two columns out, with a code where there is a link that one code holds. `columns` is asked for
/// what stands in them, with so many of its lines to write on as the code leaves room for: each of
/// `blanks` in turn.
pub(super) fn pages(
    plan: &Plan,
    paper: &Paper,
    heading: Heading,
    link: Option<&str>,
    blanks: &[usize],
    columns: impl Fn(usize) -> [Vec<Entry>; 2],
) -> Vec<Draft> {
    let extent = paper.extent(Lie::Portrait);
    let heading = heading.said();
    let body = frame::body(plan, extent, &heading);
    let half = (body.width() - GUTTER) / 2.0;
    let left = Area::new(body.low, Pos::new(body.low.x + half, body.high.y));
    let right = Area::new(Pos::new(left.high.x + GUTTER, body.low.y), body.high);
    let modules = link.and_then(|link| qr(link).ok());
    let flows = |blanks: usize| {
        let [one, other] = columns(blanks);
        [(left, one), (right, other)]
            .map(|(area, entries)| Flow::of(area, &entries, heading.tongue))
    };
    // A line to write on gives way where that saves the code a page of its own.
    let room = |blanks: &usize| {
        let modules = modules.as_ref()?;
        free_column(&flows(*blanks), code::side(modules))
    };
    let fitting = blanks.iter().copied().find(|blanks| room(blanks).is_some());
    let flows = flows(fitting.or(blanks.first().copied()).unwrap_or(0));
    let count = flows.iter().map(|flow| flow.pages.len()).max();
    let mut pages = vec![Picture::at_scale(1.0); count.unwrap_or(1).max(1)];
    for flow in &flows {
        flow.draw(&mut pages);
    }
    if let Some(modules) = &modules {
        put_code(&mut pages, &flows, modules, heading.tongue);
    }
    let draft = |picture| draft(&heading, extent, picture);
    pages.into_iter().map(draft).collect()
}

fn draft(heading: &Heading, extent: Extent, picture: Picture) -> Draft {
    Draft {
        heading: heading.clone(),
        extent,
        layers: vec![Laid {
            picture,
            origin: Pos::default(),
        }],
        scale: None,
        goes_on: false,
    }
}

/// The first column that leaves room on the first page for a code with this side, which holds its
/// quiet zone, and a little air.
fn free_column(columns: &[Flow; 2], side: f64) -> Option<Area> {
    let is_free =
        |flow: &&Flow| flow.pages.len() <= 1 && flow.bottom() + side + 2.0 <= flow.area.high.y;
    columns.iter().find(is_free).map(|flow| flow.area)
}

/// Puts the code under the first column that leaves room for it, or on a page of its own.
fn put_code(pages: &mut Vec<Picture>, columns: &[Flow; 2], modules: &Modules, tongue: Tongue) {
    let side = code::side(modules);
    let (place, area) = match free_column(columns, side) {
        Some(area) => (0, area),
        None => {
            pages.push(Picture::at_scale(1.0));
            (pages.len() - 1, columns[0].area)
        }
    };
    let Some(page) = pages.get_mut(place) else {
        return;
    };
    let low = Pos::new(area.low.x, area.high.y - side);
    code::draw_told(page, modules, Area::new(low, area.high), tongue);
}

/// A line of a column, wrapped.
#[derive(Clone, Debug, PartialEq)]
enum Block {
    Heading(Vec<String>),
    /// How far in, the name's lines, the value's lines.
    Pair(f64, Vec<String>, Vec<String>),
    Words(Vec<String>),
    Ticked(Vec<String>),
    Blank(Vec<String>),
}

impl Block {
    fn of(entry: &Entry, width: f64, tongue: Tongue) -> Self {
        let lines =
            |words: &str, weight, size, room| font::wrap(&tongue.say(words), weight, size, room);
        let plain = |words: &str, room| lines(words, Weight::Regular, BODY, room);
        match entry {
            Entry::Heading(words) => Self::Heading(lines(words, Weight::Bold, ID, width)),
            Entry::Pair(name, value) => Self::pair(name, value, 0.0, width, tongue),
            Entry::Part(name, value) => Self::pair(name, value, 5.0, width, tongue),
            Entry::Words(words) => Self::Words(plain(words, width)),
            Entry::Ticked(words) => Self::Ticked(plain(words, width - BESIDE)),
            Entry::Blank(words) => Self::Blank(plain(words, width * 0.6)),
        }
    }

    /// A value beside its name where both fit one line, else under it.
    fn pair(name: &str, value: &str, indent: f64, width: f64, tongue: Tongue) -> Self {
        let (name, value) = (tongue.say(name), tongue.say(value));
        let wide = font::width(&value, Weight::Bold) * BODY;
        let beside = width - indent - wide - 2.0;
        let fits = font::width(&name, Weight::Regular) * BODY <= beside;
        let room = if fits { beside } else { width - indent };
        let value = font::wrap(&value, Weight::Bold, BODY, width - indent);
        Self::Pair(
            indent,
            font::wrap(&name, Weight::Regular, BODY, room),
            value,
        )
    }

    /// Whether a pair's value stands beside its name.
    fn is_beside(area: f64, indent: f64, name: &[String], value: &[String]) -> bool {
        let wide =
            |lines: &[String], weight| lines.first().map_or(0.0, |w| font::width(w, weight) * BODY);
        name.len() <= 1
            && value.len() <= 1
            && wide(name, Weight::Regular) + wide(value, Weight::Bold) + 2.0 <= area - indent + 1e-9
    }

    fn height(&self, width: f64) -> f64 {
        let text = |lines: &[String]| lines.len() as f64 * LEADING;
        match self {
            Self::Heading(lines) => 5.6 + lines.len().max(1) as f64 * ID,
            Self::Pair(indent, name, value) => match Self::is_beside(width, *indent, name, value) {
                true => LEADING,
                false => text(name) + text(value),
            },
            Self::Words(lines) => text(lines) + 1.0,
            Self::Ticked(lines) | Self::Blank(lines) => (text(lines) + 1.0).max(LINE),
        }
    }
}

/// Blocks put under each other in a column, over pages.
struct Flow {
    area: Area,
    /// Blocks of each page with the place of their top.
    pages: Vec<Vec<(f64, Block)>>,
}

impl Flow {
    fn of(area: Area, entries: &[Entry], tongue: Tongue) -> Self {
        let width = area.width();
        let pieces = entries
            .iter()
            .flat_map(|entry| pieces(Block::of(entry, width, tongue), area.height() * 0.5));
        let blocks: Vec<Block> = pieces.collect();
        let mut pages: Vec<Vec<(f64, Block)>> = vec![Vec::new()];
        let mut top = area.low.y;
        for (place, block) in blocks.iter().enumerate() {
            let next = blocks.get(place + 1).map_or(0.0, |next| next.height(width));
            // A heading stays with what it stands over.
            let kept = match block {
                Block::Heading(_) => next,
                _ => 0.0,
            };
            if top + block.height(width) + kept > area.high.y && top > area.low.y {
                pages.push(Vec::new());
                top = area.low.y;
            }
            if let Some(page) = pages.last_mut() {
                page.push((top, block.clone()));
            }
            top += block.height(width);
        }
        Self { area, pages }
    }

    /// Where the last block of the last page ends.
    fn bottom(&self) -> f64 {
        let last = self.pages.last().and_then(|page| page.last());
        last.map_or(self.area.low.y, |(top, block)| {
            top + block.height(self.area.width())
        })
    }

    fn draw(&self, pages: &mut [Picture]) {
        for (page, blocks) in pages.iter_mut().zip(&self.pages) {
            for (top, block) in blocks {
                draw_block(page, self.area, *top, block);
            }
        }
    }
}

/// A paragraph in pieces no taller than this, so that every page has room for it.
fn pieces(block: Block, tallest: f64) -> Vec<Block> {
    let most = ((tallest / LEADING) as usize).max(1);
    match block {
        Block::Words(lines) => lines
            .chunks(most)
            .map(|some| Block::Words(some.to_vec()))
            .collect(),
        other => vec![other],
    }
}

fn draw_block(page: &mut Picture, area: Area, top: f64, block: &Block) {
    let (left, right, width) = (area.low.x, area.high.x, area.width());
    let base = top + BODY * font::ASCENT;
    let bottom = top + block.height(width);
    match block {
        Block::Heading(lines) => {
            put(page, (left, top + 7.0), &HEADING, lines);
            rule(page, Ink::Heavy, area, bottom - 1.6);
        }
        Block::Pair(indent, name, value) => {
            let beside = Block::is_beside(width, *indent, name, value);
            let under = if beside { 0.0 } else { lines_height(name) };
            put(page, (left + indent, base), &PLAIN, name);
            put(page, (right, base + under), &VALUE, value);
        }
        Block::Words(lines) => put(page, (left, base), &PLAIN, lines),
        Block::Blank(lines) => {
            let first = bottom - 1.0 - lines_height(lines) + LEADING;
            put(page, (left, first), &PLAIN, lines);
            rule(page, Ink::Rule, area, bottom);
        }
        Block::Ticked(lines) => {
            let middle = (top + bottom) / 2.0;
            let up = (lines_height(lines) - LEADING) / 2.0;
            let first = middle + BODY * font::CAP_HEIGHT / 2.0 - up;
            put(page, (left + BESIDE, first), &PLAIN, lines);
            tick(page, Pos::new(left + TICK / 2.0 + 0.3, middle));
        }
    }
}

fn lines_height(lines: &[String]) -> f64 {
    lines.len() as f64 * LEADING
}

/// How lines are set.
struct Setting {
    anchor: Anchor,
    weight: Weight,
    size: f64,
    step: f64,
}

const PLAIN: Setting = Setting {
    anchor: Anchor::Start,
    weight: Weight::Regular,
    size: BODY,
    step: LEADING,
};
const VALUE: Setting = Setting {
    anchor: Anchor::End,
    weight: Weight::Bold,
    ..PLAIN
};
const HEADING: Setting = Setting {
    weight: Weight::Bold,
    size: ID,
    step: ID,
    ..PLAIN
};

/// Lines under each other from a place on.
fn put(page: &mut Picture, (x, y): (f64, f64), set: &Setting, lines: &[String]) {
    for (down, words) in lines.iter().enumerate() {
        let at = Pos::new(x, y + down as f64 * set.step);
        page.push(text(at, set.anchor, set.size, set.weight, words));
    }
}

fn rule(page: &mut Picture, ink: Ink, area: Area, y: f64) {
    let ends = [area.low.x, area.high.x].map(|x| Pos::new(x, y));
    page.push(Item::plain(ink, Shape::Line(ends.to_vec())));
}
