//! The drawings and how they lie, version 1. How a drawing lies stands with its level; the
//! pictures stand at the end of the document, so that what breaks off first is what can be
//! scanned again.

use std::sync::Arc;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde::{Deserialize, Serialize};

use super::MANY;
use crate::file::fields::{Fields, List};
use crate::file::losses::Losses;
use crate::plan;
use crate::plan::edit::caps;
use crate::units::Mm;

/// How a level's drawing lies.
#[derive(Serialize)]
pub(super) struct Sheet {
    placing: Placing,
    known: Vec<Known>,
}

#[derive(Serialize, Deserialize)]
struct Placing {
    origin: [f64; 2],
    scale: f64,
    turn: [f64; 2],
    scaled: bool,
}

#[derive(Serialize, Deserialize)]
struct Known {
    from: [f64; 2],
    to: [f64; 2],
    length: i32,
}

impl From<&plan::Sheet> for Sheet {
    fn from(sheet: &plan::Sheet) -> Self {
        let placing = &sheet.placing;
        let known = |known: &plan::KnownDimension| Known {
            from: known.from.into(),
            to: known.to.into(),
            length: known.length.0,
        };
        Self {
            placing: Placing {
                origin: placing.origin.into(),
                scale: placing.scale,
                turn: placing.turn.into(),
                scaled: placing.scaled,
            },
            known: sheet.known.iter().map(known).collect(),
        }
    }
}

/// How the drawing of one level lies, as far as it can be read, still without its picture.
pub(super) fn read(fields: &Fields, of: &str, losses: &mut Losses) -> plan::Sheet {
    let what = format!("The laying of the drawing{of}");
    let placing = fields.one::<Placing>("placing", &what, losses);
    let list = List {
        key: "known",
        name: "Known dimension",
        of,
        most: MANY,
    };
    let known = |known: Known| plan::KnownDimension {
        from: known.from.into(),
        to: known.to.into(),
        length: Mm(known.length),
    };
    plan::Sheet {
        scan: None,
        placing: placing.map_or_else(plan::Placing::default, |placing| plan::Placing {
            origin: placing.origin.into(),
            scale: placing.scale,
            turn: placing.turn.into(),
            scaled: placing.scaled,
        }),
        known: fields
            .list::<Known>(&list, losses)
            .into_iter()
            .map(known)
            .collect(),
    }
}

/// A picture with the level it lies under.
#[derive(Serialize, Deserialize)]
pub(super) struct Scan {
    level: u32,
    media_type: String,
    width: u32,
    height: u32,
    base64: String,
}

impl Scan {
    /// The picture of a level, if it has one.
    pub fn of(level: &plan::Level) -> Option<Self> {
        let scan = level.sheet.scan.as_ref()?;
        Some(Self {
            level: level.id.0,
            media_type: scan.media_type.clone(),
            width: scan.width,
            height: scan.height,
            base64: STANDARD.encode(&scan.bytes),
        })
    }
}

/// Puts the pictures of a document under their levels.
pub(super) fn put(plan: &mut plan::Plan, fields: &Fields, losses: &mut Losses) {
    let list = List {
        key: "scans",
        name: "Drawing",
        of: "",
        most: caps::LEVELS.most,
    };
    for scan in fields.long::<Scan>(&list, losses) {
        let level = plan.levels.iter_mut().find(|l| l.id.0 == scan.level);
        let bytes = STANDARD.decode(scan.base64.as_bytes());
        match (level, bytes) {
            (Some(level), Ok(bytes)) => {
                level.sheet.scan = Some(Arc::new(plan::Scan {
                    media_type: scan.media_type,
                    width: scan.width,
                    height: scan.height,
                    bytes,
                }));
            }
            (None, _) => losses.say("A drawing belongs to no level and was left out."),
            (Some(level), Err(_)) => losses.say(format!(
                "The drawing under {} is damaged and was left out.",
                level.name
            )),
        }
    }
}
