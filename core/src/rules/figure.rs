//! A rule's figure as a person reads and writes it. Judges nothing: that is for the edit.

use super::{Rule, Unit};
use crate::units::{Size, Units, read_size};

impl Rule {
    /// The figure with its unit: "2 in", "40 %", "1.5 min".
    pub fn show(&self, units: Units) -> String {
        let plain = |value: f64| format!("{}", (value * 1000.0).round() / 1000.0);
        match self.unit {
            Unit::Millimetre => units.size(Size(self.value)),
            Unit::Percent => format!("{} %", plain(self.value)),
            Unit::Minute => format!("{} min", plain(self.value)),
            Unit::Money | Unit::Count => plain(self.value),
        }
    }

    /// The figure a person wrote for this rule, with or without its unit, in the rule's unit.
    ///
    /// # Errors
    /// One sentence for what is no figure; a figure out of range is refused by the edit.
    pub fn read(&self, text: &str, units: Units) -> Result<f64, String> {
        if self.unit == Unit::Millimetre {
            return read_size(text, units)
                .map(|size| size.0)
                .map_err(|error| error.to_string());
        }
        let bare = text.trim().trim_end_matches('%').trim_end();
        let bare = bare.trim_end_matches("minutes").trim_end_matches("min");
        let figure = bare.trim().replace(',', ".").parse::<f64>();
        let like = self.show(units);
        figure
            .ok()
            .filter(|figure| figure.is_finite())
            .ok_or_else(|| {
                let text = text.trim();
                format!("\u{201c}{text}\u{201d} is not a figure. Write it like {like}.")
            })
    }
}

#[cfg(test)]
mod tests {
    use crate::rules::{RuleId, RuleSet};
    use crate::units::Units;

    #[test]
    fn a_figure_reads_as_it_is_shown() {
        for &id in RuleId::ALL {
            let rule = RuleSet::default().rule(id);
            let shown = rule.show(Units::Metric);
            let read = rule.read(&shown, Units::Metric).unwrap();
            assert!((read - rule.value).abs() < 0.06, "{id:?}: {shown}");
        }
    }

    #[test]
    fn what_is_no_figure_gets_a_sentence() {
        let fill = RuleSet::default().rule(RuleId::Fill);
        assert_eq!(fill.read(" 53% ", Units::Imperial), Ok(53.0));
        for text in ["", "forty", "inf", "4 0"] {
            let trouble = fill.read(text, Units::Imperial).unwrap_err();
            assert!(trouble.contains("like 40 %"), "{trouble}");
        }
        let edge = RuleSet::default().rule(RuleId::StudEdge);
        assert!(
            edge.read("-1", Units::Imperial)
                .unwrap_err()
                .contains("below zero")
        );
    }
}
