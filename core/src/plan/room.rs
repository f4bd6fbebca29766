//! Named rooms.

use super::RoomId;
use crate::shape::Point;

/// A room: a name at a place. Its outline follows from the walls around that place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Room {
    /// Its identity.
    pub id: RoomId,
    /// What it is called.
    pub name: String,
    /// A place inside it, where the name is written.
    pub at: Point,
}
