//! Figures read for the United Kingdom: separation from power. Limits of timber were not read
//! anywhere; common practice stands in for them and says so.

use super::{Rule, RuleId, Source, Trust, Unit};

const SOURCE: Source = Source {
    document: "EN 50174-2, as printed in a handbook of 2017",
    section: "separation table",
    trust: Trust::Read,
};

/// The published figure, or `None` where this book is silent and practice speaks.
pub(super) fn rule(id: RuleId) -> Option<Rule> {
    let (value, unit, name) = match id {
        RuleId::PowerByCircuits => (
            1.0,
            Unit::Count,
            "distance from power by number of circuits: 0 no, 1 yes",
        ),
        RuleId::PowerSegregation => (
            100.0,
            Unit::Millimetre,
            "distance from power at factor one (unscreened cable, no barrier)",
        ),
        _ => return None,
    };
    Some(Rule {
        value,
        unit,
        name,
        source: SOURCE,
    })
}
