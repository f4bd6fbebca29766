//! Steel: what protects a bore once it is drilled.

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
        Member::Joist { .. } | Member::Web { .. } | Member::Sheathing | Member::Soffit => 0,
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

/// Members a crossing goes through one after the other. A pair of plates is one drilling.
pub(super) fn members(crossing: &Crossing) -> u32 {
    match &crossing.member {
        Member::Studs(studs) => studs.len() as u32,
        Member::Corner { count, .. } => *count,
        _ => 1,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::Edit;
    use crate::plan::{Lumber, WallId};
    use crate::shape::{Point, Pos};

    fn house(lumber: Lumber, role: Role) -> Plan {
        let (from, to) = (Point::new(0, 0), Point::new(4000, 0));
        let plan = Plan::new();
        let level = plan.levels[0].id;
        plan.apply(&Edit::AddWall {
            level,
            from,
            to,
            lumber,
            role,
        })
        .unwrap()
    }

    fn crossing(member: Member) -> Crossing {
        Crossing {
            wall: Some(WallId(1)),
            offset: 1000.0,
            height: 610.0,
            at: Pos::new(1000.0, 0.0),
            ..Crossing::through(member)
        }
    }

    /// NEC 300.4(A)(1), practice for data: a centred 1 in bore leaves exactly 1-1/4 in a 2x4.
    #[test]
    fn a_stud_needs_steel_on_both_faces_below_the_set_back() {
        let plan = house(Lumber::TwoByFour, Role::Partition);
        let studs = crossing(Member::Studs(vec![3, 4]));
        assert_eq!(nail_plates(&plan, &studs, Size::inches(1.0), 2), 0);
        assert_eq!(nail_plates(&plan, &studs, Size::inches(1.125), 2), 4);
        let wide = house(Lumber::TwoBySix, Role::Partition);
        assert_eq!(nail_plates(&wide, &studs, Size::inches(1.5), 2), 0);
    }

    /// IRC R602.6.1: over half of a top plate's width in a bearing or outside wall.
    #[test]
    fn a_bearing_top_plate_bored_over_half_wants_a_tie() {
        let plates = crossing(Member::TopPlates(2));
        let bearing = house(Lumber::TwoByFour, Role::Bearing);
        assert!(!wants_tie(&bearing, &plates, Size::inches(1.75)));
        assert!(wants_tie(&bearing, &plates, Size::inches(2.0)));
        assert!(!wants_tie(
            &house(Lumber::TwoByFour, Role::Partition),
            &plates,
            Size::inches(2.0)
        ));
        assert!(!wants_tie(
            &bearing,
            &crossing(Member::BottomPlates(1)),
            Size::inches(2.0)
        ));
    }

    #[test]
    fn floor_and_ceiling_level_and_the_garages_wall_are_sealed() {
        let plan = house(Lumber::TwoByFour, Role::Bearing);
        let studs = crossing(Member::Studs(vec![1]));
        assert!(crossing(Member::TopPlates(2)).is_sealed(&plan));
        assert!(crossing(Member::Sheathing).is_sealed(&plan));
        assert!(!studs.is_sealed(&plan));
        let mut wall = plan.levels[0].walls[0];
        wall.garage = true;
        let garage = plan.apply(&Edit::SetWall(wall)).unwrap();
        assert!(studs.is_sealed(&garage));
    }
}
