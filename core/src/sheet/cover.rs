//! The cover: which job, which revision, what it takes, what to bring, what to mind.

use super::mark::Laid;
use super::paper::{Area, Extent, Lie};
use super::table::{BODY, ID, TICK, text, tick};
use super::{Draft, Kind, Paper, caution, code, frame};
use crate::design::Design;
use crate::file::link::{Modules, qr};
use crate::finding::Severity;
use crate::picture::font::{self, Weight};
use crate::picture::{Anchor, Ink, Item, Picture, Shape};
use crate::plan::Plan;
use crate::shape::Pos;
use crate::units::Units;

/// Distance between lines of text.
const LEADING: f64 = BODY * 1.25;
/// Height of a line of the list of what to bring.
const LINE: f64 = TICK + 1.4;
/// Space between the two columns.
const GUTTER: f64 = 8.0;
/// Lines to write on under who to call: as many as there should be, and as many as will do.
const CALLS: [usize; 2] = [3, 2];

/// The cover, over as many pages as it needs, with a code where a link is given that one code can
/// hold.
pub(super) fn pages(plan: &Plan, design: &Design, paper: &Paper, link: Option<&str>) -> Vec<Draft> {
    let extent = paper
        .extents(Lie::Portrait)
        .first()
        .copied()
        .unwrap_or_default();
    let body = frame::body(plan, extent);
    let half = (body.width() - GUTTER) / 2.0;
    let left = Area::new(body.low, Pos::new(body.low.x + half, body.high.y));
    let right = Area::new(Pos::new(left.high.x + GUTTER, body.low.y), body.high);
    let modules = link.and_then(|link| qr(link).ok());
    let columns = |blanks| {
        [
            Flow::of(left, left_column(plan, design, half, blanks)),
            Flow::of(right, right_column(plan, design, half)),
        ]
    };
    // A line to write on gives way where that saves the code a page of its own.
    let room = |blanks: &usize| {
        let modules = modules.as_ref()?;
        free_column(&columns(*blanks), code::side(modules))
    };
    let blanks = CALLS.into_iter().find(|blanks| room(blanks).is_some());
    let columns = columns(blanks.unwrap_or(CALLS[0]));
    let count = columns.iter().map(|flow| flow.pages.len()).max();
    let mut pages = vec![Picture::at_scale(1.0); count.unwrap_or(1).max(1)];
    for flow in &columns {
        flow.draw(&mut pages);
    }
    if let Some(modules) = &modules {
        put_code(&mut pages, &columns, modules);
    }
    let draft = |picture| draft(plan, extent, picture);
    pages.into_iter().map(draft).collect()
}

fn draft(plan: &Plan, extent: Extent, picture: Picture) -> Draft {
    Draft {
        kind: Kind::Cover,
        title: plan.title.clone(),
        subtitle: match plan.date.is_empty() {
            true => format!("Low-voltage cabling · revision {}", plan.revision),
            false => format!(
                "Low-voltage cabling · revision {} · {}",
                plan.revision, plan.date
            ),
        },
        name: String::from("Cover"),
        corner: String::from("Cover"),
        extent,
        layers: vec![Laid {
            picture,
            origin: Pos::default(),
        }],
        scale: None,
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
fn put_code(pages: &mut Vec<Picture>, columns: &[Flow; 2], modules: &Modules) {
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
    code::draw(page, modules, Area::new(low, area.high));
    let at = Pos::new(low.x + side + 1.0, low.y + side / 2.0 - LEADING);
    let words = "This plan on your phone: nothing to install.";
    let lines = font::wrap(words, Weight::Regular, BODY, (area.high.x - at.x).max(20.0));
    for (place, line) in lines.iter().enumerate() {
        let at = at + Pos::new(0.0, place as f64 * LEADING);
        page.push(text(at, Anchor::Start, BODY, Weight::Regular, line));
    }
}

fn left_column(plan: &Plan, design: &Design, width: f64, blanks: usize) -> Vec<Block> {
    let mut blocks = vec![Block::Heading(String::from("Totals"))];
    blocks.extend(
        totals(plan, design)
            .into_iter()
            .map(|(n, v)| Block::Pair(n, v)),
    );
    blocks.push(Block::Heading(String::from("To look at")));
    blocks.extend(paragraph(&to_look_at(design), width));
    if !plan.note.trim().is_empty() {
        blocks.push(Block::Heading(String::from("Note")));
        blocks.extend(paragraph(&plan.note, width));
    }
    blocks.push(Block::Heading(String::from("Who to call")));
    blocks.extend((0..blanks).map(|_| Block::Blank(String::new())));
    blocks
}

fn right_column(plan: &Plan, design: &Design, width: f64) -> Vec<Block> {
    let mut blocks = vec![Block::Heading(String::from("Bring"))];
    blocks.extend(bring(plan, design).into_iter().map(Block::Ticked));
    blocks.push(Block::Heading(String::from("Cautions")));
    for words in caution::all(plan) {
        blocks.extend(paragraph(&words, width));
    }
    blocks.push(Block::Heading(String::from("Dates")));
    blocks.extend(plan.dates.named().map(|(name, date)| match date {
        "" => Block::Blank(name.to_string()),
        _ => Block::Pair(
            name.to_string(),
            font::shorten(date, Weight::Bold, BODY, width * 0.75),
        ),
    }));
    blocks
}

/// The lines of a paragraph and a little air.
fn paragraph(words: &str, width: f64) -> Vec<Block> {
    let lines = font::wrap(words, Weight::Regular, BODY, width);
    let lines = lines.into_iter().map(Block::Words);
    lines.chain([Block::Air]).collect()
}

/// "2 stops, 3 warnings, 1 note: see the list of findings."
fn to_look_at(design: &Design) -> String {
    let count = |severity| {
        let open = design.findings.iter().filter(|f| f.dismissed.is_none());
        open.filter(|f| f.severity == severity).count()
    };
    let said = [
        (count(Severity::Stop), "to stop for", "to stop for"),
        (count(Severity::Warn), "to look at", "to look at"),
        (count(Severity::Note), "note", "notes"),
    ];
    let said: Vec<String> = said
        .iter()
        .filter(|(count, ..)| *count > 0)
        .map(|(count, one, more)| format!("{count} {}", if *count == 1 { one } else { more }))
        .collect();
    match said.is_empty() {
        true => String::from("Nothing: every check is clear."),
        false => format!("{}; see the list of findings.", said.join(", ")),
    }
}

fn totals(plan: &Plan, design: &Design) -> Vec<(String, String)> {
    let totals = &design.totals;
    let mut rows = vec![
        (String::from("drops"), totals.drops.to_string()),
        (String::from("cables"), totals.cables.to_string()),
    ];
    for total in &totals.cable {
        let name = plan
            .catalogue
            .cable(total.kind)
            .map_or("", |spec| spec.name.as_str());
        let reels = if total.reels == 1 { "reel" } else { "reels" };
        let value = format!(
            "{}, {} {reels}",
            plan.units.total(total.length),
            total.reels
        );
        rows.push((name.to_string(), value));
    }
    rows.push((String::from("bores"), totals.bores.to_string()));
    for (bit, count) in &totals.by_bit {
        rows.push((format!("  {}", plan.units.size(*bit)), count.to_string()));
    }
    for (name, count) in [
        ("steel nail plates", totals.nail_plates),
        ("plate ties", totals.ties),
        ("seals", totals.seals),
        ("supports", totals.supports),
        ("boxes by others", totals.boxes_by_others),
        ("keystone jacks", totals.keystones),
    ] {
        if count > 0 {
            rows.push((name.to_string(), count.to_string()));
        }
    }
    rows.push((String::from("hours"), format!("{:.1}", totals.hours)));
    rows
}

/// What goes into the van, each with a box to tick.
fn bring(plan: &Plan, design: &Design) -> Vec<String> {
    let totals = &design.totals;
    let mut list = Vec::new();
    for reel in design.cut_list.reels.iter().filter(|reel| reel.is_used()) {
        let part = if reel.part { "part reel, " } else { "" };
        list.push(format!(
            "{}, {part}{}",
            reel.name,
            plan.units.total(reel.length)
        ));
    }
    let bits: Vec<String> = totals
        .by_bit
        .iter()
        .map(|(bit, _)| plan.units.size(*bit).replace(" in", "").replace(" mm", ""))
        .collect();
    if !bits.is_empty() {
        let unit = match plan.units {
            Units::Imperial => "in",
            Units::Metric => "mm",
        };
        list.push(format!("bits {} {unit}, long and short", bits.join(", ")));
    }
    let gangs = totals
        .brackets
        .iter()
        .enumerate()
        .filter(|(_, count)| **count > 0);
    for (place, count) in gangs {
        let brackets = if *count == 1 { "bracket" } else { "brackets" };
        list.push(format!(
            "{count} low-voltage {brackets}, {} gang",
            place + 1
        ));
    }
    for (count, name) in [
        (totals.nail_plates, "steel nail plates"),
        (totals.ties, "plate ties with nails"),
        (totals.supports, "cable supports"),
    ] {
        if count > 0 {
            list.push(format!("{count} {name}"));
        }
    }
    if totals.seals > 0 {
        list.push(format!("sealant for {} bores", totals.seals));
    }
    list.push(String::from(
        "labels, hook-and-loop ties, pull string, tester",
    ));
    list
}

/// A line of a column.
#[derive(Clone, Debug, PartialEq)]
enum Block {
    Heading(String),
    Pair(String, String),
    Words(String),
    Ticked(String),
    /// A line to write on, with what belongs there.
    Blank(String),
    Air,
}

impl Block {
    fn height(&self) -> f64 {
        match self {
            Self::Heading(_) => 10.2,
            Self::Pair(..) | Self::Words(_) => LEADING,
            Self::Ticked(_) | Self::Blank(_) => LINE,
            Self::Air => 1.0,
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
    fn of(area: Area, blocks: Vec<Block>) -> Self {
        let mut pages: Vec<Vec<(f64, Block)>> = vec![Vec::new()];
        let mut top = area.low.y;
        for (place, block) in blocks.iter().enumerate() {
            let next = blocks.get(place + 1).map_or(0.0, Block::height);
            // A heading stays with what it stands over.
            let kept = match block {
                Block::Heading(_) => next,
                _ => 0.0,
            };
            if top + block.height() + kept > area.high.y {
                pages.push(Vec::new());
                top = area.low.y;
            }
            if let Some(page) = pages.last_mut() {
                page.push((top, block.clone()));
            }
            top += block.height();
        }
        Self { area, pages }
    }

    /// Where the last block of the last page ends.
    fn bottom(&self) -> f64 {
        let last = self.pages.last().and_then(|page| page.last());
        last.map_or(self.area.low.y, |(top, block)| top + block.height())
    }

    fn draw(&self, pages: &mut [Picture]) {
        for (page, blocks) in pages.iter_mut().zip(&self.pages) {
            for (top, block) in blocks {
                draw_block(page, self.area, *top, block);
            }
        }
    }
}

fn draw_block(page: &mut Picture, area: Area, top: f64, block: &Block) {
    let (left, right) = (area.low.x, area.high.x);
    let base = top + BODY * font::ASCENT;
    let mut put = |x: f64, y: f64, anchor, size, weight, words: &str| {
        page.push(text(Pos::new(x, y), anchor, size, weight, words));
    };
    match block {
        Block::Heading(words) => {
            put(left, top + 7.0, Anchor::Start, ID, Weight::Bold, words);
            rule(page, Ink::Heavy, area, top + 8.6);
        }
        Block::Pair(name, value) => {
            let indent = if name.starts_with(' ') { 5.0 } else { 0.0 };
            let name = name.trim();
            put(
                left + indent,
                base,
                Anchor::Start,
                BODY,
                Weight::Regular,
                name,
            );
            put(right, base, Anchor::End, BODY, Weight::Bold, value);
        }
        Block::Words(words) => put(left, base, Anchor::Start, BODY, Weight::Regular, words),
        Block::Blank(words) => {
            if !words.is_empty() {
                put(
                    left,
                    top + LINE - 1.0,
                    Anchor::Start,
                    BODY,
                    Weight::Regular,
                    words,
                );
            }
            rule(page, Ink::Rule, area, top + LINE);
        }
        Block::Ticked(words) => {
            let middle = top + LINE / 2.0;
            let words = font::shorten(words, Weight::Regular, BODY, area.width() - TICK - 3.0);
            let low = middle + BODY * font::CAP_HEIGHT / 2.0;
            put(
                left + TICK + 3.0,
                low,
                Anchor::Start,
                BODY,
                Weight::Regular,
                &words,
            );
            tick(page, Pos::new(left + TICK / 2.0 + 0.3, middle));
        }
        Block::Air => {}
    }
}

fn rule(page: &mut Picture, ink: Ink, area: Area, y: f64) {
    let ends = [area.low.x, area.high.x].map(|x| Pos::new(x, y));
    page.push(Item::plain(ink, Shape::Line(ends.to_vec())));
}
