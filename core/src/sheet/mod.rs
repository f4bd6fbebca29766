//! Sheets a crew can work from in the dirt: pages in millimetres, as SVG and as vector PDF.
//!
//! [`Sheets::of`] lays out every page for a paper size; a [`Page`] writes itself as SVG for the
//! preview and the browser's print, and [`pdf`] writes pages as one file. Black on white, text never
//! under 10 pt, identities 13 pt bold, lines never under 0.35 mm. Nothing here computes what it
//! prints: it comes from the [`Design`].

mod builder_page;
mod building;
mod cables;
mod caution;
mod closet_page;
mod code;
mod corner_page;
mod cover;
mod day_page;
mod drill_page;
#[cfg(test)]
mod elevation_laws;
mod elevation_page;
mod finding_page;
mod flow;
mod frame;
#[cfg(test)]
mod golden;
mod handover_page;
mod label_page;
#[cfg(test)]
mod laws;
#[cfg(test)]
mod leader_laws;
mod level_page;
mod list;
mod mark;
mod owner_page;
mod paper;
mod pdf;
pub mod pen;
#[cfg(test)]
mod properties;
mod protection_page;
mod pull_page;
mod punch_page;
mod room_page;
mod section_page;
mod share;
mod stack;
#[cfg(test)]
mod stack_laws;
mod svg;
mod table;
mod test_page;
mod whither;

pub use paper::{Area, Extent, Lie, Paper, Scale, Size};
pub use pdf::{FontError, Fonts, pdf};
pub use stack::Stack;

use share::{Stapled, Way};
use stack::{Made, Part};

use crate::design::Design;
use crate::file::link;
use crate::picture::Picture;
use crate::plan::{LevelId, Plan};
use crate::shape::Pos;
use crate::tongue::Tongue;
use mark::{Laid, Mark};

/// What a page is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Cover.
    Cover,
    /// The crew's first page: the day in order, what to bring, whom to call.
    Day,
    /// Every bore in what bears, for the builder.
    Builder,
    /// What the owner gets, room by room.
    Owner,
    /// Findings.
    Findings,
    /// The plan of a level.
    Level(LevelId),
    /// Wall elevations of a level.
    Elevations(LevelId),
    /// Room list.
    RoomList,
    /// Drill list.
    DrillList,
    /// Bores round corners.
    Corners,
    /// Bores cut across.
    Sections,
    /// Cut list and pull sheet.
    PullSheet,
    /// Closet sheet.
    Closet,
    /// Protection sheet.
    Protection,
    /// Trim-out list.
    TrimOut,
    /// Test record.
    TestRecord,
    /// Punch list.
    PunchList,
    /// Handover record.
    Handover,
    /// Labels, on stock of their own.
    Labels,
    /// Where the labels lie on their stock, to line the printer up.
    LabelTest,
}

impl Kind {
    /// Whether a page is printed on label stock, or to be held against it: it has no frame.
    fn is_stock(self) -> bool {
        matches!(self, Self::Labels | Self::LabelTest)
    }
}

/// One page, ready to be written.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// What the job is called.
    pub job: String,
    /// What it is.
    pub kind: Kind,
    /// What it is called: "Ground · plan".
    pub name: String,
    /// Its size in millimetres.
    pub extent: Extent,
    /// The scale of its drawing, if it has one.
    pub scale: Option<Scale>,
    layers: Vec<Laid>,
}

/// A page before it knows its number.
#[derive(Clone)]
struct Draft {
    heading: frame::Heading,
    extent: Extent,
    layers: Vec<Laid>,
    scale: Option<Scale>,
    /// Whether it goes on with a list that begins on the page before, so that nothing comes between the two.
    goes_on: bool,
}

/// Every sheet of a job.
pub struct Sheets;

impl Sheets {
    /// Lays out every page of a job for a paper size, in the order they are stapled.
    pub fn of(plan: &Plan, design: &Design, paper: &Paper) -> Vec<Page> {
        Self::with_link(plan, design, paper, None)
    }

    /// The same, with a link as a code on the cover: a whole address. A link too long for one code
    /// is left out.
    pub fn with_link(plan: &Plan, design: &Design, paper: &Paper, link: Option<&str>) -> Vec<Page> {
        number(plan, all(plan, design, paper, link))
    }

    /// The pages of one stack, numbered by themselves, with a link as a code on the first page of a
    /// stack that has room for one there.
    pub fn stack(
        plan: &Plan,
        design: &Design,
        paper: &Paper,
        stack: Stack,
        link: Option<&str>,
    ) -> Vec<Page> {
        number(plan, Self::drafts(plan, design, paper, stack, link))
    }

    /// The pages of one stack before they are numbered, laid out in the way that takes the fewest of them.
    fn drafts(
        plan: &Plan,
        design: &Design,
        paper: &Paper,
        stack: Stack,
        link: Option<&str>,
    ) -> Vec<Draft> {
        let paper = paper_of(paper, stack == Stack::Crew);
        let parts = stack.parts(plan);
        let made = parts
            .iter()
            .map(|part| (*part, part.made(plan, design, &paper, link)));
        let made: Vec<(Part, Made)> = made.collect();
        let of = |way: Way| {
            let mut stapled = Stapled::none(plan);
            stapled.way = way;
            made.iter()
                .for_each(|(part, made)| made.onto(*part, &mut stapled, &paper));
            (way, stapled.finished(design, &paper, link))
        };
        // The first of the shortest; then the same with one list more on pages of its own, which leaves the end
        // of the page before to others.
        let shortest =
            |ways: &mut dyn Iterator<Item = Way>| ways.map(of).min_by_key(|(_, pages)| pages.len());
        let Some((way, pages)) = shortest(&mut Way::TRIED.into_iter()) else {
            return Vec::new();
        };
        let lists = made
            .iter()
            .filter(|(_, made)| matches!(made, Made::List(_)));
        let mut others = lists.map(|(part, _)| Way {
            alone: Some(*part),
            ..way
        });
        match shortest(&mut others) {
            Some((_, other)) if other.len() < pages.len() => other,
            _ => pages,
        }
    }
}

/// A crew's sheets are in its tongue, all others in English.
fn paper_of(paper: &Paper, is_crew: bool) -> Paper {
    match is_crew {
        true => *paper,
        false => paper.in_tongue(Tongue::English),
    }
}

/// Every sheet once, but for what only repeats others for somebody.
fn all(plan: &Plan, design: &Design, paper: &Paper, link: Option<&str>) -> Vec<Draft> {
    let parts = Part::all(plan).into_iter();
    let crew = Stack::Crew.parts(plan);
    let drafts = parts.flat_map(|part| {
        let paper = paper_of(paper, crew.contains(&part));
        let link = link.filter(|_| part != Part::Day);
        part.drafts(plan, design, &paper, link)
    });
    drafts.collect()
}

/// Gives every page its frame, now that their count is known. Label sheets have none and are not
/// counted: they are printed on other stock.
fn number(plan: &Plan, drafts: Vec<Draft>) -> Vec<Page> {
    let framed = drafts.iter().filter(|draft| !draft.heading.kind.is_stock());
    let count = framed.count();
    let version = link::version(plan).code().unwrap_or_default();
    let framed = drafts.into_iter().enumerate().map(|(place, draft)| {
        let mut picture = Picture::at_scale(1.0);
        if !draft.heading.kind.is_stock() {
            frame::draw(&mut picture, plan, &draft, (place + 1, count), &version);
        }
        let mut layers = draft.layers;
        layers.push(Laid {
            picture,
            origin: Pos::default(),
        });
        Page {
            job: plan.title.clone(),
            kind: draft.heading.kind,
            name: draft.heading.name,
            extent: draft.extent,
            scale: draft.scale,
            layers,
        }
    });
    framed.collect()
}

impl Page {
    /// The page as SVG at true size, in black on white.
    pub fn svg(&self) -> String {
        svg::write(self)
    }

    /// Its marks in page millimetres, from the bottom up.
    fn marks(&self) -> impl Iterator<Item = Mark> + '_ {
        self.layers.iter().flat_map(Laid::marks)
    }
}
