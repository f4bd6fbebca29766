//! Bores cut across, to scale: every bundle of more than a few cables as it lies in its bore, with
//! the numbers of its cables and the wood left around it.

use std::collections::BTreeSet;

use super::mark::Laid;
use super::paper::{Area, Extent, Lie};
use super::table::{BODY, text};
use super::{Draft, Kind, Paper, frame};
use crate::bore::DrillRow;
use crate::design::Design;
use crate::picture::font::Weight;
use crate::picture::{Anchor, Picture, Type, section, section_width};
use crate::plan::Plan;
use crate::shape::Pos;

/// Bundles of fewer cables lie as they like.
const LEAST: usize = 5;
/// Room for the heading over a section.
const HEAD: f64 = 7.0;
/// Space between sections.
const GAP: f64 = 3.0;

/// The pages of sections; none where no bundle is large.
pub(super) fn pages(plan: &Plan, design: &Design, paper: &Paper) -> Vec<Draft> {
    let extent = paper.extents(Lie::Landscape).first().copied();
    let extent = extent.unwrap_or_default();
    let mut flow = Flow {
        body: frame::body(plan, extent),
        extent,
        at: Pos::default(),
        row: 0.0,
        layers: Vec::new(),
        drafts: Vec::new(),
    };
    let mut seen = BTreeSet::new();
    for row in &design.drill_list {
        // The same cables through the same bit in the same member lie the same way.
        let key = (
            row.cables.clone(),
            row.bit.micrometres(),
            row.member.clone(),
        );
        if row.cables.len() >= LEAST && seen.insert(key) {
            flow.put(plan, design, row);
        }
    }
    flow.turn();
    flow.drafts
}

/// Sections side by side, row under row and page after page.
struct Flow {
    body: Area,
    extent: Extent,
    /// Where the next one goes, from the body's upper left corner.
    at: Pos,
    /// Height of the row so far.
    row: f64,
    layers: Vec<Laid>,
    drafts: Vec<Draft>,
}

impl Flow {
    fn put(&mut self, plan: &Plan, design: &Design, row: &DrillRow) {
        let Some(bore) = row.bores.first() else {
            return;
        };
        let Some(known) = design.bores.get(*bore) else {
            return;
        };
        let width = section_width(plan, known, Type::PAPER).min(self.body.width());
        let picture = section(plan, design, *bore, width, Type::PAPER);
        let height = HEAD + picture.bounds().map_or(0.0, |(_, high)| high.y) + GAP;
        if self.at.x > 0.0 && self.at.x + width > self.body.width() {
            self.at = Pos::new(0.0, self.at.y + self.row);
            self.row = 0.0;
        }
        if self.at.y > 0.0 && self.at.y + height > self.body.height() {
            self.turn();
        }
        let corner = self.body.low + self.at;
        let words = format!(
            "{} · {} · {} cables, {:.0} %",
            row.number,
            plan.units.size(row.bit),
            row.cables.len(),
            row.fill * 100.0
        );
        let mut heading = Picture::at_scale(1.0);
        heading.push(text(
            Pos::new(0.0, 4.6),
            Anchor::Start,
            BODY,
            Weight::Bold,
            &words,
        ));
        self.layers.push(Laid {
            picture: heading,
            origin: corner,
        });
        self.layers.push(Laid {
            picture,
            origin: corner + Pos::new(0.0, HEAD),
        });
        self.at.x += width + GAP;
        self.row = self.row.max(height);
    }

    /// Ends the page, if anything is on it.
    fn turn(&mut self) {
        self.at = Pos::default();
        self.row = 0.0;
        if self.layers.is_empty() {
            return;
        }
        self.drafts.push(Draft {
            kind: Kind::Sections,
            title: String::from("Bores cut across"),
            subtitle: String::from(
                "To scale, each bore enlarged; numbered as in the drill list. The tightest a bundle lies: pulled cable lies looser, and the room for that is in the bit.",
            ),
            name: String::from("Bores cut across"),
            corner: String::from("Sections"),
            extent: self.extent,
            layers: std::mem::take(&mut self.layers),
            scale: None,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::{Ink, sample};
    use crate::sheet::Size;

    #[test]
    fn every_large_bundle_is_cut_across_once() {
        let plan = sample::house();
        let design = Design::of(&plan);
        let large: BTreeSet<_> = design
            .drill_list
            .iter()
            .filter(|row| row.cables.len() >= LEAST)
            .map(|row| {
                (
                    row.cables.clone(),
                    row.bit.micrometres(),
                    row.member.clone(),
                )
            })
            .collect();
        let drafts = pages(&plan, &design, &Paper::of(Size::Letter));
        let pictures = drafts.iter().flat_map(|draft| &draft.layers);
        let bores = pictures.filter(|laid| {
            laid.picture
                .items
                .iter()
                .any(|item| item.ink == Ink::BoreCircle)
        });
        assert_eq!(bores.count(), large.len());
        assert!(!large.is_empty());
    }

    #[test]
    fn a_plan_without_bundles_has_no_such_page() {
        let plan = Plan::new();
        let design = Design::of(&plan);
        assert!(pages(&plan, &design, &Paper::of(Size::Letter)).is_empty());
    }
}
