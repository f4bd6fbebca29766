//! Everything that follows from a plan, in one pure function.

use crate::bore::{self, Bore, DrillRow};
use crate::finding::{self, Finding};
use crate::framing::Framing;
use crate::plan::Plan;
use crate::route::{self, Ways};
use crate::schedule::{CutList, Totals};

/// What follows from a plan. The same plan gives the same design on every machine.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Design {
    /// Studs, plates, joists, bays, strips.
    pub framing: Framing,
    /// The way of every cable.
    pub ways: Ways,
    /// Every hole.
    pub bores: Vec<Bore>,
    /// The drill list: straight rows of bores as one line.
    pub drill_list: Vec<DrillRow>,
    /// Every cable's length to cut, and the reels it comes from.
    pub cut_list: CutList,
    /// The counts of the tally.
    pub totals: Totals,
    /// What a person should know.
    pub findings: Vec<Finding>,
}

impl Design {
    /// Computes everything. Never fails: what has no answer becomes a finding.
    pub fn of(plan: &Plan) -> Self {
        let framing = Framing::of(plan);
        let ways = route::ways(plan, &framing);
        Self::following(plan, framing, ways)
    }

    /// Computes everything for a plan that has changed a little, quickly: for the frames of a drag.
    ///
    /// Every cable keeps its way where it still leads from drop to closet; the others get the best
    /// way given those. All that follows is computed from these ways as in [`Design::of`], so
    /// lengths, bores, counts and findings agree with what is drawn. The ways may be dearer than
    /// those of [`Design::of`], and depend on the design before: take that of the plan before the
    /// drag for every frame of it, and compute [`Design::of`] on release. For the same plan it
    /// gives the same design again.
    pub fn again(previous: &Self, plan: &Plan) -> Self {
        let framing = Framing::of(plan);
        let ways = route::ways_again(plan, &framing, &previous.ways);
        Self::following(plan, framing, ways)
    }

    fn following(plan: &Plan, framing: Framing, ways: Ways) -> Self {
        let bores = bore::size(plan, &framing, &ways);
        let drill_list = bore::drill_list(plan, &framing, &ways, &bores);
        let cut_list = CutList::of(plan, &ways);
        let totals = Totals::of(plan, &ways, &bores, &cut_list);
        let findings = finding::find(plan, &framing, &ways, &bores);
        Self {
            framing,
            ways,
            bores,
            drill_list,
            cut_list,
            totals,
            findings,
        }
    }
}
