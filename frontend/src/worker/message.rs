//! What page and worker say to one another.

use borewright_core::design::Design;
use borewright_core::route::network::Answer;
use borewright_core::sheet::{Size, Stack};
use borewright_core::tongue::Tongue;
use serde::{Deserialize, Serialize};

use super::bytes::Bytes;

/// What the page asks for. A job ends the one before it.
#[derive(Debug, Serialize, Deserialize)]
pub enum Order {
    /// Improve the ways of this plan, or work out all of it.
    Work {
        /// The number of the job.
        job: u32,
        /// Whether all that follows is wanted, and not better ways alone.
        whole: bool,
        /// The plan as it would be saved.
        plan: Bytes,
    },
    /// Lay sheets out.
    Sheets {
        /// The number of the job.
        job: u32,
        /// The plan as it would be saved.
        plan: Bytes,
        /// What follows from it.
        design: Box<Design>,
        /// Which sheets, and for which paper.
        wanted: Wanted,
        /// For one file of them: which pages are left out, and the two fonts. Else page by page.
        file: Option<(Vec<usize>, [Bytes; 2])>,
    },
    /// Write a list.
    List {
        /// The number of the job.
        job: u32,
        /// The plan as it would be saved.
        plan: Bytes,
        /// What follows from it.
        design: Box<Design>,
        /// The place of the table among all tables; `None` for everything in one.
        table: Option<usize>,
    },
    /// Read a saved plan.
    Read {
        /// The number of the job.
        job: u32,
        /// The file.
        file: Bytes,
    },
    /// Stop.
    Stop,
}

/// Which sheets are laid out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Wanted {
    /// The paper.
    pub size: Size,
    /// The tongue of the crew's sheets.
    pub tongue: Tongue,
    /// Some of them, or all.
    pub stack: Option<Stack>,
    /// The address that stands as a code on the cover of all of them.
    pub link: Option<String>,
}

/// A page as it was laid out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LaidPage {
    /// What it is called.
    pub name: String,
    /// The scale of its drawing; empty where it has none.
    pub scale: String,
    /// Whether it is wider than high.
    pub is_wide: bool,
    /// As SVG.
    pub ink: String,
}

/// A plan that was read, with its drawings apart.
#[derive(Debug, Serialize, Deserialize)]
pub struct Apart {
    /// The plan as text.
    pub text: Bytes,
    /// Its drawings: what they are, width and height in pixels, and their bytes.
    pub scans: Vec<(String, (u32, u32), Bytes)>,
    /// What the file lost.
    pub losses: Vec<String>,
}

/// What the worker tells of a job.
#[derive(Debug, Serialize, Deserialize)]
pub struct News {
    /// The number of the job.
    pub job: u32,
    /// How it stands.
    pub told: Told,
}

/// How a job stands.
#[derive(Debug, Serialize, Deserialize)]
pub enum Told {
    /// So much is done, per cent.
    Done(u8),
    /// The better ways, and all that follows from them; `None` if this plan has none.
    Found(Option<Box<(Answer, Design)>>),
    /// All that follows from the plan.
    Whole(Box<Design>),
    /// The next page.
    Page(LaidPage),
    /// There are no more pages.
    LastPage,
    /// A file, or why there is none.
    File(Result<Bytes, String>),
    /// What was read, or why nothing is.
    Opened(Result<Apart, String>),
    /// A fault of the program ended it.
    Fault,
}
