//! Identities: one number series for each kind of thing, never reused.

use serde::{Deserialize, Serialize};

macro_rules! identity {
    ($(#[$doc:meta] $name:ident),* $(,)?) => {$(
        #[$doc]
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        pub struct $name(pub u32);
    )*};
}

identity! {
    /// A level of the house.
    LevelId,
    /// A wall.
    WallId,
    /// A door, window or cased opening.
    OpeningId,
    /// A named room.
    RoomId,
    /// A place or stretch nothing may be drilled or run through.
    KeepOutId,
    /// A run of power cable by others.
    PowerRunId,
    /// A drop.
    DropId,
    /// A cable, from the closet to its drop.
    CableId,
}

/// The next free number of each kind. Numbers only grow, so nothing removed lends its name again.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Numbers {
    /// Next level.
    pub level: u32,
    /// Next wall.
    pub wall: u32,
    /// Next opening.
    pub opening: u32,
    /// Next room.
    pub room: u32,
    /// Next keep-out.
    pub keep_out: u32,
    /// Next power run.
    pub power_run: u32,
    /// Next drop; its label carries this number.
    pub drop: u32,
    /// Next cable.
    pub cable: u32,
}

impl Default for Numbers {
    /// Everything from 1, but levels: a new plan has its first level already.
    fn default() -> Self {
        Self {
            level: 2,
            wall: 1,
            opening: 1,
            room: 1,
            keep_out: 1,
            power_run: 1,
            drop: 1,
            cable: 1,
        }
    }
}
