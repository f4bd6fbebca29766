//! The cover: which job, which revision, what it takes, what to bring, what to mind.

use super::mark::Laid;
use super::paper::{Area, Extent, Lie};
use super::table::{BODY, ID, TICK, text, tick};
use super::{Draft, Kind, Paper, caution, code, frame};
use crate::design::Design;
use crate::file::link::qr;
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

/// The cover, with a code where a link is given that one code can hold.
pub(super) fn page(plan: &Plan, design: &Design, paper: &Paper, link: Option<&str>) -> Draft {
    let extent = paper
        .extents(Lie::Portrait)
        .first()
        .copied()
        .unwrap_or_default();
    let mut picture = Picture::at_scale(1.0);
    draw(&mut picture, plan, design, extent, link);
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

fn draw(picture: &mut Picture, plan: &Plan, design: &Design, extent: Extent, link: Option<&str>) {
    let body = frame::body(plan, extent);
    let half = (body.width() - GUTTER) / 2.0;
    let left = Area::new(body.low, Pos::new(body.low.x + half, body.high.y));
    let right = Area::new(Pos::new(left.high.x + GUTTER, body.low.y), body.high);
    let mut column = Column::new(picture, left);
    column.heading("Totals");
    for (name, value) in totals(plan, design) {
        column.pair(&name, &value);
    }
    column.heading("Who to call");
    match plan.note.trim().is_empty() {
        true => (0..3).for_each(|_| column.blank()),
        false => column.words(&plan.note, 6),
    }
    column.heading("Dates");
    for name in ["drill", "pull", "cover", "trim-out"] {
        column.blank_pair(name);
    }
    if let Some(code) = link.and_then(|link| qr(link).ok()) {
        column.code(&code);
    }
    let mut column = Column::new(picture, right);
    column.heading("Bring");
    for words in bring(plan, design) {
        column.ticked(&words);
    }
    column.heading("Cautions");
    for words in caution::all(plan) {
        column.words(&words, 6);
        column.top += 1.0;
    }
    column.heading("To look at");
    column.words(&to_look_at(design), 4);
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
    for reel in &design.cut_list.reels {
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

/// Text and lines put under each other.
struct Column<'p> {
    picture: &'p mut Picture,
    area: Area,
    top: f64,
}

impl<'p> Column<'p> {
    fn new(picture: &'p mut Picture, area: Area) -> Self {
        Self {
            picture,
            area,
            top: area.low.y,
        }
    }

    fn has_room(&self, height: f64) -> bool {
        self.top + height <= self.area.high.y
    }

    fn heading(&mut self, words: &str) {
        if !self.has_room(12.0) {
            return;
        }
        self.top += 7.0;
        let at = Pos::new(self.area.low.x, self.top);
        self.picture
            .push(text(at, Anchor::Start, ID, Weight::Bold, words));
        self.top += 1.6;
        self.rule(Ink::Heavy);
        self.top += 1.6;
    }

    fn rule(&mut self, ink: Ink) {
        let ends = [self.area.low.x, self.area.high.x].map(|x| Pos::new(x, self.top));
        self.picture
            .push(Item::plain(ink, Shape::Line(ends.to_vec())));
    }

    fn base(&self) -> f64 {
        self.top + BODY * font::ASCENT
    }

    fn pair(&mut self, name: &str, value: &str) {
        if !self.has_room(LEADING) {
            return;
        }
        let indent = if name.starts_with(' ') { 5.0 } else { 0.0 };
        let y = self.base();
        let left = Pos::new(self.area.low.x + indent, y);
        let right = Pos::new(self.area.high.x, y);
        let name = name.trim();
        self.picture
            .push(text(left, Anchor::Start, BODY, Weight::Regular, name));
        self.picture
            .push(text(right, Anchor::End, BODY, Weight::Bold, value));
        self.top += LEADING;
    }

    fn words(&mut self, words: &str, most: usize) {
        let lines = font::wrap(words, Weight::Regular, BODY, self.area.width());
        for line in lines.iter().take(most) {
            if !self.has_room(LEADING) {
                return;
            }
            let at = Pos::new(self.area.low.x, self.base());
            self.picture
                .push(text(at, Anchor::Start, BODY, Weight::Regular, line));
            self.top += LEADING;
        }
    }

    fn blank(&mut self) {
        if self.has_room(LINE) {
            self.top += LINE;
            self.rule(Ink::Rule);
        }
    }

    fn blank_pair(&mut self, name: &str) {
        if !self.has_room(LINE) {
            return;
        }
        self.top += LINE;
        let at = Pos::new(self.area.low.x, self.top - 1.0);
        self.picture
            .push(text(at, Anchor::Start, BODY, Weight::Regular, name));
        self.rule(Ink::Rule);
    }

    fn ticked(&mut self, words: &str) {
        if !self.has_room(LINE) {
            return;
        }
        let middle = self.top + LINE / 2.0;
        tick(
            self.picture,
            Pos::new(self.area.low.x + TICK / 2.0 + 0.3, middle),
        );
        let room = self.area.width() - TICK - 3.0;
        let words = font::shorten(words, Weight::Regular, BODY, room);
        let at = Pos::new(
            self.area.low.x + TICK + 3.0,
            middle + BODY * font::CAP_HEIGHT / 2.0,
        );
        self.picture
            .push(text(at, Anchor::Start, BODY, Weight::Regular, &words));
        self.top += LINE;
    }

    fn code(&mut self, modules: &crate::file::link::Modules) {
        let side = code::side(modules);
        if !self.has_room(side + 4.0) {
            return;
        }
        let low = Pos::new(self.area.low.x, self.area.high.y - side);
        code::draw(self.picture, modules, Area::new(low, self.area.high));
        let at = Pos::new(low.x + side + 1.0, self.area.high.y - side / 2.0);
        let room = self.area.high.x - at.x;
        let lines = font::wrap(
            "This plan on your phone: nothing to install.",
            Weight::Regular,
            BODY,
            room,
        );
        for (place, line) in lines.iter().enumerate() {
            let at = at + Pos::new(0.0, place as f64 * LEADING);
            self.picture
                .push(text(at, Anchor::Start, BODY, Weight::Regular, line));
        }
    }
}
