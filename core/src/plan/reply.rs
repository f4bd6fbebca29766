//! What the builder or the owner sent back: which items they agreed to and which they ask about.

use super::{DropId, LevelId, WallId};

/// What can be agreed to, one by one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Item {
    /// A drop: what it is, where, how high, its box and its cables.
    Drop(DropId),
    /// The holes in a bearing or outside wall.
    Wall(WallId),
    /// The holes in the joists over a level.
    Joists(LevelId),
    /// The closet and what it needs.
    Closet,
    /// The date on the sheets, and when each part of the job is due.
    Date,
}

/// What a person said of an item.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Said {
    /// It may be built so.
    Agreed,
    /// A question or a wish; not empty.
    Asked(String),
}

/// What a person said of an item as it stood.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answer {
    /// The item.
    pub item: Item,
    /// A digest of all that the item said when it was answered. An item that says anything else now
    /// is not yet agreed.
    pub digest: u32,
    /// What was said.
    pub said: Said,
}

/// One reply, signed with a name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reply {
    /// Who sent it, as they typed it; not empty.
    pub name: String,
    /// The date of their device when they sent it, as text; may be empty.
    pub date: String,
    /// The revision they looked at.
    pub revision: u32,
    /// A digest of the whole plan they looked at, names and notes aside.
    pub version: u32,
    /// What they said, at most once for each item.
    pub answers: Vec<Answer>,
}
