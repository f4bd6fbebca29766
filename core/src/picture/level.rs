//! The plan of one level: walls, what is in the way, drops, ways and bores, with their words.

use std::collections::BTreeMap;

use super::labels::{ANYWHERE, Label, Run, place};
use super::obstacles::{Obstacles, Rect};
use super::trunks::{Stretch, stretches};
use super::{
    About, CABLE_STYLES, Ink, Item, Picture, Shape, Type, hatch, marks, openings, symbols,
    trunk_width, walls,
};
use crate::design::Design;
use crate::finding::Severity;
use crate::framing::LevelFraming;
use crate::plan::{CableKindId, Drop, DropKind, Level, LevelId, Plan};
use crate::shape::Pos;
use crate::units::Mm;

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
    /// Everything, for paper: walls are named, findings left to their own list.
    Paper,
}

/// How a level is shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Showing {
    /// Millimetres of the house to a paper millimetre; above zero.
    pub scale: f64,
    /// Sizes of text and symbols.
    pub sizes: Type,
    /// What is stressed.
    pub stress: Stress,
    /// Text stays inside these corners, house millimetres; `None` for anywhere.
    pub frame: Option<(Pos, Pos)>,
}

impl Showing {
    /// On a screen at so many millimetres of the house to a CSS pixel.
    pub fn on_screen(mm_per_pixel: f64, stress: Stress) -> Self {
        Self {
            scale: mm_per_pixel / super::SCREEN_MM,
            sizes: Type::SCREEN,
            stress,
            frame: None,
        }
    }

    /// On paper at a scale such as 48, with text inside a frame.
    pub fn on_paper(scale: f64, frame: Option<(Pos, Pos)>) -> Self {
        Self {
            scale,
            sizes: Type::PAPER,
            stress: Stress::Paper,
            frame,
        }
    }
}

/// Draws a level. A level the plan does not have gives an empty picture.
pub fn draw(plan: &Plan, design: &Design, level: LevelId, showing: &Showing) -> Picture {
    let picture = Picture::at_scale(showing.scale);
    let (Some(level), Some(framing)) = (plan.level(level), design.framing.level(level)) else {
        return picture;
    };
    let mut sheet = LevelSheet {
        plan,
        design,
        level,
        framing,
        showing,
        picture,
        obstacles: Obstacles::default(),
        first: Vec::new(),
        last: Vec::new(),
    };
    sheet.draw();
    sheet.picture
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
        self.last.extend(names);
        walls::draw(&mut self.picture, self.level, self.framing, back);
        openings::draw(&mut self.picture, self.level, self.framing, back);
        self.walls_in_the_way();
        let names = hatch::power(
            &mut self.picture,
            &mut self.obstacles,
            self.level,
            sizes,
            back,
        );
        self.last.extend(names);
        if !matches!(stress, Stress::Drawing | Stress::Framing) {
            self.ways(stress == Stress::Drops);
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
                sizes,
            );
            self.first.extend(labels);
        }
        if stress != Stress::Paper {
            self.findings();
        }
        self.rooms(back);
        if matches!(stress, Stress::Framing | Stress::Paper) {
            self.wall_names();
        }
        self.label();
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
                self.obstacles.add_chain(&self.paper(&ends), half);
            }
        }
    }

    fn ways(&mut self, faint: bool) {
        let stretches = stretches(self.plan, self.design, self.level.id);
        let usual = self.usual_cable();
        for stretch in &stretches {
            let (ink, about, words) = self.stretch_ink(stretch);
            let line = Shape::Line(stretch.points.clone());
            let item = Item {
                ink,
                shape: line,
                about,
                words,
                faint,
            };
            self.picture.push(item);
            let half = trunk_width(stretch.cables.len().min(999) as u16) / 2.0;
            self.obstacles.add_chain(&self.paper(&stretch.points), half);
            if !faint {
                self.last.extend(self.count_label(stretch, usual));
            }
        }
    }

    /// One cable alone by its dash, several as a trunk.
    fn stretch_ink(&self, stretch: &Stretch) -> (Ink, Option<About>, String) {
        let labels: Vec<String> = stretch
            .cables
            .iter()
            .map(|cable| self.plan.cable_label(*cable))
            .collect();
        match stretch.cables.as_slice() {
            [cable] => {
                let kind = self.plan.cable(*cable).map_or(0, |(_, cable)| cable.kind.0);
                let style = (kind % u16::from(CABLE_STYLES)) as u8;
                let words = format!("Cable {}", labels.join(" "));
                (Ink::Cable(style), Some(About::Cable(*cable)), words)
            }
            cables => {
                let count = cables.len().min(usize::from(u16::MAX)) as u16;
                let words = format!("Trunk of {count} cables: {}", labels.join(" "));
                (Ink::Trunk(count), None, words)
            }
        }
    }

    /// The kind most cables are of; its letter need not be written along every line.
    fn usual_cable(&self) -> Option<CableKindId> {
        let mut counts: BTreeMap<CableKindId, usize> = BTreeMap::new();
        for (_, cable) in self.plan.cables() {
            *counts.entry(cable.kind).or_default() += 1;
        }
        let most = counts
            .into_iter()
            .max_by_key(|(kind, count)| (*count, std::cmp::Reverse(*kind)));
        most.map(|(kind, _)| kind)
    }

    /// The count of a trunk, or the letter of a lone cable of another than the usual kind.
    fn count_label(&self, stretch: &Stretch, usual: Option<CableKindId>) -> Option<Label> {
        let long = stretch.length() / self.picture.scale;
        let text = match stretch.cables.as_slice() {
            [cable] => {
                let kind = self.plan.cable(*cable)?.1.kind;
                let spec = self.plan.catalogue.cable(kind)?;
                (Some(kind) != usual && long > 15.0).then(|| spec.letter.to_string())?
            }
            cables if long > 5.0 => cables.len().to_string(),
            _ => return None,
        };
        Some(Label {
            anchors: along(&stretch.points),
            clear: trunk_width(stretch.cables.len().min(999) as u16) / 2.0,
            forms: vec![vec![Run::bold(text, self.showing.sizes.body)]],
            reach: 1.0,
            centred: false,
            ink: Ink::TrunkCount,
            about: None,
            faint: false,
        })
    }

    /// Finds every drop's symbol its place before anything is written.
    fn stand_drops(&mut self) -> Vec<(usize, symbols::Spot)> {
        let here = self.plan.drops.iter().enumerate();
        let here = here.filter(|(_, drop)| drop.level == self.level.id);
        let mut taken = Obstacles::default();
        for wall in &self.level.walls {
            if let Some(line) = wall.line() {
                let half = (wall.width().0 / 2.0 / self.picture.scale - 0.2).max(0.0);
                taken.add_chain(&self.paper(&[line.from, line.to]), half);
            }
        }
        if let Some(spot) = self.closet_spot() {
            taken.add_box(self.symbol_room(spot));
        }
        let (sizes, scale) = (self.showing.sizes, self.picture.scale);
        here.filter_map(|(place, drop)| {
            let spot = symbols::stand(self.plan, drop, sizes, scale, &mut taken)?;
            Some((place, spot))
        })
        .collect()
    }

    fn closet_spot(&self) -> Option<symbols::Spot> {
        let closet = self.plan.closet.filter(|c| c.level == self.level.id)?;
        symbols::closet_spot(self.plan, &closet, self.showing.sizes, self.picture.scale)
    }

    /// What a symbol covers, paper millimetres.
    fn symbol_room(&self, spot: symbols::Spot) -> Rect {
        let reach = symbols::reach(self.showing.sizes);
        Rect::around(
            spot.at * (1.0 / self.picture.scale),
            2.0 * reach,
            2.0 * reach,
        )
    }

    fn closet(&mut self, faint: bool) {
        let Some(spot) = self.closet_spot() else {
            return;
        };
        symbols::draw_closet(&mut self.picture, spot, self.showing.sizes, faint);
        self.obstacles.add_box(self.symbol_room(spot));
        self.first.push(Label {
            anchors: vec![spot.at],
            clear: symbols::reach(self.showing.sizes) + 0.2,
            forms: vec![vec![Run::bold("closet", self.showing.sizes.body)]],
            reach: ANYWHERE,
            centred: false,
            ink: Ink::DropName,
            about: Some(About::Closet),
            faint,
        });
    }

    fn drops(&mut self, drops: &[(usize, symbols::Spot)], faint: bool) {
        let sizes = self.showing.sizes;
        let usual = usual_heights(self.plan, self.level.id);
        for (place, spot) in drops {
            let Some(drop) = self.plan.drops.get(*place) else {
                continue;
            };
            symbols::draw(&mut self.picture, drop, *spot, sizes, faint);
            self.obstacles.add_box(self.symbol_room(*spot));
            self.first.push(Label {
                anchors: vec![spot.at],
                clear: symbols::reach(sizes) + 0.1,
                forms: self.drop_forms(drop, &usual),
                reach: ANYWHERE,
                centred: false,
                ink: Ink::DropName,
                about: Some(About::Drop(drop.id)),
                faint,
            });
        }
    }

    /// "D8", and beside it what is unusual: its height, more cables than its symbol shows.
    fn drop_forms(&self, drop: &Drop, usual: &BTreeMap<DropKind, Mm>) -> Vec<Vec<Run>> {
        let sizes = self.showing.sizes;
        let name = Run::bold(drop.label(), sizes.id);
        let mut notes: Vec<String> = Vec::new();
        if drop.kind != DropKind::Data && drop.cables.len() > 1 {
            notes.push(format!("×{}", drop.cables.len()));
        }
        let height = drop.height().filter(|h| usual.get(&drop.kind) != Some(h));
        notes.extend(height.map(|height| self.plan.units.height(height)));
        if drop.spare {
            notes.push(String::from("spare"));
        }
        match notes.is_empty() {
            true => vec![vec![name]],
            false => vec![vec![name, Run::plain(notes.join(" "), sizes.body)]],
        }
    }

    fn findings(&mut self) {
        for (place, finding) in self.design.findings.iter().enumerate() {
            let here = finding.at.filter(|(level, _)| *level == self.level.id);
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
        for room in &self.level.rooms {
            self.first.push(Label {
                anchors: vec![room.at.pos()],
                clear: 0.0,
                forms: vec![vec![Run::plain(
                    room.name.clone(),
                    self.showing.sizes.body * 1.1,
                )]],
                reach: 60.0,
                centred: true,
                ink: Ink::RoomName,
                about: Some(About::Room(room.id)),
                faint,
            });
        }
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
            });
        }
    }

    fn label(&mut self) {
        let scale = self.picture.scale;
        let mut left_out = Vec::new();
        for labels in [
            std::mem::take(&mut self.first),
            std::mem::take(&mut self.last),
        ] {
            let items = place(
                &labels,
                &mut self.obstacles,
                self.showing.frame,
                scale,
                &mut left_out,
            );
            self.picture.items.extend(items);
        }
    }
}

/// Places along a chain to write its count at: the middle of each long part first.
fn along(points: &[Pos]) -> Vec<Pos> {
    let mut parts: Vec<(f64, Pos, Pos)> = points
        .windows(2)
        .map(|pair| (pair[0].distance(pair[1]), pair[0], pair[1]))
        .collect();
    parts.sort_by(|a, b| b.0.total_cmp(&a.0));
    let shares = [0.5, 0.3, 0.7, 0.15, 0.85];
    parts
        .iter()
        .take(3)
        .flat_map(|(_, from, to)| shares.map(|share| *from + (*to - *from) * share))
        .collect()
}

/// The height most drops of each kind have on a level; the lowest of those equally frequent.
pub fn usual_heights(plan: &Plan, level: LevelId) -> BTreeMap<DropKind, Mm> {
    let mut counts: BTreeMap<DropKind, BTreeMap<Mm, usize>> = BTreeMap::new();
    for drop in plan.drops.iter().filter(|drop| drop.level == level) {
        if let Some(height) = drop.height() {
            *counts
                .entry(drop.kind)
                .or_default()
                .entry(height)
                .or_default() += 1;
        }
    }
    let most = |heights: BTreeMap<Mm, usize>| {
        let most = heights
            .into_iter()
            .max_by_key(|(height, count)| (*count, -*height));
        most.map(|(height, _)| height)
    };
    counts
        .into_iter()
        .filter_map(|(kind, heights)| Some((kind, most(heights)?)))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::sample;
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
        assert!(!has(Stress::Drops, |ink| *ink == Ink::Bore));
        assert!(has(Stress::Drops, |ink| *ink == Ink::Drop));
        assert!(has(Stress::Ways, |ink| *ink == Ink::BoreRing));
        assert!(!has(Stress::Drawing, |ink| *ink == Ink::WallExterior));
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
