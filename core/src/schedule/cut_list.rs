//! The cut list: every cable's length, and the reel it comes from.

use crate::plan::{CableId, CableKindId, DropId, Plan};
use crate::route::Ways;
use crate::units::Mm;

/// Every cable with its length to cut.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CutList {
    /// One a cable that has a way, by pull group, longest first within each.
    pub cuts: Vec<Cut>,
    /// Reels in order of use, over all kinds.
    pub reels: Vec<Reel>,
}

/// One cable to cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// Which cable.
    pub cable: CableId,
    /// Its drop.
    pub drop: DropId,
    /// Its kind.
    pub kind: CableKindId,
    /// Along the framing.
    pub path: Mm,
    /// At both ends.
    pub slack: Mm,
    /// Waste on the path.
    pub waste: Mm,
    /// What to cut: all of it, rounded up to a whole foot or a tenth of a metre.
    pub length: Mm,
    /// Cables pulled together carry the same group number, from 1.
    pub group: u32,
    /// The reel it comes from, as an index into [`CutList::reels`]; `None` if no reel holds it.
    pub reel: Option<usize>,
}

/// One reel.
#[derive(Clone, Debug, PartialEq)]
pub struct Reel {
    /// What it is called on the pull sheet: "Cat 6 reel 1".
    pub name: String,
    /// Its kind of cable.
    pub kind: CableKindId,
    /// Its length before the first cut.
    pub length: Mm,
    /// What is left after the last.
    pub left: Mm,
    /// Whether it is a part reel from the van.
    pub part: bool,
}

impl CutList {
    /// Works out lengths and assigns reels.
    pub(crate) fn of(plan: &Plan, ways: &Ways) -> Self {
        let _ = (plan, ways);
        Self::default()
    }
}
