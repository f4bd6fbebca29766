//! Levels and what lies between them, version 1.

use serde::{Deserialize, Serialize};

use super::walls::{Opening, Wall};
use super::{MANY, Xy, along, direction, from, sheets, site, words};
use crate::file::fields::{Fields, List};
use crate::file::losses::Losses;
use crate::plan;
use crate::plan::edit::caps;
use crate::units::{Mm, Size};

words!(LayoutSide is plan::LayoutSide: First = "first", Second = "second");
words!(JoistKind is plan::JoistKind: Sawn = "sawn", IJoist = "I-joist", OpenWeb = "open-web truss");

/// A level, as it is written; it is read field by field.
#[derive(Serialize)]
pub(super) struct Level {
    id: u32,
    name: String,
    ceiling: i32,
    below: Below,
    above: Above,
    sheet: sheets::Sheet,
    walls: Vec<Wall>,
    openings: Vec<Opening>,
    rooms: Vec<site::Room>,
    keep_outs: Vec<site::KeepOut>,
    power_runs: Vec<site::PowerRun>,
}

impl From<&plan::Level> for Level {
    fn from(level: &plan::Level) -> Self {
        Self {
            id: level.id.0,
            name: level.name.clone(),
            ceiling: level.ceiling.0,
            below: level.below.into(),
            above: level.above.into(),
            sheet: (&level.sheet).into(),
            walls: level.walls.iter().map(Into::into).collect(),
            openings: level.openings.iter().map(Into::into).collect(),
            rooms: level.rooms.iter().map(Into::into).collect(),
            keep_outs: level.keep_outs.iter().map(Into::into).collect(),
            power_runs: level.power_runs.iter().map(Into::into).collect(),
        }
    }
}

/// The levels of a document, as far as each can be read.
pub(super) fn read(fields: &Fields, losses: &mut Losses) -> Vec<plan::Level> {
    let list = List {
        key: "levels",
        name: "Level",
        of: "",
        most: caps::LEVELS.most,
    };
    let levels = fields.objects(&list, losses);
    let read = |(place, level): (usize, Fields)| {
        let stand_in = plan::LevelId(place as u32 + 1);
        one(&level, stand_in, losses)
    };
    levels.into_iter().enumerate().map(read).collect()
}

fn one(fields: &Fields, stand_in: plan::LevelId, losses: &mut Losses) -> plan::Level {
    let id = fields.one("id", "The number of a level", losses);
    let mut level = plan::Level::new(id.map_or(stand_in, plan::LevelId), "");
    level.name = fields
        .one("name", "The name of a level", losses)
        .unwrap_or_default();
    let of = format!(" of {}", level.name);
    let what = |what: &str| format!("{what}{of}");
    if let Some(ceiling) = fields.one("ceiling", &what("The ceiling height"), losses) {
        level.ceiling = Mm(ceiling);
    }
    if let Some(below) = fields.one::<Below>("below", &what("The floor"), losses) {
        level.below = below.into();
    }
    if let Some(above) = fields.one::<Above>("above", &what("What is over the ceiling"), losses) {
        level.above = above.into();
    }
    let sheet = fields.object("sheet", &what("The laying of the drawing"), losses);
    level.sheet = sheets::read(&sheet, &of, losses);
    let list = |key, name| List {
        key,
        name,
        of: &of,
        most: MANY,
    };
    let walls = List {
        most: caps::WALLS.most,
        ..list("walls", "Wall")
    };
    level.walls = from(fields.list::<Wall>(&walls, losses));
    level.openings = from(fields.list::<Opening>(&list("openings", "Opening"), losses));
    level.rooms = from(fields.list::<site::Room>(&list("rooms", "Room"), losses));
    level.keep_outs = from(fields.list::<site::KeepOut>(&list("keep_outs", "Keep-out"), losses));
    let runs = list("power_runs", "Power run");
    level.power_runs = from(fields.list::<site::PowerRun>(&runs, losses));
    level
}

/// What lies under a floor.
#[derive(Serialize, Deserialize)]
#[serde(tag = "kind")]
enum Below {
    #[serde(rename = "slab")]
    Slab,
    #[serde(rename = "crawl space")]
    Crawl { floor: Floor },
    #[serde(rename = "level")]
    Level { floor: Floor },
}

impl From<plan::Below> for Below {
    fn from(below: plan::Below) -> Self {
        match below {
            plan::Below::Slab => Self::Slab,
            plan::Below::Crawl(floor) => Self::Crawl {
                floor: floor.into(),
            },
            plan::Below::Level(floor) => Self::Level {
                floor: floor.into(),
            },
        }
    }
}

impl From<Below> for plan::Below {
    fn from(below: Below) -> Self {
        match below {
            Below::Slab => Self::Slab,
            Below::Crawl { floor } => Self::Crawl(floor.into()),
            Below::Level { floor } => Self::Level(floor.into()),
        }
    }
}

/// Roof trusses over a level, or over a part of it.
#[derive(Serialize, Deserialize)]
struct Trusses {
    spacing: f64,
    direction: Xy,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    layout: Option<LayoutSide>,
}

impl From<plan::Trusses> for Trusses {
    fn from(trusses: plan::Trusses) -> Self {
        Self {
            spacing: trusses.spacing.0,
            direction: along(trusses.direction),
            layout: unusual(trusses.layout),
        }
    }
}

impl From<Trusses> for plan::Trusses {
    fn from(trusses: Trusses) -> Self {
        Self {
            spacing: Size(trusses.spacing),
            direction: direction(trusses.direction),
            layout: trusses.layout.map_or(plan::LayoutSide::First, Into::into),
        }
    }
}

/// The rafters of a closed roof.
#[derive(Serialize, Deserialize)]
struct Rafters {
    spacing: f64,
    direction: Xy,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    layout: Option<LayoutSide>,
    pitch: u8,
}

impl From<plan::Rafters> for Rafters {
    fn from(rafters: plan::Rafters) -> Self {
        Self {
            spacing: rafters.spacing.0,
            direction: along(rafters.direction),
            layout: unusual(rafters.layout),
            pitch: rafters.pitch,
        }
    }
}

impl From<Rafters> for plan::Rafters {
    fn from(rafters: Rafters) -> Self {
        Self {
            spacing: Size(rafters.spacing),
            direction: direction(rafters.direction),
            layout: rafters.layout.map_or(plan::LayoutSide::First, Into::into),
            pitch: rafters.pitch,
        }
    }
}

/// What lies over a ceiling.
#[derive(Serialize, Deserialize)]
#[serde(tag = "kind")]
enum Above {
    #[serde(rename = "attic over trusses")]
    AtticTrusses(Trusses),
    #[serde(rename = "attic over joists")]
    AtticJoists { floor: Floor },
    #[serde(rename = "level")]
    Level {
        #[serde(default, skip_serializing_if = "std::ops::Not::not")]
        open: bool,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        beside: Option<Trusses>,
    },
    #[serde(rename = "closed roof")]
    ClosedRoof {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        rafters: Option<Rafters>,
    },
}

impl From<plan::Above> for Above {
    fn from(above: plan::Above) -> Self {
        match above {
            plan::Above::AtticTrusses(trusses) => Self::AtticTrusses(trusses.into()),
            plan::Above::AtticJoists(floor) => Self::AtticJoists {
                floor: floor.into(),
            },
            plan::Above::Level { open, beside } => Self::Level {
                open,
                beside: beside.map(Into::into),
            },
            plan::Above::ClosedRoof(rafters) => Self::ClosedRoof {
                rafters: rafters.map(Into::into),
            },
        }
    }
}

impl From<Above> for plan::Above {
    fn from(above: Above) -> Self {
        match above {
            Above::AtticTrusses(trusses) => Self::AtticTrusses(trusses.into()),
            Above::AtticJoists { floor } => Self::AtticJoists(floor.into()),
            Above::Level { open, beside } => Self::Level {
                open,
                beside: beside.map(Into::into),
            },
            Above::ClosedRoof { rafters } => Self::ClosedRoof(rafters.map(Into::into)),
        }
    }
}

/// Joists.
#[derive(Serialize, Deserialize)]
struct Floor {
    joists: JoistKind,
    depth: f64,
    spacing: f64,
    direction: Xy,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    layout: Option<LayoutSide>,
}

impl From<plan::Floor> for Floor {
    fn from(floor: plan::Floor) -> Self {
        Self {
            joists: floor.kind.into(),
            depth: floor.depth.0,
            spacing: floor.spacing.0,
            direction: along(floor.direction),
            layout: unusual(floor.layout),
        }
    }
}

impl From<Floor> for plan::Floor {
    fn from(floor: Floor) -> Self {
        Self {
            kind: floor.joists.into(),
            depth: Size(floor.depth),
            spacing: Size(floor.spacing),
            direction: direction(floor.direction),
            layout: floor.layout.map_or(plan::LayoutSide::First, Into::into),
        }
    }
}

/// A side joists are laid out from, where it is not the usual one.
fn unusual(layout: plan::LayoutSide) -> Option<LayoutSide> {
    (layout != plan::LayoutSide::First).then(|| layout.into())
}
