//! What was noted on site, version 1. A stage that is there was reached; its value is the date as
//! text, which may be empty.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{MANY, from};
use crate::file::fields::{Fields, List};
use crate::file::losses::Losses;
use crate::plan::edit::MOST_PUNCH;
use crate::plan::{self, BoxStage, CableId, CableStage, DropId, Plan};
use crate::units::Mm;

/// All that was noted.
#[derive(Serialize)]
pub(super) struct Record {
    #[serde(skip_serializing_if = "Vec::is_empty")]
    cables: Vec<Cable>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    boxes: Vec<Box>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    left: Vec<Left>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    punch: Vec<Punch>,
    last_punch: u32,
    #[serde(skip_serializing_if = "String::is_empty")]
    photos: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    inspected: Option<Mark>,
    #[serde(skip_serializing_if = "Option::is_none")]
    handed_over: Option<Mark>,
}

#[derive(Serialize, Deserialize)]
struct Cable {
    cable: u32,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pulled: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    labelled: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    terminated: Option<String>,
    /// The date of its test.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    tested: Option<String>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    fault: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    length: Option<i32>,
}

#[derive(Serialize, Deserialize)]
struct Box {
    drop: u32,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    set: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    tucked: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    photo: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    found: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    plated: Option<String>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    note: String,
}

#[derive(Serialize, Deserialize)]
struct Left {
    cable: u32,
    name: String,
}

#[derive(Serialize, Deserialize)]
struct Punch {
    number: u32,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    drop: Option<u32>,
    text: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    done: Option<String>,
}

#[derive(Serialize, Deserialize)]
struct Mark {
    #[serde(default)]
    date: String,
    #[serde(default)]
    who: String,
}

impl Record {
    /// The saved form of a record; `None` for one with nothing in it.
    pub(super) fn of(record: &plan::SiteRecord) -> Option<Self> {
        (!record.is_empty()).then(|| Self {
            cables: record.cables.iter().map(Into::into).collect(),
            boxes: record.boxes.iter().map(Into::into).collect(),
            left: record.left.iter().map(Into::into).collect(),
            punch: record.punch.iter().map(Into::into).collect(),
            last_punch: record.last_punch,
            photos: record.photos.clone(),
            inspected: record.inspected.as_ref().map(Into::into),
            handed_over: record.handed_over.as_ref().map(Into::into),
        })
    }
}

/// Reads the record of a document into a plan, part by part.
pub(super) fn read(plan: &mut Plan, fields: &Fields, losses: &mut Losses) {
    let what = "The record of the site";
    let record = fields.object("record", what, losses);
    let list = |key, name, most| List {
        key,
        name,
        of: " of the record",
        most,
    };
    let cables = record.list::<Cable>(&list("cables", "Cable", MANY), losses);
    let boxes = record.list::<Box>(&list("boxes", "Box", MANY), losses);
    let left = record.list::<Left>(&list("left", "Cable", MANY), losses);
    let punch = record.list::<Punch>(&list("punch", "Punch item", MOST_PUNCH), losses);
    let mark = |key, what, losses: &mut Losses| record.one::<Mark>(key, what, losses);
    plan.record = plan::SiteRecord {
        cables: cables.into_iter().map(Into::into).collect(),
        boxes: boxes.into_iter().map(Into::into).collect(),
        left: from(left),
        punch: from(punch),
        last_punch: record
            .one("last_punch", "The last number of the punch list", losses)
            .unwrap_or_default(),
        photos: record
            .one("photos", "Where the pictures are kept", losses)
            .unwrap_or_default(),
        inspected: mark("inspected", "The inspection", losses).map(Into::into),
        handed_over: mark("handed_over", "The handover", losses).map(Into::into),
    };
}

impl From<(&CableId, &plan::CableRecord)> for Cable {
    fn from((id, noted): (&CableId, &plan::CableRecord)) -> Self {
        let at = |stage| noted.reached.get(&stage).cloned();
        Self {
            cable: id.0,
            pulled: at(CableStage::Pulled),
            labelled: at(CableStage::Labelled),
            terminated: at(CableStage::Terminated),
            tested: noted.test.as_ref().map(|test| test.date.clone()),
            fault: noted
                .test
                .as_ref()
                .map_or_else(String::new, |test| test.fault.clone()),
            length: noted.length.map(|length| length.0),
        }
    }
}

impl From<Cable> for (CableId, plan::CableRecord) {
    fn from(saved: Cable) -> Self {
        let fault = saved.fault;
        // What is wrong with it is told even where the date was lost.
        let unknown = || (!fault.is_empty()).then(String::new);
        let tested = saved.tested.or_else(unknown);
        let noted = plan::CableRecord {
            reached: reached([
                (CableStage::Pulled, saved.pulled),
                (CableStage::Labelled, saved.labelled),
                (CableStage::Terminated, saved.terminated),
            ]),
            test: tested.map(|date| plan::Test { date, fault }),
            length: saved.length.map(Mm),
        };
        (CableId(saved.cable), noted)
    }
}

impl From<(&DropId, &plan::BoxRecord)> for Box {
    fn from((id, noted): (&DropId, &plan::BoxRecord)) -> Self {
        let at = |stage| noted.reached.get(&stage).cloned();
        Self {
            drop: id.0,
            set: at(BoxStage::Set),
            tucked: at(BoxStage::Tucked),
            photo: at(BoxStage::Photographed),
            found: at(BoxStage::Found),
            plated: at(BoxStage::Plated),
            note: noted.note.clone(),
        }
    }
}

impl From<Box> for (DropId, plan::BoxRecord) {
    fn from(saved: Box) -> Self {
        let noted = plan::BoxRecord {
            reached: reached([
                (BoxStage::Set, saved.set),
                (BoxStage::Tucked, saved.tucked),
                (BoxStage::Photographed, saved.photo),
                (BoxStage::Found, saved.found),
                (BoxStage::Plated, saved.plated),
            ]),
            note: saved.note,
        };
        (DropId(saved.drop), noted)
    }
}

fn reached<S: Ord, const N: usize>(stages: [(S, Option<String>); N]) -> BTreeMap<S, String> {
    let there = stages.into_iter();
    there
        .filter_map(|(stage, date)| Some((stage, date?)))
        .collect()
}

impl From<&plan::LeftCable> for Left {
    fn from(left: &plan::LeftCable) -> Self {
        Self {
            cable: left.cable.0,
            name: left.name.clone(),
        }
    }
}

impl From<Left> for plan::LeftCable {
    fn from(saved: Left) -> Self {
        Self {
            cable: CableId(saved.cable),
            name: saved.name,
        }
    }
}

impl From<&plan::PunchItem> for Punch {
    fn from(item: &plan::PunchItem) -> Self {
        Self {
            number: item.number,
            drop: item.drop.map(|id| id.0),
            text: item.text.clone(),
            done: item.done.clone(),
        }
    }
}

impl From<Punch> for plan::PunchItem {
    fn from(saved: Punch) -> Self {
        Self {
            number: saved.number,
            drop: saved.drop.map(DropId),
            text: saved.text,
            done: saved.done,
        }
    }
}

impl From<&plan::Mark> for Mark {
    fn from(mark: &plan::Mark) -> Self {
        Self {
            date: mark.date.clone(),
            who: mark.who.clone(),
        }
    }
}

impl From<Mark> for plan::Mark {
    fn from(saved: Mark) -> Self {
        Self {
            date: saved.date,
            who: saved.who,
        }
    }
}
