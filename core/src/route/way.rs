//! What routing gives: the way of every cable, and every place where cable goes through wood.

use serde::{Deserialize, Serialize};

use crate::plan::{CableId, DropId, LevelId, Pin, WallId};
use crate::shape::Pos;
use crate::units::Mm;

/// A place in the house: on the plan, and above the lowest finished floor.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Place3 {
    /// On the plan, millimetres.
    pub at: Pos,
    /// Above the lowest finished floor, millimetres.
    pub z: f64,
}

/// The ways of all cables of a plan.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Ways {
    /// One a cable, in the order of the plan.
    pub ways: Vec<Way>,
    /// Every place where at least one cable goes through something, in a stable order.
    pub crossings: Vec<Crossing>,
    /// What all of it costs, in thousandths of a minute of work.
    pub cost: u64,
    /// No plan of ways can cost less than this; `None` until it has been worked out.
    pub bound: Option<u64>,
    /// What of the cost is not bores.
    pub laid: Laid,
    /// Pins of cables that nothing near could hold, so that they were left out.
    pub unheld: Vec<Pin>,
    /// Metres of trunk that want supports: stretches outside walls, each counted once.
    pub supported: Mm,
}

/// What ways cost apart from bores, in thousandths of a minute of work.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Laid {
    /// Cable, pulled and paid.
    pub cable: u64,
    /// What cable beside power counts on top, so that ways keep off. Nobody works or pays for it.
    pub beside_power: u64,
    /// Supports, by the length that wants them.
    pub supports: u64,
}

impl Ways {
    /// The way of a cable.
    pub fn way(&self, cable: CableId) -> Option<&Way> {
        self.ways.iter().find(|way| way.cable == cable)
    }

    /// How far above the best possible the cost may be, per cent; `None` without a bound.
    pub fn gap(&self) -> Option<f64> {
        let bound = self.bound.filter(|bound| *bound > 0)?;
        Some((self.cost.saturating_sub(bound)) as f64 / bound as f64 * 100.0)
    }
}

/// The way of one cable, from its drop to the closet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Way {
    /// Which cable.
    pub cable: CableId,
    /// The drop it serves.
    pub drop: DropId,
    /// Its moves in order from the drop; empty when there is no way.
    pub moves: Vec<Move>,
    /// Length of the moves, without slack and waste.
    pub length: Mm,
    /// Why there is no way, or no lawful one; `None` when all is well.
    pub trouble: Option<NoWay>,
}

/// One move of a cable.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Move {
    /// What it does.
    pub kind: MoveKind,
    /// Where it starts.
    pub from: Place3,
    /// Where it ends.
    pub to: Place3,
    /// Its length, millimetres: along the framing, not across the air.
    pub length: f64,
    /// What it goes through, as an index into [`Ways::crossings`].
    pub crossing: Option<usize>,
}

/// What one move does; told in words elsewhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum MoveKind {
    /// From the box into its bay, or on within it.
    InBay {
        /// The wall.
        wall: WallId,
        /// Index of the bay in the wall's framing.
        bay: usize,
    },
    /// Along a wall through studs at its lane.
    AlongWall {
        /// The wall.
        wall: WallId,
    },
    /// Round a corner or a tee into another wall.
    IntoWall {
        /// The wall left.
        from: WallId,
        /// The wall entered.
        to: WallId,
    },
    /// Through top plates into the space above a level, or back.
    ThroughTopPlates {
        /// The wall.
        wall: WallId,
        /// The level it stands on.
        level: LevelId,
    },
    /// Through bottom plates and floor into the space below a level, or back.
    ThroughBottomPlates {
        /// The wall.
        wall: WallId,
        /// The level it stands on.
        level: LevelId,
    },
    /// Along a strip between joists.
    AlongStrip {
        /// Index into [`crate::framing::Framing::spaces`].
        space: usize,
    },
    /// Across joists.
    AcrossStrips {
        /// Index into [`crate::framing::Framing::spaces`].
        space: usize,
    },
    /// Through the ceiling board to a drop or a free-standing closet.
    ThroughCeiling {
        /// The level whose ceiling it is.
        level: LevelId,
    },
    /// On the face of a wall that is not drilled, to a panel on a board there.
    OnFace {
        /// The wall.
        wall: WallId,
    },
    /// Out through an outside wall or its soffit.
    Outside {
        /// The wall.
        wall: WallId,
        /// Whether it goes over the plates, through the soffit.
        soffit: bool,
    },
}

/// A place where cable goes through something.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Crossing {
    /// What it goes through.
    pub member: Member,
    /// The wall it is in; `None` for joists.
    pub wall: Option<WallId>,
    /// The level it is worked from.
    pub level: LevelId,
    /// Offset along the wall from its first end, or the coordinate along the joist; millimetres.
    pub offset: f64,
    /// Above that level's finished floor, millimetres.
    pub height: f64,
    /// On the plan.
    pub at: Pos,
    /// Cables through it, in order of their identity.
    pub cables: Vec<CableId>,
}

#[cfg(test)]
impl Crossing {
    /// Of this member in no wall, at the origin; for tests.
    pub(crate) fn through(member: Member) -> Self {
        Self {
            member,
            wall: None,
            level: LevelId(1),
            offset: 0.0,
            height: 0.0,
            at: Pos::default(),
            cables: Vec::new(),
        }
    }
}

/// What a bore goes through.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Member {
    /// Studs of one wall, one after the other at one height; indices into the wall's framing.
    Studs(Vec<usize>),
    /// Studs and blocking where two walls meet: how many members, and the wall entered.
    Corner {
        /// Uprights and blocks bored through.
        count: u32,
        /// The wall on the other side; the same wall for a passage past a tee.
        to: WallId,
    },
    /// Top plates of a wall, this many.
    TopPlates(u8),
    /// Bottom plates of a wall, this many, and the subfloor under them.
    BottomPlates(u8),
    /// A sawn joist of this space.
    Joist {
        /// Index into [`crate::framing::Framing::spaces`].
        space: usize,
    },
    /// The web of an I-joist of this space: by the maker's chart only.
    Web {
        /// Index into [`crate::framing::Framing::spaces`].
        space: usize,
    },
    /// Sheathing and siding of an outside wall.
    Sheathing,
    /// The soffit under the eaves, or the gable over the plates; no framing.
    Soffit,
}

/// Why a cable has no way.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum NoWay {
    /// No closet is placed.
    NoCloset,
    /// The drop is on no wall.
    Adrift,
    /// Every way is cut; the words name the obstacles nearest to the drop.
    Cut(String),
    /// The shortest way, with the slack at both ends, is longer than the permanent link may be.
    TooLong(Mm),
}
