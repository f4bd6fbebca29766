//! The work one bore of a crossing takes, by the contractor's own rates: one rule for the router, which
//! weighs ways by it, and for the lists, which add it up. Chooses no bit, and no steel.

use super::{Crossing, Member};
use crate::plan::Plan;
use crate::rules::RuleId;

impl Crossing {
    /// Minutes to drill and seal one bore.
    pub fn minutes(&self, plan: &Plan) -> f64 {
        let seal = match self.is_sealed(plan) {
            true => plan.rules.value(RuleId::SealMinutes),
            false => 0.0,
        };
        self.drill_minutes(plan) + seal
    }

    /// Minutes to drill one bore: every stud of a row is drilled by itself, and so is each board of a
    /// doubled one; a corner, a pair of plates and the outside are one drilling each.
    pub fn drill_minutes(&self, plan: &Plan) -> f64 {
        let (rate, times) = match &self.member {
            Member::Studs(studs) => (RuleId::BoreMinutes, studs.len() as u32),
            Member::Joist { .. } | Member::Web { .. } => (RuleId::BoreMinutes, 1),
            Member::Corner { .. } => (RuleId::CornerMinutes, 1),
            Member::TopPlates(_) | Member::BottomPlates(_) => (RuleId::PlateMinutes, 1),
            Member::Sheathing | Member::Soffit => (RuleId::OutsideMinutes, 1),
        };
        plan.rules.value(rate) * f64::from(times)
    }

    /// Whether a bore is sealed: at floor and ceiling level, through the outside, and everywhere in a
    /// wall that separates the garage.
    pub fn is_sealed(&self, plan: &Plan) -> bool {
        let separates = |wall| plan.wall(wall).is_some_and(|(_, wall)| wall.garage);
        match self.member {
            Member::TopPlates(_) | Member::BottomPlates(_) | Member::Sheathing | Member::Soffit => {
                true
            }
            Member::Corner { to, .. } => self.wall.is_some_and(separates) || separates(to),
            Member::Studs(_) => self.wall.is_some_and(separates),
            Member::Joist { .. } | Member::Web { .. } => false,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_stud_counts_and_plates_count_once() {
        let plan = Plan::new();
        let minutes = |member| Crossing::through(member).drill_minutes(&plan);
        let one = plan.rules.value(RuleId::BoreMinutes);
        assert_eq!(minutes(Member::Studs(vec![4, 5, 6])), 3.0 * one);
        assert_eq!(
            minutes(Member::TopPlates(2)),
            plan.rules.value(RuleId::PlateMinutes)
        );
    }
}
