//! Numbers on a wall: its studs', the offsets of boxes and bores from the nearer end, lane heights.

use std::collections::BTreeMap;

use super::{View, measured};
use crate::framing::Stud;
use crate::picture::dimension::{self, Span};
use crate::picture::font::{self, Weight};
use crate::picture::obstacles::Rect;
use crate::picture::{Anchor, Ink, Item, Shape, Text};
use crate::route::{Crossing, Member};
use crate::shape::Pos;
use crate::units::Mm;

/// Most rows of dimension lines under a wall.
const MOST_ROWS: usize = 3;
/// The least width of running measures, paper millimetres.
const NARROWEST: f64 = 58.0;
/// Places nearer together than this share a dimension, millimetres.
const SAME: f64 = 5.0;

impl View<'_> {
    /// Numbers under the studs: first of those that rows on paper measure from, neighbours too close for two
    /// numbers as one text, then of the others where they fit.
    pub(super) fn stud_numbers(&mut self) {
        let measured = measured::from(self.plan, self.design, self.wall.id);
        let middle = |stud: &Stud| (stud.number, self.at((stud.from + stud.to) / 2.0, 0.0).x);
        let numbered = self.frame.studs.iter().filter(|stud| stud.number > 0);
        let (mut first, others): (Vec<_>, Vec<_>) = numbered
            .map(middle)
            .partition(|(number, _)| measured.contains(number));
        first.sort_by(|a, b| a.1.total_cmp(&b.1));
        let mut texts: Vec<Text> = Vec::new();
        let mut last: Vec<(u32, f64)> = Vec::new();
        for stud in first {
            last.push(stud);
            let (alone, joined) = (
                self.stud_text(&last[last.len() - 1..]),
                self.stud_text(&last),
            );
            if texts
                .last()
                .is_some_and(|before| self.is_tight(before, &alone))
            {
                texts.pop();
                texts.push(joined);
            } else {
                last = vec![stud];
                texts.push(alone);
            }
        }
        for stud in others {
            let text = self.stud_text(&[stud]);
            if !texts.iter().any(|other| self.is_tight(other, &text)) {
                texts.push(text);
            }
        }
        for text in texts {
            let (low, high) = text.bounds(self.picture.scale);
            self.obstacles
                .add_box(Rect::new(self.paper(low), self.paper(high)));
            self.picture.push(Item::plain(Ink::Note, Shape::Text(text)));
        }
    }

    /// The numbers of studs, in the middle under them.
    fn stud_text(&self, studs: &[(u32, f64)]) -> Text {
        let numbers: Vec<String> = studs.iter().map(|(number, _)| number.to_string()).collect();
        let ends = studs.first().zip(studs.last());
        let x = ends.map_or(0.0, |(first, last)| (first.1 + last.1) / 2.0);
        Text {
            at: Pos::new(x, self.sizes.body * 0.85 * self.picture.scale),
            anchor: Anchor::Middle,
            size: self.sizes.body,
            weight: Weight::Regular,
            text: numbers.join(","),
            upwards: false,
        }
    }

    fn is_tight(&self, one: &Text, other: &Text) -> bool {
        let (one, other) = (
            one.bounds(self.picture.scale),
            other.bounds(self.picture.scale),
        );
        let air = 0.8 * self.picture.scale;
        one.0.x < other.1.x + air && other.0.x < one.1.x + air
    }

    /// Dimensions from the nearer end under the wall, and the height of each lane beside it.
    pub(super) fn dimension(&mut self) {
        let before = self.picture.items.len();
        self.offsets();
        self.lane_heights();
        let scale = self.picture.scale;
        let drawn = self.picture.items.iter().skip(before);
        let boxes: Vec<Rect> = drawn
            .filter_map(|item| item.shape.bounds(scale))
            .map(|(low, high)| Rect::new(self.paper(low), self.paper(high)).grown(0.3))
            .collect();
        boxes
            .into_iter()
            .for_each(|room| self.obstacles.add_box(room));
    }

    /// Dimension lines, or, where those would take more room than the wall, running measures in words.
    fn offsets(&mut self) {
        let (scale, sizes) = (self.picture.scale, self.sizes);
        let tagged = self.tagged();
        let mut spans: Vec<Span> = tagged.iter().map(|tagged| self.span(tagged)).collect();
        spans.sort_by(|a, b| (a.to - a.from).total_cmp(&(b.to - b.from)));
        let reaches: Vec<(f64, f64)> = spans.iter().map(|span| span.reach(sizes, scale)).collect();
        let rows = dimension::rows(&reaches);
        let first = sizes.body * 1.2 + dimension::pitch(sizes);
        let line = |row: usize| (first + row as f64 * dimension::pitch(sizes)) * scale;
        let deepest = rows.iter().map(|row| row + 1).max().unwrap_or(0);
        if deepest > MOST_ROWS {
            return self.running(&tagged, first);
        }
        for (span, row) in spans.iter().zip(rows) {
            dimension::across(&mut self.picture, span, line(row), sizes);
        }
        let whole = Span {
            from: 0.0,
            to: self.length(),
            words: self.plan.units.position(Mm::rounded(self.length())),
            beside_right: true,
        };
        dimension::across(&mut self.picture, &whole, line(deepest), sizes);
    }

    /// "from the left end: D2: 2' 8\" · 19: 3' 4\"", from each end what is nearer to it, the first line so
    /// far down in paper millimetres.
    fn running(&mut self, tagged: &[(f64, String)], first: f64) {
        let length = self.length();
        let measure = |mm: f64| self.plan.units.position(Mm::rounded(mm));
        let (left, right): (Vec<_>, Vec<_>) = tagged.iter().partition(|(x, _)| *x <= length / 2.0);
        let left = left
            .iter()
            .map(|(x, names)| format!("{names}: {}", measure(*x)));
        let right = right
            .iter()
            .rev()
            .map(|(x, names)| format!("{names}: {}", measure(length - x)));
        let whole = format!("long {}", measure(length));
        let parts = [
            ("from the left end", left.collect::<Vec<_>>()),
            ("from the right end", right.collect::<Vec<_>>()),
            ("plates", vec![whole]),
        ];
        let (scale, size) = (self.picture.scale, self.sizes.body);
        let room = (length / scale).max(NARROWEST);
        let mut y = first;
        for (from, measures) in parts.iter().filter(|(_, measures)| !measures.is_empty()) {
            let said = measures.iter().map(|words| self.tongue.say(words));
            let start = format!("{}:", self.tongue.say(from));
            for line in unbroken(start, &said.collect::<Vec<_>>(), size, room) {
                let text = Text {
                    at: Pos::new(0.0, y * scale),
                    anchor: Anchor::Start,
                    size,
                    weight: Weight::Regular,
                    text: line,
                    upwards: false,
                };
                self.picture
                    .push(Item::plain(Ink::Dimension, Shape::Text(text)));
                y += size * 1.15;
            }
        }
    }

    /// Places along the wall, from left to right, each with the names of all that is there.
    fn tagged(&mut self) -> Vec<(f64, String)> {
        let length = self.length();
        let dimensions = std::mem::take(&mut self.dimensions);
        let mut places: Vec<(f64, String)> = dimensions
            .into_iter()
            .map(|(offset, name)| (self.at(offset, 0.0).x.clamp(0.0, length), name))
            .collect();
        places.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut tagged: Vec<(f64, String)> = Vec::new();
        for (x, name) in places {
            match tagged.last_mut().filter(|last| x - last.0 < SAME) {
                Some((_, names)) if names.split(' ').any(|known| known == name) => {}
                Some((_, names)) => *names = format!("{names} {name}"),
                None => tagged.push((x, name)),
            }
        }
        tagged
    }

    /// From the nearer end to a place, with what is there: "D8: 4' 2\"".
    fn span(&self, (x, names): &(f64, String)) -> Span {
        let x = *x;
        let length = self.length();
        let left = x <= length / 2.0;
        let (from, to) = if left { (0.0, x) } else { (x, length) };
        Span {
            from,
            to,
            words: format!(
                "{names}: {}",
                self.plan.units.position(Mm::rounded(to - from))
            ),
            beside_right: left,
        }
    }

    fn lane_heights(&mut self) {
        let mut heights: BTreeMap<i64, f64> = BTreeMap::new();
        for bore in &self.design.bores {
            let crossing = self.design.ways.crossings.get(bore.crossing);
            let stud = |c: &&Crossing| matches!(c.member, Member::Studs(_));
            if crossing
                .filter(stud)
                .is_some_and(|c| c.wall == Some(self.wall.id))
            {
                heights.insert(bore.height.round() as i64, bore.height);
            }
        }
        let pitch = dimension::pitch(self.sizes) * self.picture.scale;
        for (place, height) in heights.values().enumerate().take(3) {
            let words = self.plan.units.height(Mm::rounded(*height));
            let x = -(place as f64 + 0.8) * pitch;
            dimension::upright(&mut self.picture, (0.0, -height), x, &words, self.sizes);
        }
    }
}

/// Measures after a few words, in lines no wider than `room` that break between measures only.
fn unbroken(start: String, measures: &[String], size: f64, room: f64) -> Vec<String> {
    let mut lines = vec![start];
    for (place, measure) in measures.iter().enumerate() {
        let between = if place == 0 { " " } else { " · " };
        let joined = lines
            .last()
            .map(|line| format!("{line}{between}{measure}"))
            .unwrap_or_default();
        match lines.last_mut() {
            Some(line) if font::width(&joined, Weight::Regular) * size <= room => *line = joined,
            _ => lines.push(measure.clone()),
        }
    }
    lines
}
