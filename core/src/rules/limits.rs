//! What a member of given size allows, by the rules in force. Knows sizes, not walls.

use super::{RuleId, RuleSet};
use crate::units::{Area, Size};

impl RuleSet {
    /// Largest bore in a stud of this width: the share of its width, and the edge distance left
    /// on both sides of a centred bore, whichever is less.
    pub fn stud_limit(&self, width: Size, bearing: bool, doubled: bool) -> Size {
        let share = match (bearing, doubled) {
            (false, _) => RuleId::StudOtherBore,
            (true, true) => RuleId::StudDoubledBore,
            (true, false) => RuleId::StudBearingBore,
        };
        let by_share = width.0 * self.share(share);
        let by_edge = width.0 - 2.0 * self.value(RuleId::StudEdge);
        Size(by_share.min(by_edge).max(0.0))
    }

    /// Largest bore in a sawn joist of this depth: the share of its depth, and the edge distance
    /// left on both sides of a centred bore, whichever is less.
    pub fn joist_limit(&self, depth: Size) -> Size {
        let by_share = depth.0 * self.share(RuleId::JoistBore);
        let by_edge = depth.0 - 2.0 * self.value(RuleId::JoistEdge);
        Size(by_share.min(by_edge).max(0.0))
    }

    /// Largest bore in a plate of this width that needs no tie.
    pub fn plate_limit(&self, width: Size) -> Size {
        Size(width.0 * self.share(RuleId::PlateTie))
    }

    /// How full a bore may be with this many cables, 0 to 1.
    pub fn fill_limit(&self, cables: usize) -> f64 {
        if self.value(RuleId::FillByCount) < 0.5 {
            return self.share(RuleId::Fill);
        }
        self.share(match cables {
            0 | 1 => RuleId::FillOne,
            2 => RuleId::FillTwo,
            _ => RuleId::FillMore,
        })
    }

    /// How many equal cables a round opening holds by fill alone, never rounded up; the limit is
    /// that of their own number, so two that pass at 40 % are held to 31 % where fill goes by count.
    pub fn cables_held(&self, opening: Size, cable: Size) -> usize {
        let share = |count: usize| count as f64 * cable.circle().0 / opening.circle().0;
        let most = (1.0 / share(1)).clamp(0.0, 10_000.0) as usize;
        let fits = |count: &usize| share(*count) <= self.fill_limit(*count) + 1e-9;
        (1..=most).rev().find(fits).unwrap_or(0)
    }

    /// The rule that limits fill with this many cables.
    pub fn fill_rule(&self, cables: usize) -> RuleId {
        match (self.value(RuleId::FillByCount) < 0.5, cables) {
            (true, _) => RuleId::Fill,
            (_, 0 | 1) => RuleId::FillOne,
            (_, 2) => RuleId::FillTwo,
            _ => RuleId::FillMore,
        }
    }

    /// The distance from power cable of this many circuits under which it is warned of: one
    /// distance for all, or the distance at factor one times the factor of the circuits
    /// (EN 50174-2, power factor table, 20 A circuits of one phase).
    pub fn power_distance(&self, circuits: u8) -> Size {
        if self.value(RuleId::PowerByCircuits) < 0.5 {
            return self.size(RuleId::PowerWarn);
        }
        let factor = match circuits {
            0..=3 => 0.2,
            4..=6 => 0.4,
            7..=9 => 0.6,
            10..=12 => 0.8,
            13..=15 => 1.0,
            16..=30 => 2.0,
            31..=45 => 3.0,
            46..=60 => 4.0,
            61..=75 => 5.0,
            _ => 6.0,
        };
        Size(self.value(RuleId::PowerSegregation) * factor)
    }

    /// The rule that sets the distance from power cable.
    pub fn power_rule(&self) -> RuleId {
        match self.value(RuleId::PowerByCircuits) < 0.5 {
            true => RuleId::PowerWarn,
            false => RuleId::PowerSegregation,
        }
    }

    /// Cable area a bore of this diameter holds when it carries many cables.
    pub fn bore_capacity(&self, bore: Size) -> Area {
        Area(bore.circle().0 * self.fill_limit(3))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Units;

    /// IRC R602.6 with dressed sizes of PS 20, computed in the reference: 2x4, 2x6 and 2x8.
    #[test]
    fn stud_limits_are_those_of_the_model_code() {
        let rules = RuleSet::default();
        for (width, bearing, other) in [
            (3.5, "1-3/8 in", "2-1/16 in"),
            (5.5, "2-3/16 in", "3-1/4 in"),
            (7.25, "2-7/8 in", "4-5/16 in"),
        ] {
            let limit = |bearing| rules.stud_limit(Size::inches(width), bearing, false);
            assert_eq!(Units::Imperial.limit(limit(true)), bearing);
            assert_eq!(Units::Imperial.limit(limit(false)), other);
        }
    }

    /// IRC R502.8.1, computed in the reference; the 2 in edge rule governs a 2x6, and a 2x12
    /// allows exactly 3-3/4 in.
    #[test]
    fn joist_limits_are_those_of_the_model_code() {
        let rules = RuleSet::default();
        for (depth, limit) in [
            (5.5, "1-1/2 in"),
            (7.25, "2-3/8 in"),
            (9.25, "3-1/16 in"),
            (11.25, "3-3/4 in"),
            (3.5, "0 in"),
        ] {
            let found = rules.joist_limit(Size::inches(depth));
            assert_eq!(Units::Imperial.limit(found), limit, "{depth}");
        }
        assert!(Size::inches(3.75).within(rules.joist_limit(Size::inches(11.25))));
    }

    /// EN 50174-2, worked in a handbook: Cat 6 unscreened beside up to three circuits 20 mm,
    /// beside five 40 mm.
    #[test]
    fn distance_from_power_grows_with_circuits_where_the_book_says_so() {
        let kingdom = RuleSet::of(crate::rules::RuleBook::UnitedKingdom);
        assert_eq!(kingdom.power_distance(3), Size(20.0));
        assert_eq!(kingdom.power_distance(5), Size(40.0));
        assert_eq!(kingdom.power_distance(20), Size(200.0));
        let states = RuleSet::default();
        assert_eq!(states.power_distance(20), Size::inches(2.0));
    }

    #[test]
    fn two_cables_are_held_to_thirty_one_per_cent_where_fill_goes_by_count() {
        let mut rules = RuleSet::default();
        assert_eq!(rules.fill_limit(2), 0.4);
        rules.changed.insert(RuleId::FillByCount, 1.0);
        assert_eq!([1, 2, 3].map(|n| rules.fill_limit(n)), [0.53, 0.31, 0.4]);
    }
}
