//! The record of the job: what a person noted on site, and nothing that can be worked out.
//!
//! What is noted is a tick with the date the page gave it, the result of a test, a length read off a
//! tester, a few words. No pictures: that one was taken is a tick, and where they are kept is a line
//! of words.

use strum::VariantArray;

use std::collections::BTreeMap;

use super::{CableId, DropId};
use crate::units::Mm;

/// Everything noted on site. A cable, a box or a punch item of which nothing is noted is not in it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SiteRecord {
    /// By cable.
    pub cables: BTreeMap<CableId, CableRecord>,
    /// By drop.
    pub boxes: BTreeMap<DropId, BoxRecord>,
    /// Cables that were noted as pulled before they left the plan: they are in the wall still.
    pub left: Vec<LeftCable>,
    /// What is to be put right, in the order it was written down.
    pub punch: Vec<PunchItem>,
    /// The number of the last punch item there was; numbers are never used twice.
    pub last_punch: u32,
    /// Where the pictures are kept, in words; may be empty.
    pub photos: String,
    /// The inspection before cover, once it is done.
    pub inspected: Option<Mark>,
    /// The handover, once it is done.
    pub handed_over: Option<Mark>,
}

/// What is noted of a cable.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CableRecord {
    /// Stages reached, each with its date as text, which may be empty.
    pub reached: BTreeMap<CableStage, String>,
    /// The last test, once there was one.
    pub test: Option<Test>,
    /// Its length as measured, from end to end.
    pub length: Option<Mm>,
}

/// What a cable goes through, in the order of the work; its test is apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, VariantArray)]
pub enum CableStage {
    /// It lies in the wall, from the closet to its drop.
    Pulled,
    /// Both its ends are labelled.
    Labelled,
    /// Both its ends are terminated.
    Terminated,
}

/// A test of a cable: its wiremap, or its continuity where it is coaxial.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Test {
    /// The date as text; may be empty.
    pub date: String,
    /// What is wrong, in words; empty for a good one.
    pub fault: String,
}

/// What is noted of a drop's box.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct BoxRecord {
    /// Stages reached, each with its date as text, which may be empty.
    pub reached: BTreeMap<BoxStage, String>,
    /// A word to whoever comes back; may be empty.
    pub note: String,
}

/// What a drop's box goes through, in the order of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, VariantArray)]
pub enum BoxStage {
    /// It is fixed at its height.
    Set,
    /// Its cable is tucked back out of reach of knives, its box is closed.
    Tucked,
    /// A picture was taken before cover.
    Photographed,
    /// It was found again after paint.
    Found,
    /// Its plate or its device is on.
    Plated,
}

/// A cable that left the plan after it was pulled.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LeftCable {
    /// Its identity, which no other cable gets.
    pub cable: CableId,
    /// The name on its labels.
    pub name: String,
}

/// Something to be put right before the job is handed over.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PunchItem {
    /// Its number, from 1.
    pub number: u32,
    /// The drop it is about; `None` for the job.
    pub drop: Option<DropId>,
    /// What is to be done; not empty.
    pub text: String,
    /// Once it is done: the date as text, which may be empty.
    pub done: Option<String>,
}

/// Something done once for the whole job.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Mark {
    /// The date as text; may be empty.
    pub date: String,
    /// By whom or to whom, in words; may be empty.
    pub who: String,
}

impl SiteRecord {
    /// Whether nothing was ever noted.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// Whether a cable has reached a stage.
    pub fn has_cable(&self, cable: CableId, stage: CableStage) -> bool {
        let record = self.cables.get(&cable);
        record.is_some_and(|record| record.reached.contains_key(&stage))
    }

    /// Whether a box has reached a stage.
    pub fn has_box(&self, drop: DropId, stage: BoxStage) -> bool {
        let record = self.boxes.get(&drop);
        record.is_some_and(|record| record.reached.contains_key(&stage))
    }

    /// The last test of a cable.
    pub fn test(&self, cable: CableId) -> Option<&Test> {
        self.cables.get(&cable)?.test.as_ref()
    }

    /// The measured length of a cable.
    pub fn length(&self, cable: CableId) -> Option<Mm> {
        self.cables.get(&cable)?.length
    }

    /// What was noted in words of a box; empty where nothing was.
    pub fn box_note(&self, drop: DropId) -> &str {
        self.boxes
            .get(&drop)
            .map_or("", |record| record.note.as_str())
    }
}

impl CableRecord {
    /// Whether nothing is noted.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

impl BoxRecord {
    /// Whether nothing is noted.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

impl Test {
    /// Whether nothing was wrong.
    pub fn is_good(&self) -> bool {
        self.fault.is_empty()
    }
}

impl CableStage {
    /// Every stage, in the order of the work.
    pub const ALL: [Self; Self::VARIANTS.len()] = every!(CableStage);

    /// The word for it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Pulled => "pulled",
            Self::Labelled => "labelled",
            Self::Terminated => "terminated",
        }
    }
}

impl BoxStage {
    /// Every stage, in the order of the work.
    pub const ALL: [Self; Self::VARIANTS.len()] = every!(BoxStage);

    /// The word for it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Set => "box set",
            Self::Tucked => "tucked",
            Self::Photographed => "photo",
            Self::Found => "found",
            Self::Plated => "plated",
        }
    }
}

impl PunchItem {
    /// What it is called: P3.
    pub fn label(&self) -> String {
        format!("P{}", self.number)
    }
}
