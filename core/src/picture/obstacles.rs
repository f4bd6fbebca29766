//! What text must not lie on, kept in a grid so that asking is quick. Works in paper millimetres.

use std::cell::Cell;
use std::collections::BTreeMap;
use std::ops::RangeInclusive;

use crate::shape::Pos;

/// Width of a grid cell, paper millimetres: about a label.
const CELL: f64 = 8.0;
/// Text this near to a line may lie on it, besides the line's own width, paper millimetres.
const BESIDE: f64 = 0.5;
/// Leaders that run beside each other closer than that for longer than this look like one, paper millimetres.
const ALONG: f64 = 1.0;
/// A leader may lie in a wall for this share of the wall's width: it crosses at up to 45 degrees.
const ASLANT: f64 = 1.5;
/// Things that would cover more cells than this are asked about every time.
const MOST_CELLS: i64 = 4_000;

/// A box with its sides along x and y, paper millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Rect {
    pub low: Pos,
    pub high: Pos,
}

impl Rect {
    /// The box between two corners.
    pub fn new(low: Pos, high: Pos) -> Self {
        Self { low, high }
    }

    /// The box of this size around a place.
    pub fn around(middle: Pos, width: f64, height: f64) -> Self {
        let half = Pos::new(width / 2.0, height / 2.0);
        Self::new(middle - half, middle + half)
    }

    /// The same box, larger by so much on every side.
    pub fn grown(self, by: f64) -> Self {
        let by = Pos::new(by, by);
        Self::new(self.low - by, self.high + by)
    }

    /// Whether two boxes share more than an edge.
    pub fn overlaps(&self, other: &Rect) -> bool {
        self.low.x < other.high.x
            && other.low.x < self.high.x
            && self.low.y < other.high.y
            && other.low.y < self.high.y
    }

    /// Whether another box lies inside.
    pub fn holds(&self, other: &Rect) -> bool {
        self.low.x <= other.low.x
            && self.low.y <= other.low.y
            && other.high.x <= self.high.x
            && other.high.y <= self.high.y
    }

    /// The place in the box nearest to another place.
    pub fn nearest(&self, place: Pos) -> Pos {
        Pos::new(
            place.x.clamp(self.low.x, self.high.x),
            place.y.clamp(self.low.y, self.high.y),
        )
    }

    /// Whether a stretch of line enters the box.
    pub fn meets(&self, from: Pos, to: Pos) -> bool {
        self.inside(from, to).is_some()
    }

    /// The part of a stretch of line that lies in the box.
    pub fn cut(&self, from: Pos, to: Pos) -> Option<(Pos, Pos)> {
        let (enters, leaves) = self.inside(from, to)?;
        // Ends that need no cutting stay to the last bit, so that chains stay chains.
        let at = |share: f64| match share {
            0.0 => from,
            1.0 => to,
            share => from + (to - from) * share,
        };
        Some((at(enters), at(leaves)))
    }

    /// The shares of a stretch between which it lies in the box.
    fn inside(&self, from: Pos, to: Pos) -> Option<(f64, f64)> {
        let way = to - from;
        let sides = [
            (way.x, self.low.x - from.x, self.high.x - from.x),
            (way.y, self.low.y - from.y, self.high.y - from.y),
        ];
        let mut inside = (0.0_f64, 1.0_f64);
        for (step, low, high) in sides {
            if step.abs() < 1e-12 {
                if low >= 0.0 || high <= 0.0 {
                    return None;
                }
                continue;
            }
            let (a, b) = (low / step, high / step);
            inside = (inside.0.max(a.min(b)), inside.1.min(a.max(b)));
        }
        (inside.0 < inside.1).then_some(inside)
    }
}

/// One thing in the way.
#[derive(Clone, Copy, Debug)]
enum Thing {
    /// A symbol: neither text nor a leader may lie on it.
    Box(Rect),
    /// Text: the same, and a leader rather crosses anything else than strikes it out.
    Text(Rect),
    /// A line so wide to each side: text may not lie on it, a leader may cross it.
    Stroke { from: Pos, to: Pos, half: f64 },
    /// Wood: text may not lie on it, a leader may cross it.
    Wood(Rect),
    /// A wall so wide to each side: text may not lie on it, a leader may cross it and not run along in it,
    /// where nobody would see it.
    Wall { from: Pos, to: Pos, half: f64 },
    /// A leader: neither text nor another leader may cross it.
    Leader { from: Pos, to: Pos },
}

impl Thing {
    fn bounds(&self) -> Rect {
        match *self {
            Self::Box(rect) | Self::Text(rect) | Self::Wood(rect) => rect,
            Self::Stroke { from, to, half } | Self::Wall { from, to, half } => {
                span(from, to).grown(half)
            }
            Self::Leader { from, to } => span(from, to),
        }
    }

    /// The rows of a column of cells that it touches, of those that its box touches. A line that lies askew
    /// touches few of the cells of its box.
    fn rows_in(&self, column: i64, rows: RangeInclusive<i64>) -> RangeInclusive<i64> {
        let (from, to, half) = match *self {
            Self::Box(_) | Self::Text(_) | Self::Wood(_) => return rows,
            Self::Stroke { from, to, half } | Self::Wall { from, to, half } => {
                (from, to, half + BESIDE)
            }
            Self::Leader { from, to } => (from, to, BESIDE),
        };
        let (left, right) = (
            column as f64 * CELL - half,
            (column + 1) as f64 * CELL + half,
        );
        let across = to.x - from.x;
        if across.abs() < 1e-9 {
            return rows;
        }
        let y = |x: f64| from.y + (to.y - from.y) * ((x - from.x) / across).clamp(0.0, 1.0);
        let (a, b) = (y(left), y(right));
        let row = |y: f64| (y / CELL).floor() as i64;
        let (top, bottom) = (row(a.min(b) - half), row(a.max(b) + half));
        (*rows.start()).max(top)..=(*rows.end()).min(bottom)
    }

    fn blocks_text(&self, text: &Rect) -> bool {
        match *self {
            Self::Box(rect) | Self::Text(rect) | Self::Wood(rect) => rect.overlaps(text),
            Self::Stroke { from, to, half } | Self::Wall { from, to, half } => {
                text.grown(half).meets(from, to)
            }
            Self::Leader { from, to } => text.grown(0.3).meets(from, to),
        }
    }

    fn blocks_leader(&self, from: Pos, to: Pos) -> bool {
        match *self {
            Self::Box(rect) | Self::Text(rect) => rect.meets(from, to),
            Self::Stroke { .. } | Self::Wood(_) | Self::Wall { .. } => false,
            Self::Leader { from: a, to: b } => {
                cross(from, to, a, b) || within(from, to, (a, b), BESIDE) > ALONG
            }
        }
    }

    /// Whether nobody can tell a leader from it, or see it at all: it runs along in it or on it.
    fn hides_leader(&self, from: Pos, to: Pos) -> bool {
        let runs = |(a, b): (Pos, Pos), half: f64| {
            within(from, to, (a, b), half) > half * 2.0 * ASLANT + BESIDE
        };
        match *self {
            Self::Wall {
                from: a,
                to: b,
                half,
            } => runs((a, b), half),
            Self::Stroke {
                from: a,
                to: b,
                half,
            } => runs((a, b), half + BESIDE),
            Self::Wood(rect) => {
                let narrow = (rect.high.x - rect.low.x).min(rect.high.y - rect.low.y);
                let inside = rect.cut(from, to);
                inside.is_some_and(|(a, b)| a.distance(b) > narrow * ASLANT + BESIDE)
            }
            Self::Box(_) | Self::Text(_) | Self::Leader { .. } => false,
        }
    }

    /// Whether a leader would strike it out.
    fn is_struck(&self, from: Pos, to: Pos) -> bool {
        matches!(self, Self::Text(rect) if rect.meets(from, to))
    }
}

/// The cells of one column, from a row on.
#[derive(Clone, Debug)]
struct Column {
    first: i64,
    rows: Vec<Vec<usize>>,
}

impl Column {
    fn new(first: i64) -> Self {
        Self {
            first,
            rows: Vec::new(),
        }
    }

    /// The cell of a row, made if it is not there yet; `None` where the column would grow too long.
    fn cell(&mut self, row: i64) -> Option<&mut Vec<usize>> {
        let end = self.first.checked_add(self.rows.len() as i64)?;
        let (first, end) = (self.first.min(row), end.max(row.checked_add(1)?));
        let length = end
            .checked_sub(first)
            .filter(|length| *length <= MOST_CELLS)?;
        let before = self.first.checked_sub(first)?;
        self.rows
            .splice(0..0, (0..before).map(|_| Vec::new()))
            .for_each(drop);
        self.rows.resize_with(length as usize, Vec::new);
        self.first = first;
        self.rows
            .get_mut(usize::try_from(row.checked_sub(first)?).ok()?)
    }

    /// What lies in some of its rows; the same thing may come more than once.
    fn within(&self, rows: &RangeInclusive<i64>) -> impl Iterator<Item = &usize> {
        let last = self.rows.len() as i64;
        let place = |row: i64| row.saturating_sub(self.first).clamp(0, last) as usize;
        let (from, until) = (place(*rows.start()), place(rows.end().saturating_add(1)));
        self.rows
            .get(from..until)
            .unwrap_or_default()
            .iter()
            .flatten()
    }
}

/// Everything drawn so far that text must keep off.
#[derive(Clone, Debug, Default)]
pub(super) struct Obstacles {
    things: Vec<Thing>,
    columns: BTreeMap<i64, Column>,
    /// Things too large for the grid.
    large: Vec<usize>,
    /// How often something was held against another or looked up so far.
    asked: Cell<u64>,
    /// The number of the thing that was in the way last.
    blocked: Cell<usize>,
}

impl Obstacles {
    /// Text.
    pub fn add_text(&mut self, rect: Rect) {
        self.add(Thing::Text(rect));
    }

    /// A symbol.
    pub fn add_box(&mut self, rect: Rect) {
        self.add(Thing::Box(rect));
    }

    /// A piece of wood.
    pub fn add_wood(&mut self, rect: Rect) {
        self.add(Thing::Wood(rect));
    }

    /// A chain of lines of this half width.
    pub fn add_chain(&mut self, points: &[Pos], half: f64) {
        for pair in points.windows(2) {
            self.add(Thing::Stroke {
                from: pair[0],
                to: pair[1],
                half,
            });
        }
    }

    /// A wall, of this half width.
    pub fn add_wall(&mut self, from: Pos, to: Pos, half: f64) {
        self.add(Thing::Wall { from, to, half });
    }

    /// A leader.
    pub fn add_leader(&mut self, from: Pos, to: Pos) {
        self.add(Thing::Leader { from, to });
    }

    /// Whether text may fill a box.
    pub fn is_free(&self, text: &Rect) -> bool {
        !self.any(
            text,
            |_, rows| rows.clone(),
            |thing| thing.blocks_text(text),
        )
    }

    /// Whether a leader may run here.
    pub fn is_clear(&self, from: Pos, to: Pos) -> bool {
        !self.any_along(from, to, |thing| thing.blocks_leader(from, to))
    }

    /// Whether a leader leaves all text legible here, though it may cross another leader.
    pub fn is_legible(&self, from: Pos, to: Pos) -> bool {
        !self.any_along(from, to, |thing| thing.is_struck(from, to))
    }

    /// Whether a leader is seen here: it runs along in no wall, no wood and on no line.
    pub fn is_seen(&self, from: Pos, to: Pos) -> bool {
        !self.any_along(from, to, |thing| thing.hides_leader(from, to))
    }

    fn add(&mut self, thing: Thing) {
        let place = self.things.len();
        self.things.push(thing);
        if self.put(&thing, place).is_none() {
            self.large.push(place);
        }
    }

    /// Puts a thing into the cells that it touches; `None` where it is too large for that.
    fn put(&mut self, thing: &Thing, place: usize) -> Option<()> {
        let (columns, rows) = cells(&thing.bounds())?;
        for number in columns {
            for row in thing.rows_in(number, rows.clone()) {
                let column = self.columns.entry(number);
                let column = column.or_insert_with(|| Column::new(row));
                column.cell(row)?.push(place);
            }
        }
        Some(())
    }

    /// How often something was held against another or looked up so far: a measure of time that is the same everywhere.
    pub fn asked(&self) -> u64 {
        self.asked.get()
    }

    /// Whether anything along a stretch is in the way. Of the cells of its box only those are looked into that
    /// it touches.
    fn any_along(&self, from: Pos, to: Pos, blocks: impl Fn(&Thing) -> bool) -> bool {
        let line = Thing::Leader { from, to };
        let rows = |column, rows: &RangeInclusive<i64>| line.rows_in(column, rows.clone());
        self.any(&span(from, to), rows, blocks)
    }

    fn any(
        &self,
        place: &Rect,
        rows_in: impl Fn(i64, &RangeInclusive<i64>) -> RangeInclusive<i64>,
        blocks: impl Fn(&Thing) -> bool,
    ) -> bool {
        let at = |index: &usize| {
            self.asked.set(self.asked.get() + 1);
            let is_it = self.things.get(*index).is_some_and(&blocks);
            if is_it {
                self.blocked.set(*index);
            }
            is_it
        };
        // What was in the way of one place is often in the way of the next.
        if at(&self.blocked.get()) || self.large.iter().any(at) {
            return true;
        }
        let Some((columns, rows)) = cells(place) else {
            return (0..self.things.len()).any(|index| at(&index));
        };
        self.columns.range(columns).any(|(number, column)| {
            self.asked.set(self.asked.get() + 1);
            column.within(&rows_in(*number, &rows)).any(at)
        })
    }
}

/// The columns and rows of the cells a box touches; `None` where there are too many or it is no box.
fn cells(place: &Rect) -> Option<(RangeInclusive<i64>, RangeInclusive<i64>)> {
    let cell = |value: f64| (value / CELL).floor() as i64;
    let (left, right) = (cell(place.low.x), cell(place.high.x));
    let (top, bottom) = (cell(place.low.y), cell(place.high.y));
    let across = right.checked_sub(left)?.checked_add(1)?;
    let down = bottom.checked_sub(top)?.checked_add(1)?;
    let few = across.checked_mul(down).is_some_and(|n| n <= MOST_CELLS);
    (few && across > 0 && down > 0).then_some((left..=right, top..=bottom))
}

fn span(from: Pos, to: Pos) -> Rect {
    Rect::new(
        Pos::new(from.x.min(to.x), from.y.min(to.y)),
        Pos::new(from.x.max(to.x), from.y.max(to.y)),
    )
}

/// How much of a stretch lies in a band so wide to each side of a line.
fn within(from: Pos, to: Pos, (a, b): (Pos, Pos), half: f64) -> f64 {
    let Some(unit) = (b - a).unit() else {
        return 0.0;
    };
    let turned = |at: Pos| Pos::new(unit.dot(at - a), unit.cross(at - a));
    let band = Rect::new(Pos::new(0.0, -half), Pos::new((b - a).length(), half));
    let cut = band.cut(turned(from), turned(to));
    cut.map_or(0.0, |(enters, leaves)| enters.distance(leaves))
}

/// Whether two stretches cross.
fn cross(a: Pos, b: Pos, c: Pos, d: Pos) -> bool {
    let side = |from: Pos, to: Pos, of: Pos| (to - from).cross(of - from);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn text_keeps_off_text_and_wide_lines() {
        let mut obstacles = Obstacles::default();
        obstacles.add_box(Rect::around(Pos::new(20.0, 20.0), 10.0, 4.0));
        obstacles.add_chain(&[Pos::new(0.0, 40.0), Pos::new(90.0, 40.0)], 1.0);
        let free = |x, y| obstacles.is_free(&Rect::around(Pos::new(x, y), 6.0, 4.0));
        assert!(!free(27.0, 20.0));
        assert!(free(28.1, 20.0));
        assert!(!free(60.0, 42.9));
        assert!(free(60.0, 43.1));
    }

    #[test]
    fn text_keeps_off_wood_and_a_leader_crosses_it() {
        let mut obstacles = Obstacles::default();
        obstacles.add_wood(Rect::around(Pos::new(20.0, 20.0), 1.0, 40.0));
        assert!(!obstacles.is_free(&Rect::around(Pos::new(22.0, 20.0), 5.0, 4.0)));
        assert!(obstacles.is_free(&Rect::around(Pos::new(23.1, 20.0), 5.0, 4.0)));
        assert!(obstacles.is_clear(Pos::new(10.0, 20.0), Pos::new(30.0, 20.0)));
    }

    #[test]
    fn a_leader_crosses_a_wall_and_does_not_run_in_it() {
        let mut obstacles = Obstacles::default();
        let askew = Pos::new(50.0, 50.0);
        obstacles.add_wall(Pos::new(0.0, 0.0), askew, 1.0);
        let seen = |a: (f64, f64), b: (f64, f64)| {
            obstacles.is_seen(Pos::new(a.0, a.1), Pos::new(b.0, b.1))
        };
        assert!(seen((20.0, 30.0), (30.0, 20.0)));
        assert!(seen((25.0, 10.0), (25.0, 40.0)));
        assert!(!seen((20.0, 20.0), (26.0, 26.5)));
        assert!(seen((20.0, 24.0), (26.0, 30.0)));
        assert!(obstacles.is_clear(Pos::new(20.0, 20.0), Pos::new(26.0, 26.0)));
        assert!(!obstacles.is_free(&Rect::around(Pos::new(25.0, 25.0), 1.0, 1.0)));
    }

    #[test]
    fn a_leader_crosses_cable_and_wood_and_does_not_run_along_them() {
        let mut obstacles = Obstacles::default();
        obstacles.add_chain(&[Pos::new(0.0, 0.0), Pos::new(50.0, 0.0)], 0.4);
        obstacles.add_wood(Rect::around(Pos::new(20.0, 20.0), 1.0, 30.0));
        let seen = |a: (f64, f64), b: (f64, f64)| {
            obstacles.is_seen(Pos::new(a.0, a.1), Pos::new(b.0, b.1))
        };
        assert!(seen((10.0, -3.0), (10.0, 3.0)));
        assert!(!seen((10.0, 0.2), (20.0, 0.4)));
        assert!(seen((10.0, 2.0), (19.0, 2.0)));
        assert!(seen((15.0, 20.0), (25.0, 20.0)));
        assert!(!seen((20.0, 10.0), (20.3, 16.0)));
        let text = Rect::around(Pos::new(40.0, 20.0), 6.0, 4.0);
        obstacles.add_text(text);
        let through = (Pos::new(30.0, 20.0), Pos::new(50.0, 20.0));
        assert!(!obstacles.is_legible(through.0, through.1));
        obstacles.add_leader(Pos::new(30.0, 40.0), Pos::new(50.0, 40.0));
        let across = (Pos::new(35.0, 35.0), Pos::new(36.0, 45.0));
        assert!(obstacles.is_legible(across.0, across.1));
        let along = (Pos::new(35.0, 40.2), Pos::new(45.0, 40.3));
        assert!(!obstacles.is_clear(across.0, across.1) && !obstacles.is_clear(along.0, along.1));
    }

    #[test]
    fn a_box_inside_out_covers_nothing() {
        let mut obstacles = Obstacles::default();
        obstacles.add_box(Rect::around(Pos::new(20.0, 20.0), 10.0, 4.0));
        let inside_out = Rect::around(Pos::new(20.0, 20.0), -90.0, -90.0);
        assert!(obstacles.is_free(&inside_out));
        obstacles.add_box(inside_out);
        assert!(obstacles.is_free(&Rect::around(Pos::new(50.0, 50.0), 9.0, 9.0)));
    }

    #[test]
    fn a_leader_crosses_lines_but_no_text_and_no_leader() {
        let mut obstacles = Obstacles::default();
        obstacles.add_chain(&[Pos::new(0.0, 40.0), Pos::new(90.0, 40.0)], 1.0);
        let down = (Pos::new(50.0, 10.0), Pos::new(50.0, 70.0));
        assert!(obstacles.is_clear(down.0, down.1));
        obstacles.add_leader(Pos::new(40.0, 20.0), Pos::new(60.0, 30.0));
        assert!(!obstacles.is_clear(down.0, down.1));
    }

    #[test]
    fn a_stretch_is_cut_at_the_edge() {
        let rect = Rect::new(Pos::new(0.0, 0.0), Pos::new(10.0, 10.0));
        let cut = rect.cut(Pos::new(5.0, 5.0), Pos::new(25.0, 5.0));
        assert_eq!(cut, Some((Pos::new(5.0, 5.0), Pos::new(10.0, 5.0))));
        assert_eq!(rect.cut(Pos::new(11.0, 5.0), Pos::new(25.0, 5.0)), None);
    }

    proptest! {
        /// Lines in the grid stop what they stop when each is asked by itself.
        #[test]
        fn a_line_askew_is_found_wherever_it_lies(
            lines in prop::collection::vec(((-90.0..90.0, -90.0..90.0), (-90.0..90.0, -90.0..90.0), 0.0..3.0), 1..20),
            (x, y) in (-90.0..90.0, -90.0..90.0),
        ) {
            let mut obstacles = Obstacles::default();
            for ((a, b), (c, d), half) in &lines {
                obstacles.add_chain(&[Pos::new(*a, *b), Pos::new(*c, *d)], *half);
            }
            let text = Rect::around(Pos::new(x, y), 9.0, 4.0);
            let stopped = obstacles.things.iter().any(|thing| thing.blocks_text(&text));
            prop_assert_eq!(obstacles.is_free(&text), !stopped);
        }
    }

    #[test]
    fn things_far_apart_in_one_column_are_both_seen() {
        let mut obstacles = Obstacles::default();
        let text = |y: f64| Rect::around(Pos::new(4.0, y), 2.0, 2.0);
        for y in [1e6, 0.0, -1e15, 1e6 + 16.0, -40.0] {
            assert!(obstacles.is_free(&text(y)), "{y}");
            obstacles.add_box(text(y));
            assert!(!obstacles.is_free(&text(y)), "{y}");
        }
        assert!(obstacles.is_free(&text(-16.0)));
    }

    #[test]
    fn a_line_without_end_is_still_seen() {
        let mut obstacles = Obstacles::default();
        obstacles.add_chain(&[Pos::new(-1e9, -1e9), Pos::new(1e9, 1e9)], 0.1);
        assert!(!obstacles.is_free(&Rect::around(Pos::new(5.0, 5.0), 2.0, 2.0)));
        assert!(obstacles.is_free(&Rect::around(Pos::new(5.0, 15.0), 2.0, 2.0)));
    }
}
