//! The numbers of the tally: what each is, in which words.

use borewright_core::design::Design;
use borewright_core::plan::Plan;
use borewright_core::units::{Mm, Units, thousands};

use crate::state::Count;

/// One number of the tally.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// Which it is.
    pub count: Count,
    /// The number as written.
    pub number: String,
    /// What it counts.
    pub words: String,
    /// The number as counted, to tell a difference by: cable in millimetres, hours in tenths.
    pub counted: i64,
    /// What one of it is called in a difference: "bore"; empty for cable and hours.
    pub unit: &'static str,
    /// What lengths are written in.
    pub units: Units,
}

/// Every number of the tally but the last, in order.
pub fn figures(plan: &Plan, design: &Design) -> Vec<Figure> {
    let totals = &design.totals;
    let mut all = vec![whole(Count::Drops, totals.drops, "drop")];
    all.extend(totals.cable.iter().map(|total| cable(plan, total)));
    all.push(whole(Count::Reels, totals.reels, "reel"));
    all.push(whole(Count::Bores, totals.bores, "bore"));
    all.push(whole(Count::Plates, totals.nail_plates, "nail plate"));
    all.push(hours(totals.hours));
    all
}

fn whole(count: Count, number: u32, one: &'static str) -> Figure {
    Figure {
        count,
        number: number.to_string(),
        words: plural(i64::from(number), one),
        counted: i64::from(number),
        unit: one,
        units: Units::default(),
    }
}

fn cable(plan: &Plan, total: &borewright_core::schedule::CableTotal) -> Figure {
    let length = plan.units.total(total.length);
    let (number, unit) = length.split_once(' ').unwrap_or((&length, ""));
    let name = plan
        .catalogue
        .cable(total.kind)
        .map_or("cable", |spec| &spec.name);
    Figure {
        count: Count::Cable(total.kind.0),
        number: number.to_string(),
        words: format!("{unit} {name}"),
        counted: i64::from(total.length.0),
        unit: "",
        units: plan.units,
    }
}

fn hours(hours: f64) -> Figure {
    let tenths = (hours * 10.0).round();
    Figure {
        count: Count::Hours,
        number: format!("{:.1}", tenths / 10.0),
        words: String::from("hours"),
        counted: tenths as i64,
        unit: "",
        units: Units::default(),
    }
}

impl Figure {
    /// The difference to what was counted before, in words: "+38 ft", "+1 bore", "−2 h"; `None`
    /// where it does not show in the number as written.
    pub fn difference(&self, before: i64) -> Option<String> {
        let step = self.counted - before;
        let sign = if step > 0 { "+" } else { "−" };
        match self.count {
            Count::Cable(_) => {
                let mm = |length: i64| Mm(i32::try_from(length).unwrap_or(i32::MAX));
                self.units.total_change(mm(before), mm(self.counted))
            }
            _ if step == 0 => None,
            Count::Hours => Some(format!("{sign}{:.1} h", step.abs() as f64 / 10.0)),
            _ => {
                let words = plural(step.abs(), self.unit);
                Some(format!("{sign}{} {words}", thousands(step.abs())))
            }
        }
    }
}

/// "bore" or "bores".
pub fn plural(number: i64, one: &str) -> String {
    match number {
        1 => one.to_string(),
        _ => format!("{one}s"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn differences_are_told_in_the_words_of_the_number() {
        let bores = |number| whole(Count::Bores, number, "bore");
        assert_eq!(bores(4).difference(3).as_deref(), Some("+1 bore"));
        assert_eq!(bores(4).difference(1007).as_deref(), Some("−1,003 bores"));
        assert_eq!(bores(4).difference(4), None);
        assert_eq!(hours(11.52).number, "11.5");
        assert_eq!(hours(11.5).difference(110).as_deref(), Some("+0.5 h"));
    }

    #[test]
    fn an_empty_plan_counts_nothing() {
        let plan = Plan::new();
        let design = Design::of(&plan);
        let figures = figures(&plan, &design);
        assert!(figures.iter().all(|figure| figure.counted == 0));
    }
}
