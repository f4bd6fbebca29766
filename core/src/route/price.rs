//! What moves cost, in whole thousandths of a minute, by the contractor's own rates.

use crate::rules::{RuleId, RuleSet};
use crate::units::Size;

/// The rates of a rule set, ready for use.
#[derive(Clone, Debug)]
pub(super) struct Prices {
    /// One millimetre of one cable.
    metre: f64,
    /// One millimetre of trunk to support.
    support: f64,
    pub bore: u32,
    pub corner: u32,
    pub plate: u32,
    pub outside: u32,
    pub seal: u32,
    pub nail_plate: u32,
}

/// A capacity that no bundle fills: supports carry any number of cables.
pub(super) const UNLIMITED: u32 = 1_000_000_000;

impl Prices {
    pub fn of(rules: &RuleSet) -> Self {
        let thousandths = |rule| (rules.value(rule) * 1000.0).round().clamp(0.0, 1e8) as u32;
        let hour = rules.value(RuleId::HourPrice).max(0.01);
        let cable = rules.value(RuleId::CablePrice) / hour * 60.0;
        Self {
            metre: rules.value(RuleId::PullMinutes) + cable,
            support: rules.value(RuleId::SupportMinutes) * 1000.0
                / rules.value(RuleId::Support).max(100.0),
            bore: thousandths(RuleId::BoreMinutes),
            corner: thousandths(RuleId::CornerMinutes),
            plate: thousandths(RuleId::PlateMinutes),
            outside: thousandths(RuleId::OutsideMinutes),
            seal: thousandths(RuleId::SealMinutes),
            nail_plate: thousandths(RuleId::NailPlateMinutes),
        }
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
