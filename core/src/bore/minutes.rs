//! How long one bore of a crossing takes to drill.

use crate::plan::Plan;
use crate::route::{Crossing, Member};
use crate::rules::RuleId;

/// Minutes to drill one bore through a crossing, by the contractor's own rates: every stud of a
/// row is drilled by itself, a corner, a pair of plates and the outside are one drilling each.
pub fn drill_minutes(plan: &Plan, crossing: &Crossing) -> f64 {
    let (rate, times) = match &crossing.member {
        Member::Studs(studs) => (RuleId::BoreMinutes, studs.len() as u32),
        Member::Joist { .. } | Member::Web { .. } => (RuleId::BoreMinutes, 1),
        Member::Corner { .. } => (RuleId::CornerMinutes, 1),
        Member::TopPlates(_) | Member::BottomPlates(_) => (RuleId::PlateMinutes, 1),
        Member::Sheathing | Member::Soffit => (RuleId::OutsideMinutes, 1),
    };
    plan.rules.value(rate) * f64::from(times)
}

/// Minutes to seal one bore.
pub(super) fn seal_minutes(plan: &Plan) -> f64 {
    plan.rules.value(RuleId::SealMinutes)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::LevelId;
    use crate::shape::Pos;

    #[test]
    fn each_stud_counts_and_plates_count_once() {
        let plan = Plan::new();
        let minutes = |member| {
            let crossing = Crossing {
                member,
                wall: None,
                level: LevelId(1),
                offset: 0.0,
                height: 0.0,
                at: Pos::default(),
                cables: Vec::new(),
            };
            drill_minutes(&plan, &crossing)
        };
        let one = plan.rules.value(RuleId::BoreMinutes);
        assert_eq!(minutes(Member::Studs(vec![4, 5, 6])), 3.0 * one);
        assert_eq!(
            minutes(Member::TopPlates(2)),
            plan.rules.value(RuleId::PlateMinutes)
        );
    }
}
