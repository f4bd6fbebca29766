//! Sheets a crew can work from in the dirt: pages in millimetres, as SVG and as vector PDF.
//!
//! [`Sheets::of`] lays out every page for a paper size; a [`Page`] writes itself as SVG for the
//! preview and the browser's print, and [`pdf`] writes pages as one file. Black on white, text never
//! under 10 pt, identities 13 pt bold, lines never under 0.35 mm. Nothing here computes what it
//! prints: it comes from the [`Design`].

mod building;
mod caution;
mod drill_page;
mod frame;
mod level_page;
mod list;
mod mark;
mod paper;
mod pdf;
pub mod pen;
mod pull_page;
mod svg;
mod table;

pub use paper::{Area, Extent, Lie, Paper, Scale, Size};
pub use pdf::{FontError, Fonts, pdf};

use crate::design::Design;
use crate::picture::Picture;
use crate::plan::{LevelId, Plan};
use crate::shape::Pos;
use mark::{Laid, Mark};

/// What a page is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// The plan of a level.
    Level(LevelId),
    /// Drill list.
    DrillList,
    /// Cut list and pull sheet.
    PullSheet,
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
        let levels = plan.levels.iter();
        let mut drafts: Vec<Draft> = levels
            .flat_map(|level| level_page::pages(plan, design, paper, level))
            .collect();
        drafts.extend(drill_page::pages(plan, design, paper));
        drafts.extend(pull_page::pages(plan, design, paper));
        number(plan, drafts)
    }
}

/// Gives every page its frame, now that their count is known.
fn number(plan: &Plan, drafts: Vec<Draft>) -> Vec<Page> {
    let count = drafts.len();
    let framed = drafts.into_iter().enumerate().map(|(place, draft)| {
        let mut picture = Picture::at_scale(1.0);
        frame::draw(&mut picture, plan, &draft, place + 1, count);
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
