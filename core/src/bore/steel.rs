//! Steel and seals: what protects a bore once it is drilled.

use crate::plan::{Plan, Role};
use crate::route::{Crossing, Member};
use crate::rules::RuleId;
use crate::units::Size;

/// Nail plates a centred bore of this bit needs, over all members of the crossing.
///
/// A stud or corner whose bore leaves less than the set-back on a face gets one plate on that
/// face; a centred bore leaves the same on both. Plates count once a face for a pair of plates.
pub(super) fn nail_plates(plan: &Plan, crossing: &Crossing, bit: Size, members: u32) -> u32 {
    let Some((_, wall)) = crossing.wall.and_then(|id| plan.wall(id)) else {
        return 0;
    };
    let left = Size((wall.width().0 - bit.0) / 2.0);
    if plan.rules.size(RuleId::SetBack).within(left) {
        return 0;
    }
    match crossing.member {
        Member::Studs(_) | Member::Corner { .. } => 2 * members,
        Member::TopPlates(_) | Member::BottomPlates(_) => 2,
        Member::Joist { .. } | Member::Web { .. } | Member::Sheathing => 0,
    }
}

/// Whether a top plate of a bearing or outside wall is bored beyond the share that wants a tie.
pub(super) fn wants_tie(plan: &Plan, crossing: &Crossing, bit: Size) -> bool {
    let Some((_, wall)) = crossing.wall.and_then(|id| plan.wall(id)) else {
        return false;
    };
    let top = matches!(crossing.member, Member::TopPlates(_));
    top && wall.role != Role::Partition && !bit.within(plan.rules.plate_limit(wall.width()))
}

/// Whether a bore is sealed: at floor and ceiling level, and through the outside.
pub(super) fn wants_seal(crossing: &Crossing) -> bool {
    match crossing.member {
        Member::TopPlates(_) | Member::BottomPlates(_) | Member::Sheathing => true,
        Member::Studs(_) | Member::Corner { .. } | Member::Joist { .. } | Member::Web { .. } => {
            false
        }
    }
}

/// Members a crossing goes through one after the other. A pair of plates is one drilling.
pub(super) fn members(crossing: &Crossing) -> u32 {
    match &crossing.member {
        Member::Studs(studs) => studs.len() as u32,
        Member::Corner { count, .. } => *count,
        _ => 1,
    }
}
