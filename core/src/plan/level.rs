//! A level: its walls and what lies below and above it.

use serde::{Deserialize, Serialize};

use super::{
    KeepOut, KeepOutId, LayoutSide, LevelId, Opening, OpeningId, PowerRun, PowerRunId, Room,
    RoomId, Sheet, Wall, WallId,
};
use crate::shape::Direction;
use crate::units::{Mm, Size};

/// One level of the house.
#[derive(Clone, Debug, PartialEq)]
pub struct Level {
    /// Its identity.
    pub id: LevelId,
    /// What it is called: Ground, Upper, Basement.
    pub name: String,
    /// Finished floor to the underside of the ceiling framing: the height of a wall with plates.
    pub ceiling: Mm,
    /// What is under its floor. Only the lowest level has a slab or a crawl space.
    pub below: Below,
    /// What is over its ceiling. Only the highest level has an attic or a roof.
    pub above: Above,
    /// The drawing it was traced from, and how it lies.
    pub sheet: Sheet,
    /// Its walls.
    pub walls: Vec<Wall>,
    /// Doors, windows and cased openings in those walls.
    pub openings: Vec<Opening>,
    /// Where nothing may be drilled or run.
    pub keep_outs: Vec<KeepOut>,
    /// Power cable by others, as far as it is known.
    pub power_runs: Vec<PowerRun>,
    /// Named rooms.
    pub rooms: Vec<Room>,
}

impl Level {
    /// An empty level with a 9 ft ceiling, on a slab, under an attic over trusses.
    pub fn new(id: LevelId, name: &str) -> Self {
        Self {
            id,
            name: name.to_string(),
            ceiling: Mm::feet(9.0),
            below: Below::Slab,
            above: Above::attic_over_trusses(Direction::ALONG_Y),
            sheet: Sheet::default(),
            walls: Vec::new(),
            openings: Vec::new(),
            keep_outs: Vec::new(),
            power_runs: Vec::new(),
            rooms: Vec::new(),
        }
    }

    /// The wall with this identity, if it stands on this level.
    pub fn wall(&self, id: WallId) -> Option<&Wall> {
        self.walls.iter().find(|wall| wall.id == id)
    }

    /// The opening with this identity, if it is on this level.
    pub fn opening(&self, id: OpeningId) -> Option<&Opening> {
        self.openings.iter().find(|opening| opening.id == id)
    }

    /// The room with this identity, if it is on this level.
    pub fn room(&self, id: RoomId) -> Option<&Room> {
        self.rooms.iter().find(|room| room.id == id)
    }

    /// The keep-out with this identity, if it is on this level.
    pub fn keep_out(&self, id: KeepOutId) -> Option<&KeepOut> {
        self.keep_outs.iter().find(|keep_out| keep_out.id == id)
    }

    /// The power run with this identity, if it is on this level.
    pub fn power_run(&self, id: PowerRunId) -> Option<&PowerRun> {
        self.power_runs.iter().find(|run| run.id == id)
    }

    /// The openings of one wall, by offset.
    pub fn openings_of(&self, wall: WallId) -> Vec<&Opening> {
        let mut openings: Vec<_> = self.openings.iter().filter(|o| o.wall == wall).collect();
        openings.sort_by_key(|opening| (opening.offset, opening.id));
        openings
    }
}

/// What a floor or a flat ceiling is framed with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum JoistKind {
    /// Sawn lumber: may be bored within the joist rule.
    Sawn,
    /// Wood I-joists: web holes by the maker's chart only.
    IJoist,
    /// Open-web trusses: cable passes between the webs, nothing is drilled.
    OpenWeb,
}

/// A floor or ceiling framed with joists.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Floor {
    /// What the joists are.
    pub kind: JoistKind,
    /// Depth of the joists.
    pub depth: Size,
    /// Distance from joist to joist, on centre.
    pub spacing: Size,
    /// The direction the joists run in.
    pub direction: Direction,
    /// The side they are laid out from.
    pub layout: LayoutSide,
}

impl Floor {
    /// Sawn 2x10 at 16 in on centre.
    pub fn sawn(direction: Direction) -> Self {
        Self {
            kind: JoistKind::Sawn,
            depth: Size::inches(9.25),
            spacing: Size::inches(16.0),
            direction,
            layout: LayoutSide::First,
        }
    }
}

/// What lies under a level's floor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Below {
    /// Concrete on the ground: no way.
    Slab,
    /// A crawl space under a framed floor.
    Crawl(Floor),
    /// The level beneath, under this framed floor.
    Level(Floor),
}

/// Roof trusses over a level, or over a part of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trusses {
    /// Distance from truss to truss, on centre.
    pub spacing: Size,
    /// The direction the trusses span.
    pub direction: Direction,
    /// The side they are laid out from.
    pub layout: LayoutSide,
}

impl Trusses {
    /// At 24 in on centre.
    pub fn spanning(direction: Direction) -> Self {
        Self {
            spacing: Size::inches(24.0),
            direction,
            layout: LayoutSide::First,
        }
    }

    /// Sawn joists laid the same way: their spacing and direction are checked and kept as those of joists.
    pub(crate) fn as_joists(self) -> Floor {
        Floor {
            spacing: self.spacing,
            layout: self.layout,
            ..Floor::sawn(self.direction)
        }
    }
}

/// The rafters of a roof that is closed over a sloped ceiling.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rafters {
    /// Distance from rafter to rafter, on centre.
    pub spacing: Size,
    /// The direction they run in, from the wall they rest on up to the ridge.
    pub direction: Direction,
    /// The side they are laid out from.
    pub layout: LayoutSide,
    /// How far they rise in 12 of run.
    pub pitch: u8,
}

impl Rafters {
    /// At 16 in on centre, 6 in 12.
    pub fn along(direction: Direction) -> Self {
        Self {
            spacing: Size::inches(16.0),
            direction,
            layout: LayoutSide::First,
            pitch: 6,
        }
    }

    /// Sawn joists laid the same way: their spacing and direction are checked and kept as those of joists.
    pub(crate) fn as_joists(self) -> Floor {
        Floor {
            spacing: self.spacing,
            layout: self.layout,
            ..Floor::sawn(self.direction)
        }
    }
}

/// What lies over a level's ceiling.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Above {
    /// An attic over roof trusses: their members are never drilled, cable lies on top.
    AtticTrusses(Trusses),
    /// An attic over ceiling joists: cable lies on top.
    AtticJoists(Floor),
    /// The next level's floor.
    Level {
        /// Its joists are open from below, as in an unfinished basement: cable hangs under them, and goes
        /// through one only where a wall stands beneath.
        open: bool,
        /// The roof over the part that the next level does not stand on, with an attic on its trusses;
        /// `None` where that is not stated, and no cable is led there.
        beside: Option<Trusses>,
    },
    /// A roof with no way through: vaulted, insulated shut. Where its rafters are stated, cable comes
    /// along a rafter bay to what hangs on the sloped ceiling, and to nothing else.
    ClosedRoof(Option<Rafters>),
}

impl Above {
    /// The next level's floor over a finished ceiling.
    pub const LEVEL: Self = Self::Level {
        open: false,
        beside: None,
    };

    /// A closed roof whose rafters nobody stated.
    pub const CLOSED: Self = Self::ClosedRoof(None);

    /// Trusses at 24 in on centre.
    pub fn attic_over_trusses(direction: Direction) -> Self {
        Self::AtticTrusses(Trusses::spanning(direction))
    }
}
