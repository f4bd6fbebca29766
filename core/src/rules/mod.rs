//! Every limit and default the computation uses, each with its value, unit and source.
//!
//! A [`RuleSet`] is a published [`RuleBook`] as it stands, or the person's own copy of one with
//! the figures they changed. Nothing here decides; it only says what the figure is and where it
//! comes from.

mod book;
mod figure;
mod limits;
mod practice;
pub mod trade;
mod united_kingdom;
mod united_states;

use std::collections::BTreeMap;

pub use book::{RuleBook, RuleId};

/// How far a figure can be trusted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trust {
    /// Read in a stored copy of a page that quotes the document.
    Read,
    /// Worked out from other figures.
    Computed,
    /// From memory; not read anywhere.
    Memory,
    /// Common practice of the trade, no source.
    Practice,
    /// The person's own figure.
    Own,
}

/// Where a figure comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Source {
    /// Document and edition; for practice the book it stands in for, empty where none is expected.
    pub document: &'static str,
    /// Section; empty where none is known.
    pub section: &'static str,
    /// How far to trust it.
    pub trust: Trust,
}

impl Source {
    /// The source in words, as every finding and sheet prints it.
    pub fn words(&self) -> String {
        match self.trust {
            Trust::Practice if self.document.is_empty() => {
                String::from("common practice, no source")
            }
            Trust::Practice => format!(
                "common practice, no source (no figure was read for {})",
                self.document
            ),
            Trust::Own => String::from("your own figure"),
            Trust::Memory => format!("{}, from memory", self.cited()),
            Trust::Read | Trust::Computed => self.cited(),
        }
    }

    fn cited(&self) -> String {
        match self.section {
            "" => self.document.to_string(),
            section => format!("{}, {section}", self.document),
        }
    }
}

/// What a figure is counted in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Millimetres.
    Millimetre,
    /// Per cent.
    Percent,
    /// Minutes of work.
    Minute,
    /// Money, in whatever currency the contractor thinks in.
    Money,
    /// A plain count.
    Count,
}

/// One figure with its meaning and source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rule {
    /// The figure, in `unit`.
    pub value: f64,
    /// What it is counted in.
    pub unit: Unit,
    /// What it limits or sets, in words.
    pub name: &'static str,
    /// Where it comes from.
    pub source: Source,
}

/// The figures a plan is computed with: a published book, or the person's own copy of one.
///
/// Limits a person changed belong to their own copy and rest while a published book is in force,
/// so that they can go back to it. What is no book's matter (the crew's fill, heights, slack,
/// rates) is in force under every book.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RuleSet {
    /// The published book chosen, or last chosen.
    pub book: RuleBook,
    /// Whether the person's own copy is in force rather than the published book.
    pub own: bool,
    /// The book the person's own copy was begun from.
    pub basis: RuleBook,
    /// Figures a person changed.
    pub changed: BTreeMap<RuleId, f64>,
}

impl RuleSet {
    /// A published book as it stands.
    pub fn of(book: RuleBook) -> Self {
        Self {
            book,
            basis: book,
            ..Self::default()
        }
    }

    /// What the set is called, on screen and on paper.
    pub fn name(&self) -> String {
        match self.own {
            true => format!("my own, begun from {}", self.basis.name()),
            false => self.book.name().to_string(),
        }
    }

    /// The book that speaks where the person did not.
    pub fn speaking(&self) -> RuleBook {
        match self.own {
            true => self.basis,
            false => self.book,
        }
    }

    /// Whether the person changed limits, be they in force or resting.
    pub fn has_own_limits(&self) -> bool {
        self.changed.keys().any(|id| id.is_limit())
    }

    /// The rule in force: the book's, or the person's own figure for it.
    pub fn rule(&self, id: RuleId) -> Rule {
        let published = self.speaking().rule(id);
        let own = self.changed.get(&id);
        match own.filter(|_| self.own || !id.is_limit()) {
            Some(&value) => Rule {
                value,
                source: Source {
                    document: "",
                    section: "",
                    trust: Trust::Own,
                },
                ..published
            },
            None => published,
        }
    }

    /// The figure in force.
    pub fn value(&self, id: RuleId) -> f64 {
        self.rule(id).value
    }

    /// The figure in force as a length in whole millimetres.
    pub fn length(&self, id: RuleId) -> crate::units::Mm {
        crate::units::Mm::rounded(self.value(id))
    }

    /// The figure in force as a fine size.
    pub fn size(&self, id: RuleId) -> crate::units::Size {
        crate::units::Size(self.value(id))
    }

    /// The figure in force as a share: 40 % is 0.4.
    pub fn share(&self, id: RuleId) -> f64 {
        self.value(id) / 100.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_own_figure_says_so() {
        let mut rules = RuleSet::default();
        assert_eq!(rules.value(RuleId::StudBearingBore), 40.0);
        assert!(
            rules
                .rule(RuleId::StudBearingBore)
                .source
                .words()
                .contains("R602.6")
        );
        rules.changed.insert(RuleId::StudBearingBore, 35.0);
        assert_eq!(rules.value(RuleId::StudBearingBore), 40.0, "it rests");
        rules.own = true;
        assert_eq!(rules.value(RuleId::StudBearingBore), 35.0);
        assert_eq!(
            rules.name(),
            "my own, begun from United States, model codes"
        );
        assert_eq!(
            rules.rule(RuleId::StudBearingBore).source.words(),
            "your own figure"
        );
    }

    #[test]
    fn every_rule_has_a_name_and_a_positive_figure() {
        let pairs = RuleBook::ALL
            .iter()
            .flat_map(|book| RuleId::ALL.iter().map(|id| (*book, *id)));
        for (book, id) in pairs {
            let rule = RuleSet::of(book).rule(id);
            assert!(!rule.name.is_empty());
            assert!(rule.value >= 0.0 && rule.value.is_finite(), "{id:?}");
            assert!(!rule.source.words().is_empty());
        }
    }
}
