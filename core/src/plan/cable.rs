//! One cable: one identity from plan to test record.

use super::{CableId, CableKindId};

/// A home run from the closet to a drop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cable {
    /// Its identity, never reused.
    pub id: CableId,
    /// The letter that tells it from the drop's other cables: D8A, D8B.
    pub letter: char,
    /// What kind of cable it is.
    pub kind: CableKindId,
}
