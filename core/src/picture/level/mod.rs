//! The plan of one level: walls, what is in the way, drops, ways and bores, with their words.

mod crowd;
mod drops;
mod ways;

pub use drops::usual_heights;

use super::labels::{ANYWHERE, Bounds, Label, Run, place, said};
use super::obstacles::Obstacles;
use super::{About, Ink, Item, Picture, Shape, Type, hatch, marks, openings, symbols, walls};
use crate::design::Design;
use crate::finding::Severity;
use crate::framing::{LevelFraming, room_at};
use crate::plan::{Drop, KeepOutShape, Level, LevelId, Plan, PowerPlace, Room};
use crate::schedule::Phase;
use crate::shape::Pos;
use crate::tongue::Tongue;

/// What a plan stresses.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stress {
    /// The scan: all else stands back.
    Drawing,
    /// Walls, openings, joists; no ways.
    Framing,
    /// Drops; ways stand back, bores are left out.
    Drops,
    /// Ways and bores.
    #[default]
    Ways,
    /// On site: drops at which something of this part of the work is left; all else stands back.
    Site(Phase),
    /// Everything, for paper: walls are named, findings left to their own list.
    Paper,
    /// Rooms and what is brought where, for paper: no ways, no bores.
    Places,
}

/// How far a room's name may lie from where it was put, on a screen, paper millimetres.
const ROOM_REACH: f64 = 4.0;

/// On a screen names seek a place until so much was held against them; those that come after go without.
/// Houses of 22 to 46 drops take a half to three quarters of it where a pixel is 60 mm wide, and a twentieth where
/// it is 8 mm.
const MOST_ASKED: u64 = 800_000;

/// How a level is shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Showing {
    /// Millimetres of the house to a paper millimetre; above zero.
    pub scale: f64,
    /// Sizes of text and symbols.
    pub sizes: Type,
    /// What is stressed.
    pub stress: Stress,
    /// Text stays inside these corners, house millimetres: always on paper, and on a screen, which
    /// can be moved, where it finds a place there; `None` for anywhere.
    pub frame: Option<(Pos, Pos)>,
    /// Only what lies between these corners is drawn, house millimetres; `None` for all.
    pub region: Option<(Pos, Pos)>,
    /// The tongue of its fixed words.
    pub tongue: Tongue,
}

impl Showing {
    /// Whether a place is drawn.
    pub(super) fn shows(&self, at: Pos) -> bool {
        self.region.is_none_or(|(low, high)| {
            low.x <= at.x && at.x <= high.x && low.y <= at.y && at.y <= high.y
        })
    }

    /// On a screen at so many millimetres of the house to a CSS pixel.
    pub fn on_screen(mm_per_pixel: f64, stress: Stress) -> Self {
        Self {
            scale: mm_per_pixel / super::SCREEN_MM,
            sizes: Type::SCREEN,
            stress,
            frame: None,
            region: None,
            tongue: Tongue::English,
        }
    }

    /// On paper at a scale such as 48, with text inside a frame.
    pub fn on_paper(scale: f64, frame: Option<(Pos, Pos)>) -> Self {
        Self {
            scale,
            sizes: Type::PAPER,
            stress: Stress::Paper,
            frame,
            region: None,
            tongue: Tongue::English,
        }
    }
}

/// Draws a level. A level the plan does not have gives an empty picture.
pub fn draw(plan: &Plan, design: &Design, level: LevelId, showing: &Showing) -> Picture {
    let picture = Picture::at_scale(showing.scale);
    let (Some(level), Some(framing)) = (plan.level(level), design.framing.level(level)) else {
        return picture;
    };
    let shown = shown(level, showing);
    let mut sheet = LevelSheet {
        plan,
        design,
        level: &shown,
        framing,
        showing,
        picture,
        obstacles: Obstacles::default(),
        names: Vec::new(),
        first: Vec::new(),
        last: Vec::new(),
    };
    sheet.draw();
    sheet.picture
}

/// Whether ways stand back: while drops are placed, and on site once cable is pulled.
fn is_behind(stress: Stress) -> bool {
    match stress {
        Stress::Site(phase) => phase != Phase::RoughIn,
        _ => stress == Stress::Drops,
    }
}

/// The part of a level that is shown; its drawing under it is not needed.
fn shown(level: &Level, showing: &Showing) -> Level {
    let mut shown = Level {
        sheet: crate::plan::Sheet::default(),
        ..level.clone()
    };
    let wall = |id| {
        let line = level.wall(id).and_then(|wall| wall.line());
        line.is_none_or(|line| showing.shows(line.at(line.length / 2.0, 0.0)))
    };
    shown.walls.retain(|w| wall(w.id));
    shown.openings.retain(|opening| wall(opening.wall));
    shown.rooms.retain(|room| showing.shows(room.at.pos()));
    shown.keep_outs.retain(|keep_out| match &keep_out.shape {
        KeepOutShape::Region(corners) => corners.iter().any(|c| showing.shows(c.pos())),
        KeepOutShape::Stretch { wall: on, .. } => wall(*on),
    });
    shown.power_runs.retain(|run| match &run.place {
        PowerPlace::Wall { wall: on, .. } => wall(*on),
        PowerPlace::Overhead(points) => points.iter().any(|c| showing.shows(c.pos())),
    });
    shown
}

/// A level while it is drawn.
struct LevelSheet<'p> {
    plan: &'p Plan,
    design: &'p Design,
    level: &'p Level,
    framing: &'p LevelFraming,
    showing: &'p Showing,
    picture: Picture,
    obstacles: Obstacles,
    /// Names of rooms and keep-outs, which have the most room to move.
    names: Vec<Label>,
    /// Labels that must find a place.
    first: Vec<Label>,
    /// Labels placed after them, where there is room.
    last: Vec<Label>,
}

impl LevelSheet<'_> {
    fn draw(&mut self) {
        let stress = self.showing.stress;
        let sizes = self.showing.sizes;
        let back = stress == Stress::Drawing;
        let names = hatch::keep_outs(&mut self.picture, self.level, sizes, back);
        self.names.extend(names);
        self.rooms(back);
        walls::draw(&mut self.picture, self.level, self.framing, back);
        openings::draw(&mut self.picture, self.level, self.framing, back);
        self.swings_in_the_way();
        self.walls_in_the_way();
        let names = hatch::power(
            &mut self.picture,
            &mut self.obstacles,
            self.level,
            sizes,
            back,
        );
        self.last.extend(names);
        let shows_ways = !matches!(stress, Stress::Drawing | Stress::Framing | Stress::Places);
        if shows_ways && !self.is_tangled() {
            self.ways(is_behind(stress));
        }
        let drops = self.stand_drops();
        self.closet(matches!(stress, Stress::Drawing | Stress::Framing));
        self.drops(&drops, matches!(stress, Stress::Drawing | Stress::Framing));
        if matches!(stress, Stress::Ways | Stress::Paper) {
            let labels = marks::draw(
                &mut self.picture,
                &mut self.obstacles,
                self.plan,
                self.design,
                self.level.id,
                self.showing,
            );
            self.first.extend(labels);
        }
        if stress == Stress::Framing {
            let words = hatch::joists(
                &mut self.picture,
                &mut self.obstacles,
                self.plan,
                &self.design.framing,
                self.framing,
                sizes,
            );
            self.first.extend(words);
        }
        if !matches!(stress, Stress::Paper | Stress::Places | Stress::Site(_)) {
            self.findings();
        }
        if matches!(stress, Stress::Framing | Stress::Paper) {
            self.wall_names();
        }
        if !self.is_crowded() {
            self.label();
        }
    }

    /// Whether everything is done at a drop that this part of the work asks; a drop of which it asks
    /// nothing counts as done.
    pub(super) fn is_done(&self, drop: &Drop) -> bool {
        match self.showing.stress {
            Stress::Site(phase) => phase.at(self.plan, drop).is_done(),
            _ => false,
        }
    }

    fn paper(&self, points: &[Pos]) -> Vec<Pos> {
        points
            .iter()
            .map(|place| *place * (1.0 / self.picture.scale))
            .collect()
    }

    fn walls_in_the_way(&mut self) {
        for wall in &self.level.walls {
            if let Some(frame) = self.framing.wall(wall.id) {
                let ends = [
                    frame.line.at(frame.start, 0.0),
                    frame.line.at(frame.end, 0.0),
                ];
                let half = wall.width().0 / 2.0 / self.picture.scale;
                let ends = ends.map(|end| end * (1.0 / self.picture.scale));
                self.obstacles.add_wall(ends[0], ends[1], half);
            }
        }
    }

    fn swings_in_the_way(&mut self) {
        let swing = |item: &Item| match &item.shape {
            Shape::Line(points) if item.ink == Ink::DoorSwing => Some(self.paper(points)),
            _ => None,
        };
        let swings: Vec<Vec<Pos>> = self.picture.items.iter().filter_map(swing).collect();
        for points in swings {
            self.obstacles.add_chain(&points, 0.2);
        }
    }

    fn findings(&mut self) {
        for (place, finding) in self.design.findings.iter().enumerate() {
            let here = finding
                .at
                .filter(|(level, at)| *level == self.level.id && self.showing.shows(*at));
            let (Some((_, at)), None) = (here, finding.dismissed.as_ref()) else {
                continue;
            };
            let (ink, rings) = match finding.severity {
                Severity::Stop => (Ink::FindingStop, 2),
                Severity::Warn => (Ink::FindingWarn, 1),
                Severity::Note => (Ink::FindingNote, 1),
            };
            for ring in 0..rings {
                let radius = symbols::reach(self.showing.sizes) * (1.5 + 0.3 * f64::from(ring));
                let shape = Shape::Circle {
                    at,
                    radius: radius * self.picture.scale,
                };
                let words = format!("{}: {}", finding.severity.name(), finding.what);
                self.picture
                    .push(Item::about(ink, shape, About::Finding(place), words));
            }
        }
    }

    fn rooms(&mut self, faint: bool) {
        if self.is_crowded() {
            return;
        }
        let size = self.showing.sizes.body * 1.1;
        // While tracing the name stands bold on a ground of paper, over the drawing's own lettering.
        let tracing = matches!(self.showing.stress, Stress::Drawing | Stress::Framing);
        for room in &self.level.rooms {
            let run = match tracing {
                true => Run::bold(room.name.clone(), size),
                false => Run::plain(room.name.clone(), size),
            };
            self.names.push(Label {
                anchors: self.in_room(room),
                clear: 0.0,
                forms: vec![vec![run]],
                reach: self.room_name_reach(),
                centred: true,
                ink: Ink::RoomName,
                about: Some(About::Room(room.id)),
                faint,
                paper: false,
            });
        }
    }

    /// A name far from its room misleads; on a screen one looks closer to read it.
    fn room_name_reach(&self) -> f64 {
        match self.showing.stress {
            Stress::Paper | Stress::Places => ANYWHERE,
            _ => ROOM_REACH,
        }
    }

    /// Places for a room's name: where it was put, then around that place without leaving the room.
    fn in_room(&self, room: &Room) -> Vec<Pos> {
        let step = self.showing.sizes.body * 1.5 * self.picture.scale;
        let mut shifts: Vec<(i32, i32)> = (-4..=4)
            .flat_map(|x| (-4..=4).map(move |y| (x, y)))
            .collect();
        shifts.sort_by_key(|(x, y)| (x * x + y * y, *x, *y));
        let places = shifts
            .into_iter()
            .map(|(x, y)| room.at.pos() + Pos::new(f64::from(x), f64::from(y)) * step);
        let inside = |at: &Pos| room_at(self.level, *at).is_some_and(|here| here.id == room.id);
        places.filter(inside).collect()
    }

    fn wall_names(&mut self) {
        for wall in &self.level.walls {
            let Some(line) = wall.line() else { continue };
            let shares = [0.5, 0.35, 0.65, 0.2, 0.8];
            self.last.push(Label {
                anchors: shares
                    .map(|share| line.at(line.length * share, 0.0))
                    .to_vec(),
                clear: wall.width().0 / 2.0 / self.picture.scale + 0.2,
                forms: vec![vec![Run::plain(wall.label(), self.showing.sizes.body)]],
                reach: 60.0,
                centred: false,
                ink: Ink::WallName,
                about: Some(About::Wall(wall.id)),
                faint: false,
                paper: false,
            });
        }
    }

    /// Hatching is no ground to write on, but for the keep-out's own name.
    fn hatching_in_the_way(&mut self) {
        let hatching = |item: &Item| match &item.shape {
            Shape::Line(points) if item.ink == Ink::KeepOut => Some(self.paper(points)),
            _ => None,
        };
        let lines: Vec<Vec<Pos>> = self.picture.items.iter().filter_map(hatching).collect();
        for points in lines {
            self.obstacles.add_chain(&points, 0.2);
        }
    }

    fn label(&mut self) {
        let (rooms, keep_outs): (Vec<Label>, Vec<Label>) = std::mem::take(&mut self.names)
            .into_iter()
            .partition(|label| !label.paper);
        self.place(&keep_outs);
        self.hatching_in_the_way();
        self.place(&rooms);
        for labels in [&mut self.first, &mut self.last].map(std::mem::take) {
            self.place(&labels);
        }
    }

    fn place(&mut self, labels: &[Label]) {
        let frame = self.showing.frame;
        let left_out = self.place_within(labels, frame);
        let paper = matches!(self.showing.stress, Stress::Paper | Stress::Places);
        let rest = left_out.into_iter().filter_map(|at| labels.get(at));
        let must = |label: &&Label| !paper && label.reach >= ANYWHERE;
        let rest: Vec<Label> = rest.filter(must).cloned().collect();
        self.place_within(&rest, None);
    }

    /// Places labels and tells which found no place.
    fn place_within(&mut self, labels: &[Label], frame: Option<(Pos, Pos)>) -> Vec<usize> {
        let (scale, mut left_out) = (self.picture.scale, Vec::new());
        let most = match self.showing.stress {
            Stress::Paper | Stress::Places => u64::MAX,
            _ => MOST_ASKED,
        };
        let bounds = Bounds { frame, most };
        let labels = said(labels, self.showing.tongue);
        let items = place(&labels, &mut self.obstacles, &bounds, scale, &mut left_out);
        self.picture.items.extend(items);
        left_out
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::obstacles::Rect;
    use crate::picture::sample;
    use crate::plan::edit::{Edit, Note};
    use crate::plan::{BoxStage, DropKind};
    use crate::shape::Point;
    use crate::units::Mm;
    use proptest::prelude::*;

    fn drawn(plan: &Plan, scale: f64) -> Picture {
        let design = Design::of(plan);
        draw(plan, &design, LevelId(1), &Showing::on_paper(scale, None))
    }

    fn texts(picture: &Picture) -> Vec<(String, Rect)> {
        let text = |item: &Item| match &item.shape {
            Shape::Text(text) if item.ink != Ink::DropLetter => {
                let (low, high) = text.bounds(picture.scale);
                Some((text.text.clone(), Rect::new(low, high)))
            }
            _ => None,
        };
        picture.items.iter().filter_map(text).collect()
    }

    fn overlapping(picture: &Picture) -> Vec<(String, String)> {
        let texts = texts(picture);
        let mut found = Vec::new();
        for (place, (text, rect)) in texts.iter().enumerate() {
            let hit = texts[place + 1..]
                .iter()
                .filter(|(_, other)| rect.overlaps(other));
            found.extend(hit.map(|(other, _)| (text.clone(), other.clone())));
        }
        found
    }

    #[test]
    fn every_drop_and_every_row_of_bores_is_named_once() {
        let plan = sample::house();
        let design = Design::of(&plan);
        let picture = drawn(&plan, 96.0);
        let count = |ink: Ink, name: &str| {
            let named = |item: &&Item| match &item.shape {
                Shape::Text(text) => item.ink == ink && text.text == name,
                _ => false,
            };
            picture.items.iter().filter(named).count()
        };
        for drop in &plan.drops {
            assert_eq!(count(Ink::DropName, &drop.label()), 1, "{}", drop.label());
        }
        assert!(!design.drill_list.is_empty());
        for row in &design.drill_list {
            assert_eq!(
                count(Ink::BoreName, &row.number.to_string()),
                1,
                "{}",
                row.number
            );
        }
    }

    #[test]
    fn a_step_shows_what_it_is_about() {
        let plan = sample::house();
        let design = Design::of(&plan);
        let has = |stress, ink: fn(&Ink) -> bool| {
            let picture = draw(
                &plan,
                &design,
                LevelId(1),
                &Showing::on_screen(18.0, stress),
            );
            picture
                .items
                .iter()
                .any(|item| ink(&item.ink) && !item.faint)
        };
        assert!(!has(Stress::Framing, |ink| matches!(ink, Ink::Trunk(_))));
        assert!(has(Stress::Framing, |ink| *ink == Ink::WallName));
        assert!(has(Stress::Framing, |ink| *ink == Ink::JoistName));
        assert!(!has(Stress::Ways, |ink| *ink == Ink::Joist));
        assert!(!has(Stress::Drops, |ink| *ink == Ink::Bore));
        assert!(has(Stress::Drops, |ink| *ink == Ink::Drop));
        assert!(has(Stress::Ways, |ink| *ink == Ink::BoreRing));
        assert!(!has(Stress::Drawing, |ink| *ink == Ink::WallExterior));
    }

    #[test]
    fn on_site_every_drop_is_to_do_or_done() {
        let plan = sample::house();
        let first = plan.drops[0].id;
        let done = [BoxStage::Tucked, BoxStage::Photographed];
        let done = done.map(|stage| Edit::Note(Note::Box(first, stage, Some(String::new()))));
        let plan = plan.apply(&Edit::Together(done.to_vec())).unwrap();
        let showing = Showing::on_screen(18.0, Stress::Site(Phase::Protection));
        let picture = draw(&plan, &Design::of(&plan), LevelId(1), &showing);
        let count = |ink: Ink| picture.items.iter().filter(|item| item.ink == ink).count();
        assert_eq!(count(Ink::Done), 1);
        assert_eq!(count(Ink::ToDo), plan.drops.len() - 1);
        assert_eq!(overlapping(&picture), vec![]);
    }

    #[test]
    fn names_stay_in_sight_on_a_screen_and_none_of_a_drop_is_lost() {
        let plan = sample::house();
        let design = Design::of(&plan);
        let screen = Showing::on_screen(60.0, Stress::Ways);
        let ends = plan.levels[0]
            .walls
            .iter()
            .flat_map(|wall| [wall.from, wall.to]);
        let (right, foot) = ends.fold((0, 0), |(x, y), end| (end.x.max(x), end.y.max(y)));
        let (low, high) = (
            Point::new(-1_500, -9_000),
            Point::new(right + 1_500, foot + 9_000),
        );
        let (low, high) = (low.pos(), high.pos());
        let drawn = |frame| {
            texts(&draw(
                &plan,
                &design,
                LevelId(1),
                &Showing { frame, ..screen },
            ))
        };
        let outside = |texts: &[(String, Rect)]| {
            let frame = Rect::new(low, high);
            texts.iter().filter(|(_, rect)| !frame.holds(rect)).count()
        };
        let (free, framed) = (drawn(None), drawn(Some((low, high))));
        assert!(
            outside(&free) > 0 && outside(&framed) == 0,
            "{} {}",
            outside(&free),
            outside(&framed)
        );
        // In a frame that holds nothing names of drops stand outside rather than nowhere.
        let nothing = drawn(Some((low, low)));
        let named = |label: &str| nothing.iter().any(|(text, _)| text == label);
        assert!(plan.drops.iter().all(|drop| named(&drop.label())));
    }

    #[test]
    fn a_level_that_is_not_there_is_an_empty_picture() {
        let plan = sample::house();
        let showing = Showing::on_paper(48.0, None);
        let picture = draw(&plan, &Design::of(&plan), LevelId(9), &showing);
        assert!(picture.items.is_empty());
    }

    #[test]
    fn only_unusual_heights_are_written() {
        let plan = sample::house();
        let usual = usual_heights(&plan, LevelId(1));
        assert_eq!(usual.get(&DropKind::Data), Some(&Mm(406)));
        assert_eq!(usual.get(&DropKind::Television), Some(&Mm(406)));
        let texts = texts(&drawn(&plan, 48.0));
        assert!(texts.iter().any(|(text, _)| text == "44 in"));
        assert!(!texts.iter().any(|(text, _)| text == "16 in"));
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(24))]
        #[test]
        fn no_label_lies_on_another(
            places in prop::collection::vec(
                (0_usize..10, 0.02..0.98, any::<bool>(), 0_usize..7), 0..25),
            scale in prop::sample::select(vec![48.0, 64.0, 96.0, 100.0]),
        ) {
            let picture = drawn(&sample::with_drops(&places), scale);
            prop_assert_eq!(overlapping(&picture), vec![]);
        }
    }
}
