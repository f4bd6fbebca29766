//! What moves cost, in whole thousandths of a minute, by the contractor's own rates.

use super::way::{Crossing, Member};
use crate::plan::Plan;
use crate::rules::{RuleId, RuleSet};
use crate::units::Size;

/// The rates of a rule set, ready for use.
#[derive(Clone, Debug)]
pub(super) struct Prices {
    /// One millimetre of one cable.
    metre: f64,
    /// One millimetre of trunk to support.
    support: f64,
    pub nail_plate: u32,
}

/// Minutes in thousandths.
fn thousandths(minutes: f64) -> u32 {
    (minutes * 1000.0).round().clamp(0.0, 1e8) as u32
}

/// A capacity that no bundle fills: supports carry any number of cables.
pub(super) const UNLIMITED: u32 = 1_000_000_000;

impl Prices {
    pub fn of(rules: &RuleSet) -> Self {
        let hour = rules.value(RuleId::HourPrice).max(0.01);
        let cable = rules.value(RuleId::CablePrice) / hour * 60.0;
        Self {
            metre: rules.value(RuleId::PullMinutes) + cable,
            support: rules.value(RuleId::SupportMinutes) * 1000.0
                / rules.value(RuleId::Support).max(100.0),
            nail_plate: thousandths(rules.value(RuleId::NailPlateMinutes)),
        }
    }

    /// One bore of a crossing, drilled and sealed; its steel is extra. What the maker's chart decides is
    /// priced double, and asked about.
    pub fn bore(plan: &Plan, crossing: &Crossing) -> u32 {
        let chart = matches!(crossing.member, Member::Web { .. });
        let times = if chart { 2.0 } else { 1.0 };
        thousandths(crossing.minutes(plan) * times)
    }

    /// One cable over a length in millimetres: a metre for a minute is a thousandth a millimetre.
    pub fn cable(&self, length: f64) -> u32 {
        (length * self.metre).round().clamp(0.0, 1e9) as u32
    }

    /// Supports along a length in millimetres.
    pub fn supports(&self, length: f64) -> u32 {
        (length * self.support).round().clamp(0.0, 1e9) as u32
    }
}

/// The largest of the crew's bits within a limit, and the cable area it holds in hundredths of a
/// square millimetre. `None` where no bit is within the limit.
pub(super) fn capacity(rules: &RuleSet, bits: &[Size], limit: Size) -> Option<(Size, u32)> {
    let bit = bits.iter().rev().find(|bit| bit.within(limit))?;
    let area = rules.bore_capacity(*bit).0 * 100.0;
    Some((*bit, area.floor().clamp(1.0, 1e9) as u32))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn price(member: Member) -> u32 {
        Prices::bore(&Plan::new(), &Crossing::through(member))
    }

    /// By the book's own minutes: 1.5 a board, 4 a corner, 3 a pair of plates and 2 to seal it. A
    /// doubled stud is two boards; a web is asked about, at twice 1.5.
    #[test]
    fn a_bore_is_priced_by_the_wood_it_goes_through() {
        assert_eq!(price(Member::Studs(vec![4])), 1500);
        assert_eq!(price(Member::Studs(vec![4, 5])), 3000);
        let to = crate::plan::WallId(2);
        assert_eq!(price(Member::Corner { count: 3, to }), 4000);
        assert_eq!(price(Member::TopPlates(2)), 5000);
        assert_eq!(price(Member::Joist { space: 0 }), 1500);
        assert_eq!(price(Member::Web { space: 0 }), 3000);
    }
}
