//! Numbers on a wall: its studs', the offsets of boxes and bores from the nearer end, lane heights.

use std::collections::BTreeMap;

use super::{View, measured};
use crate::framing::Stud;
use crate::picture::dimension::{self, Span};
use crate::picture::font::{self, Weight};
use crate::picture::obstacles::Rect;
use crate::picture::{Anchor, Ink, Item, Shape, Text};
use crate::plan::WallId;
use crate::route::{Crossing, Member};
use crate::schedule::BoxCorner;
use crate::shape::Pos;
use crate::units::Mm;

/// Most rows of dimension lines under a wall: words take less room than more of them.
const MOST_ROWS: usize = 2;
/// The least width of running measures, paper millimetres: that of an elevation with its heading.
const NARROWEST: f64 = 72.0;
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
        let mut groups: Vec<Vec<(u32, f64)>> = Vec::new();
        for stud in first {
            groups.push(vec![stud]);
            // Numbers that are joined are wider than one, and may reach into those before them.
            while let [.., before, last] = groups.as_slice()
                && self.is_tight(&self.stud_text(before), &self.stud_text(last))
            {
                let last = groups.pop().unwrap_or_default();
                groups
                    .last_mut()
                    .into_iter()
                    .for_each(|before| before.extend(&last));
            }
        }
        let mut texts: Vec<Text> = groups.iter().map(|group| self.stud_text(group)).collect();
        for stud in others {
            let text = self.stud_text(&[stud]);
            if !texts.iter().any(|other| self.is_tight(other, &text)) {
                texts.push(text);
            }
        }
        for text in texts {
            let (low, high) = text.bounds(self.picture.scale);
            self.obstacles
                .add_text(Rect::new(self.paper(low), self.paper(high)));
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
            .for_each(|room| self.obstacles.add_text(room));
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

    /// "from W8 on the left: D2: 2' 8\"", "from the left end: 19: 3' 4\"", from each side what is nearer to it,
    /// the first line so far down in paper millimetres.
    fn running(&mut self, tagged: &[Tagged], first: f64) {
        let length = self.length();
        let mut parts: Vec<(String, Vec<String>)> = Vec::new();
        let left_first = tagged.iter().filter(|tag| tag.left);
        for tag in left_first.chain(tagged.iter().rev().filter(|tag| !tag.left)) {
            match parts.iter_mut().find(|(from, _)| *from == tag.side_words()) {
                Some((_, words)) => words.push(tag.words()),
                None => parts.push((tag.side_words(), vec![tag.words()])),
            }
        }
        // Boxes first: they are set before anything is drilled.
        parts.sort_by_key(|(from, _)| from.ends_with(" end"));
        let whole = format!("long {}", self.plan.units.position(Mm::rounded(length)));
        parts.push((String::from("plates"), vec![whole]));
        let (scale, size) = (self.picture.scale, self.sizes.body);
        let room = (length / scale).max(NARROWEST);
        let mut measures: Vec<(&str, String)> = Vec::new();
        for (from, of_part) in parts {
            for (place, words) in of_part.iter().enumerate() {
                let words = self.tongue.say(words);
                measures.push(match place {
                    0 => ("; ", format!("{}: {words}", self.tongue.say(&from))),
                    _ => (" · ", words),
                });
            }
        }
        for (down, line) in unbroken(&measures, size, room).into_iter().enumerate() {
            let text = Text {
                at: Pos::new(0.0, (first + down as f64 * size * 1.15) * scale),
                anchor: Anchor::Start,
                size,
                weight: Weight::Regular,
                text: line,
                upwards: false,
            };
            self.picture
                .push(Item::plain(Ink::Dimension, Shape::Text(text)));
        }
    }

    /// Places along the wall, from left to right, each with the names of all that is there.
    fn tagged(&mut self) -> Vec<Tagged> {
        let length = self.length();
        let dimensions = std::mem::take(&mut self.dimensions);
        let mut places: Vec<(Tagged, String)> = Vec::new();
        for measured in dimensions {
            let x = self.at(measured.offset, 0.0).x;
            let of = |corner: BoxCorner| (self.at(corner.at, 0.0).x, Some(corner.wall));
            let ends = match measured.corners.map(|corners| corners.map(of)) {
                Some([one, other]) if one.0 > other.0 => [other, one],
                Some(ends) => ends,
                None => [(0.0, None), (length, None)],
            };
            let [low, high] = ends;
            let x = x.clamp(low.0, high.0);
            let left = x - low.0 <= high.0 - x;
            let (from, corner) = if left { low } else { high };
            let tag = Tagged {
                from,
                x,
                left,
                corner,
                measures: Vec::new(),
            };
            places.push((tag, measured.name));
        }
        places.sort_by(|a, b| a.0.x.total_cmp(&b.0.x));
        let mut tagged: Vec<Tagged> = Vec::new();
        for (place, name) in places {
            let off = (place.x - place.from).abs();
            let figure = self.plan.units.position(Mm::rounded(off));
            let known = tagged
                .iter_mut()
                .rev()
                .find(|known| known.is_beside(&place));
            match known {
                Some(known) => known.add(figure, name),
                None => tagged.push(Tagged {
                    measures: vec![(figure, vec![name])],
                    ..place
                }),
            }
        }
        tagged
    }

    /// From the nearer end or corner to a place, with what is there: "D8: 4' 2\"".
    fn span(&self, tagged: &Tagged) -> Span {
        Span {
            from: tagged.from.min(tagged.x),
            to: tagged.from.max(tagged.x),
            words: tagged.words(),
            beside_right: tagged.left,
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

/// A place along a wall with all that is there, as the drawing shows it.
struct Tagged {
    /// What it is measured from.
    from: f64,
    x: f64,
    /// Whether that is on its left hand.
    left: bool,
    /// ... and a corner, not the end of the plates: with the wall that makes it, if one does.
    corner: Option<Option<WallId>>,
    /// Each figure with the names of what it locates: what is close together shares a line, not a figure.
    measures: Vec<(String, Vec<String>)>,
}

impl Tagged {
    /// Whether one line serves both.
    fn is_beside(&self, other: &Tagged) -> bool {
        let near = (self.x - other.x).abs() < SAME && (self.from - other.from).abs() < SAME / 10.0;
        near && (self.left, self.corner) == (other.left, other.corner)
    }

    fn add(&mut self, figure: String, name: String) {
        match self.measures.iter_mut().find(|(known, _)| *known == figure) {
            Some((_, names)) if names.contains(&name) => {}
            Some((_, names)) => names.push(name),
            None => self.measures.push((figure, vec![name])),
        }
    }

    /// "from the left end", "from W8 on the left".
    fn side_words(&self) -> String {
        let side = if self.left { "left" } else { "right" };
        match self.corner {
            Some(Some(wall)) => format!("from W{} on the {side}", wall.0),
            Some(None) => format!("from the {side} corner"),
            None => format!("from the {side} end"),
        }
    }

    /// "13 14: 3' 4\""; "13: 3' 4\" · 14: 3' 4-1/8\"" for two holes that are an eighth apart.
    fn words(&self) -> String {
        let measures = self.measures.iter();
        let measures = measures.map(|(figure, names)| format!("{}: {figure}", names.join(" ")));
        measures.collect::<Vec<_>>().join(" · ")
    }
}

/// Measures, each with what sets it off from the one before, in lines no wider than `room` that break between
/// measures only.
fn unbroken(measures: &[(&str, String)], size: f64, room: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for (between, measure) in measures {
        let joined = lines.last().map(|line| format!("{line}{between}{measure}"));
        let joined = joined.filter(|line| font::width(line, Weight::Regular) * size <= room);
        match (lines.last_mut(), joined) {
            (Some(line), Some(joined)) => *line = joined,
            _ => lines.push(measure.clone()),
        }
    }
    lines
}
