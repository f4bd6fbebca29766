//! The hours of a job by part of the work.

use super::Totals;
use crate::bore::Bore;
use crate::plan::Plan;
use crate::route::{Crossing, Ways};
use crate::rules::RuleId;

/// Hours of one person by part of the work, at the contractor's own minutes.
///
/// A label is counted at both ends of a cable and written before it is pulled; jacks and tests are work
/// of after paint.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Hours {
    /// Brackets set.
    pub boxes: f64,
    /// Blocking nailed for brackets that hang between two studs.
    pub blocking: f64,
    /// Bores drilled.
    pub drilling: f64,
    /// Supports hung.
    pub supports: f64,
    /// Both ends of every cable labelled.
    pub labels: f64,
    /// Cable pulled.
    pub pulling: f64,
    /// Nail plates and ties put on.
    pub steel: f64,
    /// Bores sealed.
    pub seals: f64,
    /// Cable terminated and tested.
    pub terminating: f64,
}

impl Hours {
    /// The hours of what is counted.
    pub fn of(plan: &Plan, ways: &Ways, bores: &[Bore], totals: &Totals) -> Self {
        let hours = |count: f64, rate| count * plan.rules.value(rate) / 60.0;
        let steel = hours(
            f64::from(totals.nail_plates + totals.ties),
            RuleId::NailPlateMinutes,
        );
        let seals = hours(f64::from(totals.seals), RuleId::SealMinutes);
        let crossings = bores
            .iter()
            .filter_map(|bore| ways.crossings.get(bore.crossing));
        // Whole thousandths and whole millimetres, so that no order shows in the last digit.
        let thousandths =
            |crossing: &Crossing| (crossing.drill_minutes(plan) * 1000.0).round() as i64;
        let drilling: i64 = crossings.map(thousandths).sum();
        let millimetres: i64 = ways.ways.iter().map(|way| i64::from(way.length.0)).sum();
        let cables = f64::from(totals.cables);
        let brackets: u32 = totals.brackets.iter().sum();
        Self {
            boxes: hours(f64::from(brackets), RuleId::BoxMinutes),
            blocking: hours(f64::from(totals.blocking), RuleId::BlockingMinutes),
            drilling: drilling as f64 / 60_000.0,
            supports: hours(f64::from(totals.supports), RuleId::SupportMinutes),
            labels: hours(2.0 * cables, RuleId::LabelMinutes),
            pulling: hours(millimetres as f64 / 1000.0, RuleId::PullMinutes),
            steel,
            seals,
            terminating: hours(cables, RuleId::TerminateMinutes),
        }
    }

    /// All of them.
    pub fn all(&self) -> f64 {
        self.rough_in() + self.trim_out()
    }

    /// Before cover.
    pub fn rough_in(&self) -> f64 {
        let first = self.boxes + self.blocking + self.drilling + self.supports + self.labels;
        first + self.pulling + self.steel + self.seals
    }

    /// After paint.
    pub fn trim_out(&self) -> f64 {
        self.terminating
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::picture::sample;

    fn hours(plan: &Plan, design: &Design) -> Hours {
        Hours::of(plan, &design.ways, &design.bores, &design.totals)
    }

    #[test]
    fn the_parts_are_the_whole() {
        let mut plans = vec![sample::house(), Plan::new()];
        plans.extend((0..6).map(|seed| crate::plan::edit::sample::plan(seed, 120)));
        for plan in plans {
            let design = Design::of(&plan);
            let hours = hours(&plan, &design);
            let whole = hours.rough_in() + hours.trim_out();
            assert!((whole - design.totals.hours).abs() < 1e-9, "{hours:?}");
            let price = design.totals.price.bores as f64 / 60_000.0;
            let bored = hours.drilling + hours.steel + hours.seals;
            assert!((bored - price).abs() < 1e-9, "{hours:?}");
        }
    }

    #[test]
    fn a_house_takes_both() {
        let plan = sample::house();
        let hours = hours(&plan, &Design::of(&plan));
        assert!(hours.rough_in() > hours.trim_out() && hours.trim_out() > 0.0);
        assert!(hours.drilling > 0.0 && hours.pulling > 0.0);
    }
}
