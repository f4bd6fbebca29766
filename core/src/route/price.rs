//! What moves cost, in whole thousandths of a minute, by the contractor's own rates.

use crate::rules::{RuleId, RuleSet};

/// The rates of a rule set, ready for use.
#[derive(Clone, Debug)]
pub(super) struct Prices {
    /// One millimetre of one cable.
    metre: f64,
    /// One millimetre of trunk to support.
    support: f64,
    /// How often cable counts that runs along power.
    beside_power: f64,
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
            beside_power: rules.share(RuleId::BesidePower).max(1.0),
        }
    }

    /// One cable over a length in millimetres: a metre for a minute is a thousandth a millimetre.
    pub fn cable(&self, length: f64) -> u32 {
        (length * self.metre).round().clamp(0.0, 1e9) as u32
    }

    /// The same, where power runs along nearer than is noted: so much dearer that it goes round by a wall or
    /// two.
    pub fn cable_beside_power(&self, length: f64) -> u32 {
        (f64::from(self.cable(length)) * self.beside_power)
            .round()
            .clamp(0.0, 1e9) as u32
    }

    /// Supports along a length in millimetres.
    pub fn supports(&self, length: f64) -> u32 {
        (length * self.support).round().clamp(0.0, 1e9) as u32
    }
}
