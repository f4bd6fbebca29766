//! Drops, cables, the closet and pins, version 1.

use serde::{Deserialize, Serialize};

use super::walls::Side;
use super::{Xy, along, direction, is_false, point, words, xy};
use crate::plan;
use crate::units::Mm;

words!(DropKind is plan::DropKind:
    Data = "outlet", Television = "television", CeilingAccessPoint = "ceiling access point",
    WallAccessPoint = "wall access point", Camera = "camera", Doorbell = "doorbell",
    Other = "other");
words!(BoxKind is plan::BoxKind: Bracket = "bracket", ByOthers = "by others", None = "none");
words!(Entry is plan::Entry: Above = "above", Below = "below", Either = "either");

/// A drop with its cables.
#[derive(Serialize, Deserialize)]
pub(super) struct Drop {
    id: u32,
    letter: char,
    number: u32,
    kind: DropKind,
    level: u32,
    place: Place,
    cables: Vec<Cable>,
    #[serde(rename = "box")]
    fixing: BoxKind,
    gangs: u8,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    aim: Option<Xy>,
    #[serde(default, skip_serializing_if = "is_false")]
    outdoors: bool,
    #[serde(default, skip_serializing_if = "is_false")]
    buried: bool,
    #[serde(default, skip_serializing_if = "is_false")]
    spare: bool,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    note: String,
}

/// A cable of a drop; its kind is a place in the catalogue, counted from 0.
#[derive(Serialize, Deserialize)]
struct Cable {
    id: u32,
    letter: char,
    kind: u16,
}

#[derive(Serialize, Deserialize)]
#[serde(tag = "on")]
enum Place {
    #[serde(rename = "wall")]
    Wall {
        wall: u32,
        offset: i32,
        side: Side,
        height: i32,
    },
    #[serde(rename = "outside")]
    Outside {
        wall: u32,
        offset: i32,
        side: Side,
        height: i32,
    },
    #[serde(rename = "ceiling")]
    Ceiling { at: Xy },
    #[serde(rename = "nothing")]
    Adrift { at: Xy },
}

impl From<plan::Place> for Place {
    fn from(place: plan::Place) -> Self {
        match place {
            plan::Place::Wall {
                wall,
                offset,
                side,
                height,
            } => Self::Wall {
                wall: wall.0,
                offset: offset.0,
                side: side.into(),
                height: height.0,
            },
            plan::Place::Outside {
                wall,
                offset,
                side,
                height,
            } => Self::Outside {
                wall: wall.0,
                offset: offset.0,
                side: side.into(),
                height: height.0,
            },
            plan::Place::Ceiling { at } => Self::Ceiling { at: xy(at) },
            plan::Place::Adrift { at } => Self::Adrift { at: xy(at) },
        }
    }
}

impl From<Place> for plan::Place {
    fn from(place: Place) -> Self {
        match place {
            Place::Wall {
                wall,
                offset,
                side,
                height,
            } => Self::Wall {
                wall: plan::WallId(wall),
                offset: Mm(offset),
                side: side.into(),
                height: Mm(height),
            },
            Place::Outside {
                wall,
                offset,
                side,
                height,
            } => Self::Outside {
                wall: plan::WallId(wall),
                offset: Mm(offset),
                side: side.into(),
                height: Mm(height),
            },
            Place::Ceiling { at } => Self::Ceiling { at: point(at) },
            Place::Adrift { at } => Self::Adrift { at: point(at) },
        }
    }
}

impl From<&plan::Drop> for Drop {
    fn from(drop: &plan::Drop) -> Self {
        let cable = |cable: &plan::Cable| Cable {
            id: cable.id.0,
            letter: cable.letter,
            kind: cable.kind.0,
        };
        Self {
            id: drop.id.0,
            letter: drop.letter,
            number: drop.number,
            kind: drop.kind.into(),
            level: drop.level.0,
            place: drop.place.into(),
            cables: drop.cables.iter().map(cable).collect(),
            fixing: drop.fixing.into(),
            gangs: drop.gangs,
            aim: drop.aim.map(along),
            outdoors: drop.outdoors,
            buried: drop.buried,
            spare: drop.spare,
            note: drop.note.clone(),
        }
    }
}

impl From<Drop> for plan::Drop {
    fn from(drop: Drop) -> Self {
        let cable = |cable: Cable| plan::Cable {
            id: plan::CableId(cable.id),
            letter: cable.letter,
            kind: plan::CableKindId(cable.kind),
        };
        Self {
            id: plan::DropId(drop.id),
            letter: drop.letter,
            number: drop.number,
            kind: drop.kind.into(),
            level: plan::LevelId(drop.level),
            place: drop.place.into(),
            cables: drop.cables.into_iter().map(cable).collect(),
            fixing: drop.fixing.into(),
            gangs: drop.gangs,
            aim: drop.aim.map(direction),
            outdoors: drop.outdoors,
            buried: drop.buried,
            spare: drop.spare,
            note: drop.note,
        }
    }
}

/// The closet.
#[derive(Serialize, Deserialize)]
pub(super) struct Closet {
    level: u32,
    place: ClosetPlace,
    entry: Entry,
    panel_height: i32,
}

#[derive(Serialize, Deserialize)]
#[serde(untagged)]
enum ClosetPlace {
    Wall { wall: u32, offset: i32, side: Side },
    Point { at: Xy },
}

impl From<&plan::Closet> for Closet {
    fn from(closet: &plan::Closet) -> Self {
        Self {
            level: closet.level.0,
            place: match closet.place {
                plan::ClosetPlace::Wall { wall, offset, side } => ClosetPlace::Wall {
                    wall: wall.0,
                    offset: offset.0,
                    side: side.into(),
                },
                plan::ClosetPlace::Point(at) => ClosetPlace::Point { at: xy(at) },
            },
            entry: closet.entry.into(),
            panel_height: closet.panel_height.0,
        }
    }
}

impl From<Closet> for plan::Closet {
    fn from(closet: Closet) -> Self {
        Self {
            level: plan::LevelId(closet.level),
            place: match closet.place {
                ClosetPlace::Wall { wall, offset, side } => plan::ClosetPlace::Wall {
                    wall: plan::WallId(wall),
                    offset: Mm(offset),
                    side: side.into(),
                },
                ClosetPlace::Point { at } => plan::ClosetPlace::Point(point(at)),
            },
            entry: closet.entry.into(),
            panel_height: Mm(closet.panel_height),
        }
    }
}

/// What a person overruled about ways.
#[derive(Serialize, Deserialize)]
#[serde(tag = "kind")]
pub(super) enum Pin {
    #[serde(rename = "bay")]
    Bay { cable: u32, wall: u32, offset: i32 },
    #[serde(rename = "overhead")]
    Overhead { cable: u32, at: Xy },
    #[serde(rename = "lane")]
    Lane { wall: u32, height: i32 },
}

impl From<&plan::Pin> for Pin {
    fn from(pin: &plan::Pin) -> Self {
        match *pin {
            plan::Pin::Cable {
                cable,
                to: plan::PinTo::Bay { wall, offset },
            } => Self::Bay {
                cable: cable.0,
                wall: wall.0,
                offset: offset.0,
            },
            plan::Pin::Cable {
                cable,
                to: plan::PinTo::Overhead { at },
            } => Self::Overhead {
                cable: cable.0,
                at: xy(at),
            },
            plan::Pin::Lane { wall, height } => Self::Lane {
                wall: wall.0,
                height: height.0,
            },
        }
    }
}

impl From<Pin> for plan::Pin {
    fn from(pin: Pin) -> Self {
        match pin {
            Pin::Bay {
                cable,
                wall,
                offset,
            } => Self::Cable {
                cable: plan::CableId(cable),
                to: plan::PinTo::Bay {
                    wall: plan::WallId(wall),
                    offset: Mm(offset),
                },
            },
            Pin::Overhead { cable, at } => Self::Cable {
                cable: plan::CableId(cable),
                to: plan::PinTo::Overhead { at: point(at) },
            },
            Pin::Lane { wall, height } => Self::Lane {
                wall: plan::WallId(wall),
                height: Mm(height),
            },
        }
    }
}
