//! The drill list: straight rows of bores as one line each.

use super::Bore;
use crate::framing::Framing;
use crate::plan::{CableId, LevelId, Plan, WallId};
use crate::route::Ways;
use crate::units::Size;

/// One line of the drill list: one bit at one height through members one after the other.
#[derive(Clone, Debug, PartialEq)]
pub struct DrillRow {
    /// Its number, also that of its bores.
    pub number: u32,
    /// The level it is worked from.
    pub level: LevelId,
    /// The wall, if it is in one.
    pub wall: Option<WallId>,
    /// Its bores, as indices into [`crate::design::Design::bores`], in order along the wall.
    pub bores: Vec<usize>,
    /// Members bored, over all of them.
    pub members: u32,
    /// What is bored: "5 studs", "top plates", "corner", "joist", "outside wall".
    pub what: String,
    /// Where: "W6, studs 9 to 13", "W6, 9' 5\" from its north end".
    pub where_: String,
    /// The member: "bearing 2x6", "partition 2x4", "sawn joist 9-1/4 in".
    pub member: String,
    /// The bit.
    pub bit: Size,
    /// Height above the finished floor in words, or "centred" for plates.
    pub height: String,
    /// Cables through it.
    pub cables: Vec<CableId>,
    /// The largest fill of its bores, 0 to 1.
    pub fill: f64,
    /// Steel plates over all its bores.
    pub nail_plates: u32,
    /// Ties over all its bores.
    pub ties: u32,
    /// Seals over all its bores.
    pub seals: u32,
}

/// Collapses bores into rows, in order of their number.
pub fn drill_list(plan: &Plan, framing: &Framing, ways: &Ways, bores: &[Bore]) -> Vec<DrillRow> {
    let _ = (plan, framing, ways, bores);
    Vec::new()
}
