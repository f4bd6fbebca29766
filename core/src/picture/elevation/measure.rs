//! Numbers on a wall: its studs', the offsets of boxes and bores from the nearer end, lane heights.

use std::collections::BTreeMap;

use super::{MOST_ROWS, View};
use crate::picture::dimension::{self, Span};
use crate::picture::font::Weight;
use crate::picture::obstacles::Rect;
use crate::picture::{Anchor, Ink, Item, Shape, Text};
use crate::route::{Crossing, Member};
use crate::shape::Pos;
use crate::units::Mm;

impl View<'_> {
    /// Numbers under the studs that the drill list counts by, where they fit.
    pub(super) fn stud_numbers(&mut self) {
        let numbered = self.frame.studs.iter().filter(|stud| stud.number > 0);
        let mut taken: Vec<(f64, f64)> = Vec::new();
        let y = (self.sizes.body * 0.85) * self.picture.scale;
        for stud in numbered {
            let at = self.at((stud.from + stud.to) / 2.0, 0.0) + Pos::new(0.0, y);
            let text = Text {
                at,
                anchor: Anchor::Middle,
                size: self.sizes.body,
                weight: Weight::Regular,
                text: stud.number.to_string(),
                upwards: false,
            };
            let (low, high) = text.bounds(self.picture.scale);
            let air = 0.8 * self.picture.scale;
            if taken
                .iter()
                .all(|(a, b)| high.x + air < *a || *b + air < low.x)
            {
                taken.push((low.x, high.x));
                self.obstacles
                    .add_box(Rect::new(self.paper(low), self.paper(high)));
                self.picture.push(Item::plain(Ink::Note, Shape::Text(text)));
            }
        }
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

    fn offsets(&mut self) {
        let mut offsets: Vec<f64> = std::mem::take(&mut self.dimensions);
        offsets.sort_by(f64::total_cmp);
        offsets.dedup_by(|a, b| (*a - *b).abs() < 5.0);
        let (scale, sizes) = (self.picture.scale, self.sizes);
        let length = self.length();
        let mut spans: Vec<Span> = offsets
            .iter()
            .map(|offset| self.span(self.at(*offset, 0.0).x.clamp(0.0, length)))
            .collect();
        spans.sort_by(|a, b| (a.to - a.from).total_cmp(&(b.to - b.from)));
        let reaches: Vec<(f64, f64)> = spans.iter().map(|span| span.reach(sizes, scale)).collect();
        let first = sizes.body * 1.2 + dimension::pitch(sizes);
        let line = |row: usize| (first + row as f64 * dimension::pitch(sizes)) * scale;
        let mut deepest = 0;
        for (span, row) in spans.iter().zip(dimension::rows(&reaches)) {
            if row < MOST_ROWS {
                dimension::across(&mut self.picture, span, line(row), sizes);
                deepest = deepest.max(row + 1);
            }
        }
        let whole = Span {
            from: 0.0,
            to: length,
            words: self.plan.units.position(Mm::rounded(length)),
            beside_right: true,
        };
        dimension::across(&mut self.picture, &whole, line(deepest), sizes);
    }

    /// From the nearer end to a place.
    fn span(&self, x: f64) -> Span {
        let length = self.length();
        let left = x <= length / 2.0;
        let (from, to) = if left { (0.0, x) } else { (x, length) };
        Span {
            from,
            to,
            words: self.plan.units.position(Mm::rounded(to - from)),
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
