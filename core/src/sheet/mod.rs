//! Sheets a crew can work from in the dirt: pages in millimetres, as SVG and as vector PDF.
//!
//! [`Sheets::of`] lays out every page for a paper size; a [`Page`] writes itself as SVG for the
//! preview and the browser's print, and [`pdf`] writes pages as one file. Black on white, text never
//! under 10 pt, identities 13 pt bold, lines never under 0.35 mm. Nothing here computes what it
//! prints: it comes from the [`Design`].

mod building;
mod caution;
mod closet_page;
mod code;
mod corner_page;
mod cover;
mod drill_page;
mod elevation_page;
mod finding_page;
mod frame;
#[cfg(test)]
mod golden;
mod handover_page;
mod label_page;
mod level_page;
mod list;
mod mark;
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
mod stack;
mod svg;
mod table;
mod test_page;

pub use paper::{Area, Extent, Lie, Paper, Scale, Size};
pub use pdf::{FontError, Fonts, pdf};
pub use stack::Stack;

use crate::design::Design;
use crate::file::link;
use crate::picture::Picture;
use crate::plan::{LevelId, Plan};
use crate::shape::Pos;
use mark::{Laid, Mark};

/// What a page is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Cover.
    Cover,
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
struct Draft {
    kind: Kind,
    title: String,
    subtitle: String,
    name: String,
    corner: String,
    extent: Extent,
    layers: Vec<Laid>,
    scale: Option<Scale>,
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
        number(plan, drafts(plan, design, paper, link))
    }

    /// Some of the pages, numbered by themselves.
    pub fn stack(plan: &Plan, design: &Design, paper: &Paper, stack: Stack) -> Vec<Page> {
        let mut drafts = drafts(plan, design, paper, None);
        drafts.retain(|draft| stack.has(draft.kind));
        // How the job stands comes first where it is handed over.
        drafts.sort_by_key(|draft| draft.kind != Kind::Handover);
        number(plan, drafts)
    }
}

fn drafts(plan: &Plan, design: &Design, paper: &Paper, link: Option<&str>) -> Vec<Draft> {
    let mut drafts = cover::pages(plan, design, paper, link);
    drafts.extend(finding_page::pages(plan, design, paper));
    let levels = plan.levels.iter();
    drafts.extend(levels.flat_map(|level| level_page::pages(plan, design, paper, level)));
    drafts.extend(elevation_page::pages(plan, design, paper));
    drafts.extend(room_page::pages(plan, design, paper));
    drafts.extend(drill_page::pages(plan, design, paper));
    drafts.extend(corner_page::pages(plan, design, paper));
    drafts.extend(section_page::pages(plan, design, paper));
    drafts.extend(pull_page::pages(plan, design, paper));
    drafts.extend(closet_page::pages(plan, design, paper));
    drafts.extend(protection_page::pages(plan, design, paper));
    drafts.extend(room_page::trim_pages(plan, design, paper));
    drafts.extend(test_page::pages(plan, design, paper));
    drafts.extend(punch_page::pages(plan, paper));
    drafts.extend(handover_page::pages(plan, design, paper));
    drafts.extend(label_page::pages(plan, paper));
    drafts
}

/// Gives every page its frame, now that their count is known. Label sheets have none and are not
/// counted: they are printed on other stock.
fn number(plan: &Plan, drafts: Vec<Draft>) -> Vec<Page> {
    let count = drafts
        .iter()
        .filter(|draft| draft.kind != Kind::Labels)
        .count();
    let version = link::version(plan).code().unwrap_or_default();
    let framed = drafts.into_iter().enumerate().map(|(place, draft)| {
        let mut picture = Picture::at_scale(1.0);
        if draft.kind != Kind::Labels {
            frame::draw(&mut picture, plan, &draft, (place + 1, count), &version);
        }
        let mut layers = draft.layers;
        layers.push(Laid {
            picture,
            origin: Pos::default(),
        });
        Page {
            job: plan.title.clone(),
            kind: draft.kind,
            name: draft.name,
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
