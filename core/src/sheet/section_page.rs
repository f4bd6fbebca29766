//! Bores cut across, to scale: every bundle that has to lie well as it lies in its bore, with
//! the letters of its cables and the wood left around it. Bundles that lie the same way share one.

use super::frame::{self, Heading};
use super::mark::Laid;
use super::paper::{Area, Extent, Lie};
use super::share::Stapled;
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
/// Sections begin on the page of another part where this much of it is free: a row of them.
const SHARED: f64 = 62.0;
/// Space between sections.
const GAP: f64 = 3.0;

/// Puts the sections behind the pages of a stack, or from the middle of the last of them on; nothing where
/// no bundle is large.
pub(super) fn onto(stapled: &mut Stapled, design: &Design, paper: &Paper) {
    let plan = stapled.plan;
    let heading = heading(paper.tongue);
    let groups = alike(plan, design);
    let pages = |extent: Extent, begun: Option<Area>| {
        let mut flow = Flow {
            body: frame::body(plan, extent, &heading),
            begun,
            tongue: paper.tongue,
            at: Pos::default(),
            row: 0.0,
            layers: Vec::new(),
            pages: Vec::new(),
        };
        groups.iter().for_each(|rows| flow.put(plan, design, rows));
        flow.turn();
        flow.pages
    };
    let own = paper.extent(Lie::Landscape);
    let apart = pages(own, None);
    let room = stapled.room(&heading);
    let room = room.filter(|(_, area)| area.height() > SHARED);
    let shared = room.map(|(extent, area)| (extent, pages(extent, Some(area))));
    let shared = shared.filter(|(_, pages)| pages.len() <= apart.len() + 1);
    let (extent, pages, begun) = match shared {
        Some((extent, pages)) => (extent, pages, true),
        None => (own, apart, false),
    };
    for (place, layers) in pages.into_iter().enumerate() {
        match begun && place == 0 {
            true => stapled.put(&heading, layers),
            false => stapled.drafts.push(Draft {
                heading: heading.clone(),
                extent,
                layers,
                scale: None,
            }),
        }
    }
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
    /// What is free of the page on which they begin, if another section stands on it.
    begun: Option<Area>,
    tongue: Tongue,
    /// Where the next one goes, from the upper left corner of the page's area.
    at: Pos,
    /// Height of the row so far.
    row: f64,
    layers: Vec<Laid>,
    pages: Vec<Vec<Laid>>,
}

impl Flow {
    /// The area of the page that is being filled.
    fn area(&self) -> Area {
        let begun = self.begun.filter(|_| self.pages.is_empty());
        begun.unwrap_or(self.body)
    }

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
        if self.at.x > 0.0 && self.at.x + width > self.body.width() + 1e-9 {
            self.at = Pos::new(0.0, self.at.y + self.row);
            self.row = 0.0;
        }
        if self.at.y > 0.0 && self.at.y + height > self.area().height() {
            self.turn();
        }
        let corner = self.area().low + self.at;
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
        self.tongue.say(&words)
    }

    /// Ends the page, if anything is on it.
    fn turn(&mut self) {
        self.at = Pos::default();
        self.row = 0.0;
        if self.layers.is_empty() {
            return;
        }
        self.pages.push(std::mem::take(&mut self.layers));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::{Ink, sample};
    use crate::sheet::Size;

    fn pages(plan: &Plan, design: &Design) -> Vec<Draft> {
        let mut stapled = Stapled::none(plan);
        onto(&mut stapled, design, &Paper::of(Size::Letter));
        stapled.drafts
    }

    #[test]
    fn every_tight_bundle_is_cut_across_once() {
        let plan = sample::house();
        let design = Design::of(&plan);
        let tight = design.drill_list.iter().filter(|row| is_tight(&plan, row));
        let groups = alike(&plan, &design);
        assert_eq!(groups.iter().map(Vec::len).sum::<usize>(), tight.count());
        let drafts = pages(&plan, &design);
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
        assert!(pages(&plan, &design).is_empty());
    }
}
