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
const BORE: f64 = 21.0;
/// Sections begin on the page of another part where this much of it is free: a row of them.
const SHARED: f64 = 48.0;
/// Space between sections.
const GAP: f64 = 3.0;

/// Puts the sections under what stands on the first page of a stack that has room for all, the pages from `at`
/// on first, else behind the page before that place as far as there is room, and on pages of their own; nothing
/// where no bundle is large.
pub(super) fn onto(stapled: &mut Stapled, at: usize, design: &Design, paper: &Paper) {
    let plan = stapled.plan;
    let heading = heading(paper.tongue);
    let groups = alike(plan, design);
    if groups.is_empty() {
        return;
    }
    let pages = |extent: Extent, begun: Option<Area>| {
        let mut flow = Flow {
            first: begun.unwrap_or(frame::body(plan, extent, &heading)),
            rest: frame::body(plan, extent, &heading.going_on()),
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
    if share(stapled, at, &heading, apart.len(), &pages) {
        return;
    }
    let drafts = apart.into_iter().enumerate().map(|(page, layers)| {
        let heading = match page {
            0 => heading.clone(),
            _ => heading.going_on(),
        };
        draft(own, heading, layers, page > 0)
    });
    stapled.insert(at, drafts);
}

/// Puts sections on one page that has room for all, wherever it is; else on the page before their place and those
/// that follow where that saves one of so many apart. Whether they are put.
fn share(
    stapled: &mut Stapled,
    at: usize,
    heading: &Heading,
    apart: usize,
    pages: &dyn Fn(Extent, Option<Area>) -> Vec<Vec<Laid>>,
) -> bool {
    let places = (at..stapled.drafts.len()).chain(0..at);
    let before = at.checked_sub(1).map(|place| (place, apart));
    for (place, most) in places.map(|place| (place, 1)).chain(before) {
        let extent = stapled.drafts.get(place).map(|draft| draft.extent);
        let areas = stapled.room_on(place, heading).into_iter();
        let area = areas.into_iter().find(|area| area.height() > SHARED);
        let (Some(extent), Some(area)) = (extent, area) else {
            continue;
        };
        let mut shared = pages(extent, Some(area)).into_iter();
        // What goes on on a page of its own comes between no list and its next page.
        if shared.len() > most || (shared.len() > 1 && stapled.uncut(place + 1) > place + 1) {
            continue;
        }
        stapled.put_on(place, heading, area, shared.next().unwrap_or_default());
        let more = shared.map(|layers| draft(extent, heading.going_on(), layers, true));
        stapled.drafts.splice(place + 1..place + 1, more);
        return true;
    }
    false
}

fn draft(extent: Extent, heading: Heading, layers: Vec<Laid>, goes_on: bool) -> Draft {
    Draft {
        heading,
        extent,
        layers,
        scale: None,
        goes_on,
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
    /// What is free of the page on which they begin.
    first: Area,
    /// ... and of those that follow.
    rest: Area,
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
        match self.pages.is_empty() {
            true => self.first,
            false => self.rest,
        }
    }

    fn width(&self) -> f64 {
        self.first.width().min(self.rest.width())
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
        let width = section_width(plan, known, Type::PAPER, BORE).min(self.width());
        let naming = (Type::PAPER, Naming::Kind);
        let picture = section(plan, design, *bore, width, naming);
        let lines = font::wrap(&self.words(plan, rows), Weight::Bold, BODY, width);
        let head = 1.6 + lines.len() as f64 * LEADING;
        let height = head + picture.bounds().map_or(0.0, |(_, high)| high.y) + GAP;
        if self.at.x > 0.0 && self.at.x + width > self.width() + 1e-9 {
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
        onto(&mut stapled, 0, design, &Paper::of(Size::Letter));
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
