//! What boring a member takes, by the contractor's own rates: one rule for the router, which weighs ways
//! by it, for bores, which are split by it, and for the lists, which add it up. Chooses no bit.

use super::bits::Bits;
use super::limit::Limit;
use super::network;
use super::{Crossing, Member};
use crate::framing::Framing;
use crate::plan::{Plan, Role};
use crate::rules::RuleId;
use crate::units::Size;

/// What decides the bores of a crossing and what they cost.
#[derive(Clone, Debug, PartialEq)]
pub struct Work {
    /// What the member allows.
    pub limit: Limit,
    /// Members gone through one after the other. A pair of plates is one drilling.
    pub members: u32,
    /// Whether a bore is sealed.
    pub is_sealed: bool,
    /// Minutes to drill and seal one bore; its steel is extra.
    pub minutes: f64,
    /// Minutes to nail one steel plate or tie.
    nailing: f64,
    /// The largest bit that leaves the set-back on both faces of a centred bore; `None` where no steel is
    /// nailed.
    bare: Option<Size>,
    /// Steel plates of a bore beyond that.
    plates: u32,
    /// The largest bit that wants no tie; `None` where none is nailed.
    untied: Option<Size>,
}

/// Minutes in thousandths.
fn thousandths(minutes: f64) -> u32 {
    (minutes * 1000.0).round().clamp(0.0, 1e7) as u32
}

impl Work {
    /// Of a crossing, whose studs count as doubled or not.
    pub fn of(plan: &Plan, framing: &Framing, crossing: &Crossing, doubled: bool) -> Self {
        let rate = |rule| plan.rules.value(rule);
        let members = crossing.members();
        let is_sealed = crossing.is_sealed(plan);
        let sealing = if is_sealed {
            rate(RuleId::SealMinutes)
        } else {
            0.0
        };
        let wall = crossing.wall.and_then(|id| plan.wall(id));
        let width = wall.map(|(_, wall)| wall.width());
        let plates = crossing.plates();
        let top = matches!(crossing.member, Member::TopPlates(_));
        let is_tied = wall.is_some_and(|(_, wall)| top && wall.role != Role::Partition);
        Self {
            limit: crossing.limit(plan, framing, doubled),
            members,
            is_sealed,
            minutes: crossing.drill_minutes(plan) + sealing,
            nailing: rate(RuleId::NailPlateMinutes),
            bare: width
                .filter(|_| plates > 0)
                .map(|width| Size(width.0 - 2.0 * rate(RuleId::SetBack))),
            plates,
            untied: width
                .filter(|_| is_tied)
                .map(|width| plan.rules.plate_limit(width)),
        }
    }

    /// Nail plates a centred bore of this bit needs, over all members.
    ///
    /// A stud or corner whose bore leaves less than the set-back on a face gets one plate on that
    /// face; a centred bore leaves the same on both. Plates count once a face for a pair of plates.
    pub fn nail_plates(&self, bit: Size) -> u32 {
        match self.bare {
            Some(bare) if !bit.within(bare) => self.plates,
            _ => 0,
        }
    }

    /// Whether a top plate of a bearing or outside wall is bored beyond the share that wants a tie.
    pub fn wants_tie(&self, bit: Size) -> bool {
        self.untied.is_some_and(|untied| !bit.within(untied))
    }

    /// What a bore of this bit costs, steel and tie with it, in thousandths of a minute.
    pub fn price(&self, bit: Size) -> u32 {
        let steel = self.nail_plates(bit) + u32::from(self.wants_tie(bit));
        thousandths(self.minutes + self.nailing * f64::from(steel))
    }

    /// What the crossing costs by what goes through it; `None` where no bit is within the limit.
    pub fn tariff(&self, bits: &mut Bits) -> Option<network::Crossing> {
        let mut kinds: Vec<network::Bore> = Vec::new();
        for (bit, price) in self.widest_bits(bits) {
            let capacity = bits.capacity(bit);
            let is_wider = kinds.last().is_none_or(|last| capacity > last.capacity);
            if is_wider {
                kinds.push(network::Bore { price, capacity });
            }
        }
        network::Crossing::dealt(&kinds)
    }

    /// Of the bits that cost the same the widest within the limit, the cheapest first.
    fn widest_bits(&self, bits: &Bits) -> Vec<(Size, u32)> {
        let limit = self.limit.largest;
        let within = |bit: &&Size| limit.is_none_or(|limit| bit.within(limit));
        let priced = bits.owned().iter().filter(within);
        let mut widest: Vec<(Size, u32)> = Vec::new();
        for (bit, price) in priced.map(|bit| (*bit, self.price(*bit))) {
            match widest.last_mut() {
                Some(last) if last.1 == price => last.0 = bit,
                _ => widest.push((bit, price)),
            }
        }
        widest
    }
}

impl Crossing {
    /// Minutes to drill one bore: every stud of a row is drilled by itself, and so is each board of a
    /// doubled one; a corner, a pair of plates and the outside are one drilling each. What the maker's
    /// chart decides is looked up there first.
    pub fn drill_minutes(&self, plan: &Plan) -> f64 {
        let rate = |rule| plan.rules.value(rule);
        match &self.member {
            Member::Studs(studs) => rate(RuleId::BoreMinutes) * f64::from(studs.len() as u32),
            Member::Joist { .. } => rate(RuleId::BoreMinutes),
            Member::Web { .. } => rate(RuleId::BoreMinutes) + rate(RuleId::ChartMinutes),
            Member::Corner { .. } => rate(RuleId::CornerMinutes),
            Member::TopPlates(_) | Member::BottomPlates(_) => rate(RuleId::PlateMinutes),
            Member::Sheathing | Member::Soffit => rate(RuleId::OutsideMinutes),
        }
    }

    /// Members gone through one after the other. A pair of plates is one drilling.
    pub fn members(&self) -> u32 {
        match &self.member {
            Member::Studs(studs) => studs.len() as u32,
            Member::Corner { count, .. } => *count,
            _ => 1,
        }
    }

    /// Steel plates of a bore that leaves too little wood.
    fn plates(&self) -> u32 {
        match self.member {
            Member::Studs(_) | Member::Corner { .. } => 2 * self.members(),
            Member::TopPlates(_) | Member::BottomPlates(_) => 2,
            Member::Joist { .. } | Member::Web { .. } | Member::Sheathing | Member::Soffit => 0,
        }
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
    use crate::plan::edit::Edit;
    use crate::plan::{Lumber, WallId};
    use crate::shape::Point;

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

    fn work(plan: &Plan, member: Member) -> Work {
        let crossing = Crossing {
            wall: Some(WallId(1)),
            ..Crossing::through(member)
        };
        Work::of(plan, &Framing::of(plan), &crossing, false)
    }

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

    /// By the book's own minutes: 1.5 a board, 4 a corner, 3 a pair of plates and 2 to seal it. A
    /// doubled stud is two boards; a web is looked up in its maker's chart, which takes 1.5 more.
    #[test]
    fn a_bore_is_priced_by_the_wood_it_goes_through() {
        let plan = Plan::new();
        let price = |member| {
            let crossing = Crossing::through(member);
            let work = Work::of(&plan, &Framing::of(&plan), &crossing, false);
            work.price(Size::inches(0.75))
        };
        assert_eq!(price(Member::Studs(vec![4])), 1500);
        assert_eq!(price(Member::Studs(vec![4, 5])), 3000);
        let to = WallId(2);
        assert_eq!(price(Member::Corner { count: 3, to }), 4000);
        assert_eq!(price(Member::TopPlates(2)), 5000);
        assert_eq!(price(Member::Joist { space: 0 }), 1500);
        assert_eq!(price(Member::Web { space: 0 }), 3000);
    }

    /// NEC 300.4(A)(1), practice for data: a centred 1 in bore leaves exactly 1-1/4 in a 2x4. Steel is one
    /// minute a plate, and what needs none costs none.
    #[test]
    fn steel_on_both_faces_is_paid_below_the_set_back_and_only_there() {
        let plan = house(Lumber::TwoByFour, Role::Partition);
        let studs = work(&plan, Member::Studs(vec![3, 4]));
        let (one, wide) = (Size::inches(1.0), Size::inches(1.125));
        assert_eq!((studs.nail_plates(one), studs.nail_plates(wide)), (0, 4));
        assert_eq!((studs.price(one), studs.price(wide)), (3000, 7000));
        let plates = work(&plan, Member::BottomPlates(1));
        assert_eq!(
            (plates.price(Size::inches(0.625)), plates.price(wide)),
            (5000, 7000)
        );
        let six = house(Lumber::TwoBySix, Role::Partition);
        let studs = work(&six, Member::Studs(vec![3, 4]));
        assert_eq!(studs.nail_plates(Size::inches(1.5)), 0);
    }

    /// IRC R602.6.1: over half of a top plate's width in a bearing or outside wall.
    #[test]
    fn a_bearing_top_plate_bored_over_half_wants_a_tie() {
        let tied = |role, member, inches| {
            let plan = house(Lumber::TwoByFour, role);
            work(&plan, member).wants_tie(Size::inches(inches))
        };
        assert!(!tied(Role::Bearing, Member::TopPlates(2), 1.75));
        assert!(tied(Role::Bearing, Member::TopPlates(2), 2.0));
        assert!(!tied(Role::Partition, Member::TopPlates(2), 2.0));
        assert!(!tied(Role::Bearing, Member::BottomPlates(1), 2.0));
    }

    /// By hand for Cat 6 of 28.27 mm2 at 40 % fill: 1 in bare holds 202.7 mm2, 1-1/2 in with steel 456.0.
    #[test]
    fn the_tariff_of_plates_has_a_bare_kind_and_one_with_steel() {
        let plan = house(Lumber::TwoByFour, Role::Bearing);
        let tariff = work(&plan, Member::TopPlates(2)).tariff(&mut Bits::of(&plan));
        let kinds: Vec<_> = tariff.unwrap().kinds().collect();
        let plain: Vec<_> = kinds
            .iter()
            .map(|kind| (kind.price, kind.capacity))
            .collect();
        assert_eq!(plain, [(5000, 20_268), (7000, 45_603)]);
    }

    #[test]
    fn floor_and_ceiling_level_and_the_garages_wall_are_sealed() {
        let plan = house(Lumber::TwoByFour, Role::Bearing);
        let sealed = |plan: &Plan, member| work(plan, member).is_sealed;
        assert!(sealed(&plan, Member::TopPlates(2)));
        assert!(sealed(&plan, Member::Sheathing));
        assert!(!sealed(&plan, Member::Studs(vec![1])));
        let mut wall = plan.levels[0].walls[0];
        wall.garage = true;
        let garage = plan.apply(&Edit::SetWall(wall)).unwrap();
        assert!(sealed(&garage, Member::Studs(vec![1])));
    }
}
