//! Rooms, keep-outs and power runs, version 1.

use serde::{Deserialize, Serialize};

use super::{Xy, is_false, point, words, xy};
use crate::plan;
use crate::units::Mm;

words!(Reason is plan::KeepOutReason:
    Duct = "duct", Chimney = "chimney", Stair = "stair", Beam = "beam", Cabinets = "cabinets",
    Shower = "shower", Notch = "notch", BoreByOthers = "bore by others", Other = "other");

/// A named room.
#[derive(Serialize, Deserialize)]
pub(super) struct Room {
    id: u32,
    name: String,
    at: Xy,
}

impl From<&plan::Room> for Room {
    fn from(room: &plan::Room) -> Self {
        Self {
            id: room.id.0,
            name: room.name.clone(),
            at: xy(room.at),
        }
    }
}

impl From<Room> for plan::Room {
    fn from(room: Room) -> Self {
        Self {
            id: plan::RoomId(room.id),
            name: room.name,
            at: point(room.at),
        }
    }
}

/// A place nothing may be drilled or run through.
#[derive(Serialize, Deserialize)]
pub(super) struct KeepOut {
    id: u32,
    reason: Reason,
    bottom: i32,
    top: i32,
    shape: Shape,
}

#[derive(Serialize, Deserialize)]
#[serde(untagged)]
enum Shape {
    Stretch { wall: u32, from: i32, to: i32 },
    Region { corners: Vec<Xy> },
}

impl From<&plan::KeepOut> for KeepOut {
    fn from(keep_out: &plan::KeepOut) -> Self {
        Self {
            id: keep_out.id.0,
            reason: keep_out.reason.into(),
            bottom: keep_out.bottom.0,
            top: keep_out.top.0,
            shape: match &keep_out.shape {
                plan::KeepOutShape::Region(corners) => Shape::Region {
                    corners: corners.iter().copied().map(xy).collect(),
                },
                plan::KeepOutShape::Stretch { wall, from, to } => Shape::Stretch {
                    wall: wall.0,
                    from: from.0,
                    to: to.0,
                },
            },
        }
    }
}

impl From<KeepOut> for plan::KeepOut {
    fn from(keep_out: KeepOut) -> Self {
        Self {
            id: plan::KeepOutId(keep_out.id),
            reason: keep_out.reason.into(),
            bottom: Mm(keep_out.bottom),
            top: Mm(keep_out.top),
            shape: match keep_out.shape {
                Shape::Region { corners } => {
                    plan::KeepOutShape::Region(corners.into_iter().map(point).collect())
                }
                Shape::Stretch { wall, from, to } => plan::KeepOutShape::Stretch {
                    wall: plan::WallId(wall),
                    from: Mm(from),
                    to: Mm(to),
                },
            },
        }
    }
}

/// A run of power cable by others.
#[derive(Serialize, Deserialize)]
pub(super) struct PowerRun {
    id: u32,
    circuits: u8,
    #[serde(default, skip_serializing_if = "is_false")]
    panel: bool,
    place: PowerPlace,
}

#[derive(Serialize, Deserialize)]
#[serde(untagged)]
enum PowerPlace {
    Wall {
        wall: u32,
        from: i32,
        to: i32,
        height: i32,
    },
    Overhead {
        overhead: Vec<Xy>,
    },
}

impl From<&plan::PowerRun> for PowerRun {
    fn from(run: &plan::PowerRun) -> Self {
        Self {
            id: run.id.0,
            circuits: run.circuits,
            panel: run.panel,
            place: match &run.place {
                plan::PowerPlace::Overhead(points) => PowerPlace::Overhead {
                    overhead: points.iter().copied().map(xy).collect(),
                },
                plan::PowerPlace::Wall {
                    wall,
                    from,
                    to,
                    height,
                } => PowerPlace::Wall {
                    wall: wall.0,
                    from: from.0,
                    to: to.0,
                    height: height.0,
                },
            },
        }
    }
}

impl From<PowerRun> for plan::PowerRun {
    fn from(run: PowerRun) -> Self {
        Self {
            id: plan::PowerRunId(run.id),
            circuits: run.circuits,
            panel: run.panel,
            place: match run.place {
                PowerPlace::Overhead { overhead } => {
                    plan::PowerPlace::Overhead(overhead.into_iter().map(point).collect())
                }
                PowerPlace::Wall {
                    wall,
                    from,
                    to,
                    height,
                } => plan::PowerPlace::Wall {
                    wall: plan::WallId(wall),
                    from: Mm(from),
                    to: Mm(to),
                    height: Mm(height),
                },
            },
        }
    }
}
