//! Everything that follows from a plan, in one pure function.
//!
//! Ways are sought with one of two [`Effort`]s, each a pure function of the plan: [`Design::of`] for a
//! plan that nothing is known of, [`Design::long`] for what is printed and handed on.
//! [`Design::taking`] completes a long one whose ways were worked out elsewhere. After an edit
//! [`Design::after`] goes on from the design before it, and so depends on both.
//!
//! A plan whose [`Load`] is too much for the moment is shown with [`Design::unsought`], which holds
//! nothing, until all of it was worked out beside the page.

pub mod kept;
mod load;
mod shared;

pub use load::Load;

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use crate::bore::{self, Bore, DrillRow, SincePrinted};
use crate::finding::{self, Finding};
use crate::framing::Framing;
use crate::plan::{Plan, PrintedRow};
use crate::route::network::{Answer, Effort as Budget};
use crate::route::{Routing, Ways};
use crate::schedule::reels::Look;
use crate::schedule::{CutList, Totals};

/// How hard the ways of a design were sought.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Effort {
    /// Not at all: nothing follows from the plan yet.
    Unsought,
    /// As hard as the moment after an edit allows.
    #[default]
    Live,
    /// As hard as it is worth, and with the bound worked out.
    Long,
}

/// What follows from a plan. The same plan gives the same design on every machine.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Design {
    /// Studs, plates, joists, bays, strips.
    #[serde(with = "shared")]
    pub framing: Arc<Framing>,
    /// The way of every cable.
    pub ways: Ways,
    /// How hard the ways were sought.
    pub effort: Effort,
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
    /// Computes everything for a plan that nothing is known of, as fast as the moment after an edit
    /// asks for. Never fails: what has no answer becomes a finding.
    pub fn of(plan: &Plan) -> Self {
        let framing = Arc::new(Framing::of(plan));
        let ways = Routing::of(plan, &framing).solve(Budget::LIVE);
        Self::with(plan, framing, ways, (Effort::Live, Look::Brief))
    }

    /// What is shown of a plan while nothing is worked out: its walls as lines, no wood, no ways, no counts.
    /// Whoever shows counts or hands them on asks [`Design::is_sought`] first.
    pub fn unsought(plan: &Plan) -> Self {
        Self {
            framing: Arc::new(Framing::bare(plan)),
            effort: Effort::Unsought,
            ..Self::default()
        }
    }

    /// Whether what this holds follows from the plan.
    pub fn is_sought(&self) -> bool {
        self.effort != Effort::Unsought
    }

    /// How much it holds: moves of cables and uprights, the most of it by far.
    pub fn weight(&self) -> usize {
        let moves = self.ways.ways.iter().map(|way| way.moves.len());
        let walls = self.framing.levels.iter().flat_map(|level| &level.walls);
        moves.sum::<usize>() + walls.map(|wall| wall.studs.len()).sum::<usize>()
    }

    /// As [`Design::of`] for a plan that is light enough for the moment, else [`Design::unsought`].
    ///
    /// ```
    /// use borewright_core::{design::Design, plan::Plan};
    /// assert!(Design::at_once(&Plan::new()).is_sought());
    /// ```
    pub fn at_once(plan: &Plan) -> Self {
        match Load::of(plan).is_light() {
            true => Self::of(plan),
            false => Self::unsought(plan),
        }
    }

    /// As [`Design::after`] for a plan that is light enough for the moment, else [`Design::unsought`].
    pub fn after_at_once(previous: &Self, before: &Plan, plan: &Plan) -> Self {
        match Load::of(plan).is_light() {
            true if previous.is_sought() => Self::after(previous, before, plan),
            true => Self::of(plan),
            false => Self::unsought(plan),
        }
    }

    /// As [`Design::again`] for a plan that is light enough for a frame, else [`Design::unsought`].
    pub fn again_at_once(previous: &Self, before: &Plan, plan: &Plan) -> Self {
        match Load::of(plan).is_light_for_a_frame() {
            true if previous.is_sought() => Self::again(previous, before, plan),
            _ => Self::unsought(plan),
        }
    }

    /// Computes everything for the moment after an edit, beginning with what was known before it:
    /// `previous` is the design of the plan `before` the edit.
    ///
    /// Every cable keeps its way where it still leads from drop to closet, a new one joins where that
    /// costs least, and all are then improved from there. So a plan that the long search has settled
    /// stays near what then settles, and its holes stay where they are. Ways sought from nothing, as
    /// by [`Design::of`], take their place where most of those before lead nowhere and they are clearly
    /// better. Other rules, bits or cables are another price for every way: then all are sought anew.
    pub fn after(previous: &Self, before: &Plan, plan: &Plan) -> Self {
        if before.rules != plan.rules || before.catalogue != plan.catalogue {
            return Self::of(plan);
        }
        let framing = Arc::new(Framing::of(plan));
        let ways = Routing::of(plan, &framing).solve_after(&previous.ways);
        Self::with(plan, framing, ways, (Effort::Live, Look::Brief))
    }

    /// Computes everything for a plan that has changed a little, quickly: for the frames of a drag.
    /// `previous` is the design of the plan `before` the change.
    ///
    /// Every cable keeps its way where it still leads from drop to closet; the others get the best
    /// way given those. All that follows is computed from these ways as in [`Design::of`], so
    /// lengths, bores, counts and findings agree with what is drawn. The ways may be dearer than
    /// those of [`Design::of`], a reel more may be opened, and both depend on the design before: take
    /// that of the plan before the drag for every frame of it, and compute [`Design::after`] on release.
    /// For the same plan it gives the same design again, but for how reels are shared out.
    pub fn again(previous: &Self, before: &Plan, plan: &Plan) -> Self {
        let framing = match before.levels == plan.levels {
            true => Arc::clone(&previous.framing),
            false => Arc::new(Framing::of(plan)),
        };
        let ways = Routing::of(plan, &framing).solve_again(&previous.ways);
        Self::with(plan, framing, ways, (Effort::Live, Look::Glance))
    }

    /// Computes everything for what is printed and handed on: takes seconds for a large house.
    pub fn long(plan: &Plan) -> Self {
        let framing = Arc::new(Framing::of(plan));
        let ways = Routing::of(plan, &framing).improved();
        Self::with(plan, framing, ways, (Effort::Long, Look::Long))
    }

    /// What [`Design::long`] gives, from the [`answer`](Routing::long_answer) that a worker found for
    /// the same plan; `None` if the answer does not hold for this plan.
    ///
    /// ```
    /// use borewright_core::{design::Design, framing::Framing, plan::Plan, route::Routing};
    /// let plan = Plan::new();
    /// let framing = Framing::of(&plan);
    /// let answer = Routing::of(&plan, &framing).long_answer();
    /// assert_eq!(Design::taking(&plan, answer.as_ref()), Some(Design::long(&plan)));
    /// ```
    pub fn taking(plan: &Plan, answer: Option<&Answer>) -> Option<Self> {
        let framing = Arc::new(Framing::of(plan));
        let routing = Routing::of(plan, &framing);
        let ways = match (answer, routing.problem()) {
            (Some(answer), Some(problem)) => {
                answer.check(problem).ok()?;
                routing.tell(answer)
            }
            (None, None) => routing.improved(),
            _ => return None,
        };
        Some(Self::with(plan, framing, ways, (Effort::Long, Look::Long)))
    }

    /// How the holes stand to those on paper; nothing is said of holes that were not sought.
    pub fn since_printed(&self, plan: &Plan) -> SincePrinted {
        match self.is_sought() {
            true => SincePrinted::of(plan, &self.framing, &self.ways, &self.bores),
            false => SincePrinted::default(),
        }
    }

    /// What paper says of this design's holes: its rows with their numbers, and a check sum of all of it.
    pub fn on_paper(&self, plan: &Plan) -> (Vec<PrintedRow>, u32) {
        let rows = bore::rows(plan, &self.framing, &self.ways, &self.bores);
        (rows, bore::sum(&self.framing, &self.ways, &self.bores))
    }

    /// All that follows from the ways, which were sought this hard; reels are sought as hard as that.
    fn with(
        plan: &Plan,
        framing: Arc<Framing>,
        ways: Ways,
        (effort, look): (Effort, Look),
    ) -> Self {
        let cut_list = CutList::of(plan, &ways, look);
        let bores = bore::size(plan, &framing, &ways);
        Self::told(plan, framing, (ways, effort), bores, cut_list)
    }

    /// The same ways and holes for a plan that is built alike, with the numbers that hold in it.
    pub fn renumbered(&self, plan: &Plan) -> Self {
        let mut bores = self.bores.clone();
        bore::number(plan, &self.framing, &self.ways, &mut bores);
        let (framing, ways) = (Arc::clone(&self.framing), self.ways.clone());
        let cut_list = self.cut_list.clone();
        Self::told(plan, framing, (ways, self.effort), bores, cut_list)
    }

    /// All that is told of ways, holes and cut lengths.
    fn told(
        plan: &Plan,
        framing: Arc<Framing>,
        (ways, effort): (Ways, Effort),
        bores: Vec<Bore>,
        cut_list: CutList,
    ) -> Self {
        let drill_list = bore::drill_list(plan, &framing, &ways, &bores);
        let totals = Totals::of(plan, &framing, &ways, &bores, &cut_list);
        let findings = finding::find(plan, &framing, &ways, &bores, &cut_list);
        Self {
            framing,
            ways,
            effort,
            bores,
            drill_list,
            cut_list,
            totals,
            findings,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::sample;

    #[test]
    fn a_design_crosses_to_another_program_whole() {
        for plan in [Plan::new(), sample::house()] {
            for design in [Design::of(&plan), Design::unsought(&plan)] {
                let bytes = postcard::to_allocvec(&design).unwrap();
                assert_eq!(postcard::from_bytes(&bytes), Ok(design));
                let cut = &bytes[..bytes.len() / 2];
                assert!(postcard::from_bytes::<Design>(cut).is_err());
            }
        }
    }

    #[test]
    fn an_answer_is_taken_for_its_own_plan_only() {
        let plan = sample::house();
        let framing = Framing::of(&plan);
        let answer = Routing::of(&plan, &framing).answer(Budget::REPAIR);
        let taken = Design::taking(&plan, answer.as_ref()).unwrap();
        assert_eq!(
            Some(taken.ways.cost),
            answer.as_ref().map(|answer| answer.cost)
        );
        assert_eq!(taken.effort, Effort::Long);
        assert_eq!(Design::taking(&plan, None), None);
        assert_eq!(Design::taking(&Plan::new(), answer.as_ref()), None);
        let cheaper = answer.map(|answer| Answer {
            cost: answer.cost - 1,
            ..answer
        });
        assert_eq!(Design::taking(&plan, cheaper.as_ref()), None);
    }
}
