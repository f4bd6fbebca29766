//! Ways in a level's plan: lines with their dashes and widths, and how many cables a trunk has.

use std::collections::BTreeMap;

use super::LevelSheet;
use crate::design::Design;
use crate::picture::labels::{Label, Run};
use crate::picture::obstacles::Rect;
use crate::picture::trunks::{Stretch, stretches};
use crate::picture::{About, CABLE_STYLES, Ink, Item, Shape, symbols, trunk_width};
use crate::plan::{Cable, CableId, CableKindId, Drop, LevelId, Plan};
use crate::route::MoveKind;
use crate::shape::Pos;

impl LevelSheet<'_> {
    pub(super) fn ways(&mut self, faint: bool) {
        let mut stretches = stretches(self.plan, self.design, self.level.id);
        if let Some(region) = self.showing.region {
            stretches = stretches.iter().flat_map(|s| clipped(s, region)).collect();
        }
        let usual = self.usual_cable();
        let labels = self.cable_labels();
        for stretch in &stretches {
            let casing = Ink::Casing(stretch.cables.len().min(999) as u16);
            let line = Shape::Line(stretch.points.clone());
            self.picture.push(Item::plain(casing, line).faint_if(faint));
        }
        for stretch in &stretches {
            let (ink, about, words) = stretch_ink(self.plan, stretch, &labels);
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
        for (at, words) in risers(self.plan, self.design, self.level.id) {
            if self.showing.shows(at) {
                self.riser(at, words, faint);
            }
        }
    }

    /// A small filled arrow head where cable comes down from the level above.
    fn riser(&mut self, at: Pos, words: String, faint: bool) {
        let scale = self.picture.scale;
        let head = symbols::triangle(at, RISER * scale);
        let item = Item {
            ink: Ink::Riser,
            shape: Shape::Area(head),
            about: None,
            words,
            faint,
        };
        self.picture.push(item);
        let room = Rect::around(at * (1.0 / scale), 2.0 * RISER, 2.0 * RISER);
        self.obstacles.add_box(room);
    }

    fn cable_labels(&self) -> BTreeMap<CableId, String> {
        let cables = self.plan.cables();
        let label = |drop: &Drop, cable: &Cable| (cable.id, drop.cable_label(cable));
        cables.map(|(drop, cable)| label(drop, cable)).collect()
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
        let size = self.showing.sizes.body;
        let run = match stretch.cables.as_slice() {
            [cable] => {
                let kind = self.plan.cable(*cable)?.1.kind;
                let letter = self.plan.catalogue.cable(kind)?.letter;
                let is_told = Some(kind) != usual && long > 15.0;
                is_told.then(|| Run::bold(letter.to_string(), size))?
            }
            // A bold number by itself is a bore's; cables are counted as they are beside a drop.
            cables if long > 5.0 => Run::plain(format!("×{}", cables.len()), size),
            _ => return None,
        };
        Some(Label {
            anchors: along(&stretch.points),
            clear: trunk_width(stretch.cables.len().min(999) as u16) / 2.0,
            forms: vec![vec![run]],
            reach: 4.0,
            centred: false,
            ink: Ink::TrunkCount,
            about: None,
            faint: false,
            paper: false,
        })
    }
}

/// One cable alone by its dash, several as a trunk.
fn stretch_ink(
    plan: &Plan,
    stretch: &Stretch,
    labels: &BTreeMap<CableId, String>,
) -> (Ink, Option<About>, String) {
    let label = |cable| labels.get(cable).map_or("?", String::as_str);
    match stretch.cables.as_slice() {
        [cable] => {
            let kind = plan.cable(*cable).map_or(0, |(_, cable)| cable.kind.0);
            let style = (kind % u16::from(CABLE_STYLES)) as u8;
            let words = format!("Cable {}", label(cable));
            (Ink::Cable(style), Some(About::Cable(*cable)), words)
        }
        cables => {
            let count = cables.len().min(usize::from(u16::MAX)) as u16;
            let labels: Vec<&str> = cables.iter().map(label).collect();
            let words = format!("Trunk of {count} cables: {}", labels.join(" "));
            (Ink::Trunk(count), None, words)
        }
    }
}

/// Radius of a riser's mark, paper millimetres.
pub(in crate::picture) const RISER: f64 = 1.3;

/// Where cable comes down from the level above into the space over this one, with its words.
fn risers(plan: &Plan, design: &Design, level: LevelId) -> Vec<(Pos, String)> {
    let framing = &design.framing;
    let Some(above) = framing.level(level).and_then(|level| level.above) else {
        return Vec::new();
    };
    let mut found: BTreeMap<(i32, i32), (Pos, Vec<CableId>)> = BTreeMap::new();
    for way in &design.ways.ways {
        for step in &way.moves {
            let MoveKind::ThroughBottomPlates { level: upper, .. } = step.kind else {
                continue;
            };
            if framing.level(upper).and_then(|upper| upper.below) == Some(above) {
                let lower = if step.from.z < step.to.z {
                    step.from
                } else {
                    step.to
                };
                let at = lower.at.point();
                let here = found.entry((at.x, at.y)).or_insert((lower.at, Vec::new()));
                here.1.push(way.cable);
            }
        }
    }
    let words = |cables: Vec<CableId>| {
        let labels: Vec<String> = cables.iter().map(|id| plan.cable_label(*id)).collect();
        format!("From the level above: {}", labels.join(" "))
    };
    found
        .into_values()
        .map(|(at, cables)| (at, words(cables)))
        .collect()
}

/// The parts of a stretch between two corners.
fn clipped(stretch: &Stretch, (low, high): (Pos, Pos)) -> Vec<Stretch> {
    let rect = Rect::new(low, high);
    let mut parts: Vec<Vec<Pos>> = Vec::new();
    for pair in stretch.points.windows(2) {
        let Some((from, to)) = rect.cut(pair[0], pair[1]) else {
            continue;
        };
        match parts.last_mut() {
            Some(part) if part.last() == Some(&from) => part.push(to),
            _ => parts.push(vec![from, to]),
        }
    }
    let part = |points| Stretch {
        points,
        ..stretch.clone()
    };
    parts.into_iter().map(part).collect()
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
