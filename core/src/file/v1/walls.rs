//! Walls and openings, version 1.

use serde::{Deserialize, Serialize};

use super::{Xy, is_false, point, words, xy};
use crate::plan;
use crate::units::{Mm, Size};

words!(Role is plan::Role: Exterior = "exterior", Bearing = "bearing", Partition = "partition");
words!(LayoutEnd is plan::LayoutEnd: First = "first", Second = "second");
words!(Side is plan::Side: Left = "left", Right = "right");
words!(OpeningKind is plan::OpeningKind: Door = "door", Window = "window", Cased = "cased opening");

/// A wall.
#[derive(Serialize, Deserialize)]
pub(super) struct Wall {
    id: u32,
    from: Xy,
    to: Xy,
    lumber: Lumber,
    role: Role,
    spacing: f64,
    layout: LayoutEnd,
    top_plates: u8,
    bottom_plates: u8,
    #[serde(default, skip_serializing_if = "is_false")]
    doubled: bool,
    #[serde(default, skip_serializing_if = "is_false")]
    never_drill: bool,
    #[serde(default, skip_serializing_if = "is_false")]
    garage: bool,
}

/// A nominal board by its name, or another width in millimetres.
#[derive(Serialize, Deserialize)]
#[serde(untagged)]
enum Lumber {
    Nominal(Nominal),
    Width(f64),
}

#[derive(Serialize, Deserialize)]
enum Nominal {
    #[serde(rename = "2x4")]
    By4,
    #[serde(rename = "2x6")]
    By6,
    #[serde(rename = "2x8")]
    By8,
}

impl From<plan::Lumber> for Lumber {
    fn from(lumber: plan::Lumber) -> Self {
        match lumber {
            plan::Lumber::TwoByFour => Self::Nominal(Nominal::By4),
            plan::Lumber::TwoBySix => Self::Nominal(Nominal::By6),
            plan::Lumber::TwoByEight => Self::Nominal(Nominal::By8),
            plan::Lumber::Width(width) => Self::Width(width.0),
        }
    }
}

impl From<Lumber> for plan::Lumber {
    fn from(lumber: Lumber) -> Self {
        match lumber {
            Lumber::Nominal(Nominal::By4) => Self::TwoByFour,
            Lumber::Nominal(Nominal::By6) => Self::TwoBySix,
            Lumber::Nominal(Nominal::By8) => Self::TwoByEight,
            Lumber::Width(width) => Self::Width(Size(width)),
        }
    }
}

impl From<&plan::Wall> for Wall {
    fn from(wall: &plan::Wall) -> Self {
        Self {
            id: wall.id.0,
            from: xy(wall.from),
            to: xy(wall.to),
            lumber: wall.lumber.into(),
            role: wall.role.into(),
            spacing: wall.spacing.0,
            layout: wall.layout.into(),
            top_plates: wall.top_plates,
            bottom_plates: wall.bottom_plates,
            doubled: wall.doubled,
            never_drill: wall.never_drill,
            garage: wall.garage,
        }
    }
}

impl From<Wall> for plan::Wall {
    fn from(wall: Wall) -> Self {
        Self {
            id: plan::WallId(wall.id),
            from: point(wall.from),
            to: point(wall.to),
            lumber: wall.lumber.into(),
            role: wall.role.into(),
            spacing: Size(wall.spacing),
            layout: wall.layout.into(),
            top_plates: wall.top_plates,
            bottom_plates: wall.bottom_plates,
            doubled: wall.doubled,
            never_drill: wall.never_drill,
            garage: wall.garage,
        }
    }
}

/// A door, window or cased opening.
#[derive(Serialize, Deserialize)]
pub(super) struct Opening {
    id: u32,
    wall: u32,
    kind: OpeningKind,
    offset: i32,
    width: i32,
    sill: i32,
    head: i32,
}

impl From<&plan::Opening> for Opening {
    fn from(opening: &plan::Opening) -> Self {
        Self {
            id: opening.id.0,
            wall: opening.wall.0,
            kind: opening.kind.into(),
            offset: opening.offset.0,
            width: opening.width.0,
            sill: opening.sill.0,
            head: opening.head.0,
        }
    }
}

impl From<Opening> for plan::Opening {
    fn from(opening: Opening) -> Self {
        Self {
            id: plan::OpeningId(opening.id),
            wall: plan::WallId(opening.wall),
            kind: opening.kind.into(),
            offset: Mm(opening.offset),
            width: Mm(opening.width),
            sill: Mm(opening.sill),
            head: Mm(opening.head),
        }
    }
}
