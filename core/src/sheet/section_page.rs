//! Bores cut across, to scale: every bundle that has to lie well as it lies in its bore, with
//! the letters of its cables and the wood left around it. Bundles that lie the same way share one.

use super::frame::{self, Heading};
use super::mark::Laid;
use super::paper::{Area, Extent, Lie};
use super::table::{BODY, text};
use super::{Draft, Kind, Paper};
use crate::bore::DrillRow;
use crate::design::Design;
use crate::picture::font::{self, Weight};
use crate::picture::{Anchor, Naming, Picture, Type, section, section_width};
use crate::plan::Plan;
use crate::shape::Pos;
use crate::tongue::Tongue;

/// A bundle that takes less than this part of the fill allowed lies as it likes.
const TIGHT: f64 = 0.95;
/// Distance between the lines of a section's heading.
const LEADING: f64 = BODY * 1.15;
/// A bore is drawn at least this wide, millimetres.
const BORE: f64 = 30.0;
/// Space between sections.
const GAP: f64 = 3.0;

/// The pages of sections; none where no bundle is large.
pub(super) fn pages(plan: &Plan, design: &Design, paper: &Paper) -> Vec<Draft> {
    let extent = paper.extent(Lie::Landscape);
    let heading = heading(paper.tongue);
    let mut flow = Flow {
        body: frame::body(plan, extent, &heading),
        heading,
        extent,
        at: Pos::default(),
        row: 0.0,
        layers: Vec::new(),
        drafts: Vec::new(),
    };
    for rows in alike(plan, design) {
        flow.put(plan, design, &rows);
    }
    flow.turn();
    flow.drafts
}

/// Rows whose bundles have to lie well, those together that lie the same way: as many cables of each
/// kind through one bit in one member.
fn alike<'d>(plan: &Plan, design: &'d Design) -> Vec<Vec<&'d DrillRow>> {
    let key = |row: &DrillRow| {
        let kind = |id| plan.cable(id).map(|(_, cable)| cable.kind);
        let mut kinds: Vec<_> = row.cables.iter().map(|id| kind(*id)).collect();
        kinds.sort();
        (kinds, row.bit.micrometres(), row.member.clone())
    };
    let mut found: Vec<(_, Vec<&DrillRow>)> = Vec::new();
    for row in design.drill_list.iter().filter(|row| is_tight(plan, row)) {
        let key = key(row);
        match found.iter_mut().find(|(known, _)| *known == key) {
            Some((_, rows)) => rows.push(row),
            None => found.push((key, vec![row])),
        }
    }
    found.into_iter().map(|(_, rows)| rows).collect()
}

/// Whether a bundle has to lie well to go through: more than one cable, and close to the fill allowed.
fn is_tight(plan: &Plan, row: &DrillRow) -> bool {
    let cables = row.cables.len();
    cables > 1 && row.fill >= TIGHT * plan.rules.fill_limit(cables)
}

fn heading(tongue: Tongue) -> Heading {
    let heading = Heading {
        kind: Kind::Sections,
        title: String::from("Bores cut across"),
        subtitle: String::from(
            "Bundles that take 95 % and more of the fill allowed; all others lie as they like. By bore numbers, cables by the letter of their kind. To scale, each bore enlarged, as tightly as a bundle lies: pulled cable lies looser, and the room for that is in the bit.",
        ),
        name: String::from("Bores cut across"),
        corner: String::from("Sections"),
        tongue,
    };
    heading.said()
}

/// Sections side by side, row under row and page after page.
struct Flow {
    body: Area,
    heading: Heading,
    extent: Extent,
    /// Where the next one goes, from the body's upper left corner.
    at: Pos,
    /// Height of the row so far.
    row: f64,
    layers: Vec<Laid>,
    drafts: Vec<Draft>,
}

impl Flow {
    fn put(&mut self, plan: &Plan, design: &Design, rows: &[&DrillRow]) {
        let Some(row) = rows.first() else {
            return;
        };
        let Some(bore) = row.bores.first() else {
            return;
        };
        let Some(known) = design.bores.get(*bore) else {
            return;
        };
        let width = section_width(plan, known, Type::PAPER, BORE).min(self.body.width());
        let naming = (Type::PAPER, Naming::Kind);
        let picture = section(plan, design, *bore, width, naming);
        let lines = font::wrap(&self.words(plan, rows), Weight::Bold, BODY, width);
        let head = 1.6 + lines.len() as f64 * LEADING;
        let height = head + picture.bounds().map_or(0.0, |(_, high)| high.y) + GAP;
        if self.at.x > 0.0 && self.at.x + width > self.body.width() {
            self.at = Pos::new(0.0, self.at.y + self.row);
            self.row = 0.0;
        }
        if self.at.y > 0.0 && self.at.y + height > self.body.height() {
            self.turn();
        }
        let corner = self.body.low + self.at;
        let mut heading = Picture::at_scale(1.0);
        for (down, line) in lines.iter().enumerate() {
            let at = Pos::new(0.0, BODY * font::ASCENT + down as f64 * LEADING);
            heading.push(text(at, Anchor::Start, BODY, Weight::Bold, line));
        }
        self.layers.push(Laid {
            picture: heading,
            origin: corner,
        });
        self.layers.push(Laid {
            picture,
            origin: corner + Pos::new(0.0, head),
        });
        self.at.x += width + GAP;
        self.row = self.row.max(height);
    }

    /// "1, 10, 13 · 1-1/2 in · 15 cables, 39 %".
    fn words(&self, plan: &Plan, rows: &[&DrillRow]) -> String {
        let numbers: Vec<String> = rows.iter().map(|row| row.number.to_string()).collect();
        let Some(row) = rows.first() else {
            return String::new();
        };
        let words = format!(
            "{} · {} · {} cables, {:.0} %",
            numbers.join(", "),
            plan.units.size(row.bit),
            row.cables.len(),
            row.fill * 100.0
        );
        self.heading.tongue.say(&words)
    }

    /// Ends the page, if anything is on it.
    fn turn(&mut self) {
        self.at = Pos::default();
        self.row = 0.0;
        if self.layers.is_empty() {
            return;
        }
        self.drafts.push(Draft {
            heading: self.heading.clone(),
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
    fn every_tight_bundle_is_cut_across_once() {
        let plan = sample::house();
        let design = Design::of(&plan);
        let tight = design.drill_list.iter().filter(|row| is_tight(&plan, row));
        let groups = alike(&plan, &design);
        assert_eq!(groups.iter().map(Vec::len).sum::<usize>(), tight.count());
        let drafts = pages(&plan, &design, &Paper::of(Size::Letter));
        let pictures = drafts.iter().flat_map(|draft| &draft.layers);
        let bores = pictures.filter(|laid| {
            laid.picture
                .items
                .iter()
                .any(|item| item.ink == Ink::BoreCircle)
        });
        assert_eq!(bores.count(), groups.len());
        assert!(!groups.is_empty());
    }

    #[test]
    fn a_plan_without_bundles_has_no_such_page() {
        let plan = Plan::new();
        let design = Design::of(&plan);
        assert!(pages(&plan, &design, &Paper::of(Size::Letter)).is_empty());
    }
}
