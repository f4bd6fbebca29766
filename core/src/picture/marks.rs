//! Bores in plan: a short bar across the member, small marks for steel, tie and seal, and the words
//! of the drill list's line beside them.

use super::labels::{ANYWHERE, Label, Run};
use super::obstacles::{Obstacles, Rect};
use super::{About, Ink, Item, Picture, Shape, Showing, Type};
use crate::bore::{Bore, DrillRow};
use crate::design::Design;
use crate::plan::{LevelId, Plan, Wall};
use crate::route::{Crossing, Member};
use crate::shape::{Pos, Segment};

/// How far a bar stands out of its wall on both sides, paper millimetres.
const BEYOND: f64 = 0.9;
/// Radius of the ring of a bore down through plates, paper millimetres.
const RING: f64 = 1.1;
/// Half length of a bar across a joist, paper millimetres.
const ACROSS_JOIST: f64 = 1.8;
/// Half side of a steel plate's mark, paper millimetres.
const STEEL: f64 = 0.7;

/// Draws the bores worked from a level and returns the labels of their rows.
pub(super) fn draw(
    picture: &mut Picture,
    obstacles: &mut Obstacles,
    plan: &Plan,
    design: &Design,
    level: LevelId,
    showing: &Showing,
) -> Vec<Label> {
    let rows = design.drill_list.iter().filter(|row| row.level == level);
    let mut labels = Vec::new();
    for row in rows {
        let bores = row.bores.iter().filter_map(|bore| design.bores.get(*bore));
        let mut anchors: Vec<Pos> = Vec::new();
        for bore in bores {
            let Some(mark) = Mark::of(plan, design, bore, picture.scale) else {
                continue;
            };
            if !showing.shows(mark.at) {
                continue;
            }
            mark.draw(picture, row.number, &words(plan, row));
            obstacles.add_box(mark.room(picture.scale));
            anchors.push(mark.at);
        }
        // The leader starts at the middle of the row, or else at its neighbours.
        let middle = anchors.len() / 2;
        anchors.rotate_left(middle);
        if !anchors.is_empty() {
            labels.push(label(plan, row, anchors, showing.sizes));
        }
    }
    labels
}

/// "5 studs · 1 in · 30 in AFF"
pub(super) fn words(plan: &Plan, row: &DrillRow) -> String {
    let bit = plan.units.size(row.bit);
    match row.height.as_str() {
        "" | "centred" | "mid-depth" => format!("{} · {bit}", row.what),
        height => format!("{} · {bit} · {height}", row.what),
    }
}

fn label(plan: &Plan, row: &DrillRow, anchors: Vec<Pos>, sizes: Type) -> Label {
    let number = Run::bold(row.number.to_string(), sizes.id);
    Label {
        anchors,
        clear: RING * 1.6 + 0.2,
        forms: vec![
            vec![
                number.clone(),
                Run::plain(format!("· {}", words(plan, row)), sizes.body),
            ],
            vec![
                number.clone(),
                Run::plain(format!("· {}", plan.units.size(row.bit)), sizes.body),
            ],
            vec![number],
        ],
        reach: ANYWHERE,
        centred: false,
        ink: Ink::BoreName,
        about: Some(About::Bore(row.number)),
        faint: false,
        paper: false,
    }
}

/// One bore on the sheet.
struct Mark<'d> {
    bore: &'d Bore,
    at: Pos,
    /// Half of the bar, drawing millimetres; `None` for a ring.
    bar: Option<Pos>,
    ink: Ink,
}

impl<'d> Mark<'d> {
    fn of(plan: &Plan, design: &'d Design, bore: &'d Bore, scale: f64) -> Option<Self> {
        let crossing = design.ways.crossings.get(bore.crossing)?;
        let wall = crossing.wall.and_then(|id| plan.wall(id)).map(|(_, w)| w);
        let line = wall.and_then(Wall::line);
        let at = match (&crossing.member, &line) {
            (Member::Corner { .. }, _) | (_, None) => crossing.at,
            (_, Some(line)) => line.at(bore.offset, 0.0),
        };
        Some(Self {
            bore,
            at,
            bar: bar(design, crossing, wall, line.as_ref(), scale),
            ink: ink(design, crossing),
        })
    }

    fn draw(&self, picture: &mut Picture, number: u32, words: &str) {
        let scale = picture.scale;
        let about = About::Bore(number);
        let words = format!("Bore {number}, {words}");
        let mut put = |ink, shape, words: &str| picture.push(Item::about(ink, shape, about, words));
        let circle = |radius: f64| Shape::Circle {
            at: self.at,
            radius: radius * scale,
        };
        if self.bore.seal {
            put(Ink::Seal, circle(RING * 1.6), "");
        }
        match self.bar {
            Some(bar) => {
                let ends = [
                    self.bar_end(bar, -1.0, scale),
                    self.bar_end(bar, 1.0, scale),
                ];
                put(self.ink, Shape::Line(ends.to_vec()), &words);
            }
            None => put(self.ink, circle(RING), &words),
        }
        let end = self
            .bar
            .map_or(self.at, |bar| self.bar_end(bar, 1.0, scale));
        if self.bore.nail_plates > 0 {
            let square = super::symbols::square(end, STEEL * scale);
            put(Ink::NailPlate, Shape::Area(square), "");
        }
        if self.bore.tie {
            let reach = Pos::new(RING * 2.0 * scale, 0.0);
            put(
                Ink::Tie,
                Shape::Line(vec![self.at - reach, self.at + reach]),
                "",
            );
        }
    }

    fn bar_end(&self, bar: Pos, way: f64, scale: f64) -> Pos {
        let beyond = bar.unit().unwrap_or_default() * (BEYOND * scale);
        self.at + (bar + beyond) * way
    }

    /// What the mark covers, paper millimetres.
    fn room(&self, scale: f64) -> Rect {
        let paper = 1.0 / scale;
        let around = Rect::around(self.at * paper, 2.0 * RING, 2.0 * RING);
        match self.bar {
            None => around,
            Some(bar) => {
                let (a, b) = (
                    self.bar_end(bar, -1.0, scale),
                    self.bar_end(bar, 1.0, scale),
                );
                let low = Pos::new(a.x.min(b.x), a.y.min(b.y)) * paper;
                let high = Pos::new(a.x.max(b.x), a.y.max(b.y)) * paper;
                Rect::new(low, high).grown(0.4)
            }
        }
    }
}

/// Up and down, overhead and underfoot are told apart.
fn ink(design: &Design, crossing: &Crossing) -> Ink {
    let level = design.framing.level(crossing.level);
    match crossing.member {
        Member::TopPlates(_) => Ink::BoreRing,
        Member::BottomPlates(_) => Ink::BoreDown,
        Member::Joist { space } | Member::Web { space } => {
            match level.is_some_and(|level| level.below == Some(space)) {
                true => Ink::BoreUnder,
                false => Ink::BoreOver,
            }
        }
        _ => Ink::Bore,
    }
}

/// Half of the bar across a member; `None` for plates, which are bored up or down.
fn bar(
    design: &Design,
    crossing: &Crossing,
    wall: Option<&Wall>,
    line: Option<&Segment>,
    scale: f64,
) -> Option<Pos> {
    match crossing.member {
        Member::TopPlates(_) | Member::BottomPlates(_) => None,
        Member::Joist { space } | Member::Web { space } => {
            let along = design.framing.spaces.get(space)?.along;
            Some(along * (ACROSS_JOIST * scale))
        }
        Member::Sheathing | Member::Soffit => Some(line?.along * (ACROSS_JOIST * scale)),
        Member::Studs(_) | Member::Corner { .. } => Some(line?.across() * (wall?.width().0 / 2.0)),
    }
}
