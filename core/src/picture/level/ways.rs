//! Ways in a level's plan: lines with their dashes and widths, and how many cables a trunk has.

use std::collections::BTreeMap;

use super::LevelSheet;
use crate::picture::labels::{Label, Run};
use crate::picture::trunks::{Stretch, stretches};
use crate::picture::{About, CABLE_STYLES, Ink, Item, Shape, trunk_width};
use crate::plan::CableKindId;
use crate::shape::Pos;

impl LevelSheet<'_> {
    pub(super) fn ways(&mut self, faint: bool) {
        let stretches = stretches(self.plan, self.design, self.level.id);
        let usual = self.usual_cable();
        for stretch in &stretches {
            let casing = Ink::Casing(stretch.cables.len().min(999) as u16);
            let line = Shape::Line(stretch.points.clone());
            self.picture.push(Item::plain(casing, line).faint_if(faint));
        }
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
            reach: 4.0,
            centred: false,
            ink: Ink::TrunkCount,
            about: None,
            faint: false,
            paper: false,
        })
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
