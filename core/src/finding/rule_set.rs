//! Findings about the rule set itself: limits for which practice stands in.

use super::{Finding, Severity, Subject};
use crate::plan::Plan;
use crate::rules::{RuleId, Trust};

/// The limits a builder asks about first, with their names.
const LIMITS: [(RuleId, &str); 6] = [
    (RuleId::StudBearingBore, "bearing studs"),
    (RuleId::StudOtherBore, "other studs"),
    (RuleId::PlateTie, "plate ties"),
    (RuleId::JoistBore, "joists"),
    (RuleId::JoistSpacing, "spacing in joists"),
    (RuleId::SetBack, "wood in front of a bore"),
];

pub(super) fn check(plan: &Plan) -> Option<Finding> {
    let practised = |(id, _): &&(RuleId, &str)| {
        let source = plan.rules.rule(*id).source;
        source.trust == Trust::Practice && !source.document.is_empty()
    };
    let names: Vec<&str> = LIMITS.iter().filter(practised).map(|(_, n)| *n).collect();
    let (last, rest) = names.split_last()?;
    let list = match rest {
        [] => (*last).to_string(),
        rest => format!("{} and {last}", rest.join(", ")),
    };
    let book = plan.rules.speaking().name();
    let finding = Finding::new(format!("practice:{book}"), Severity::Warn, Subject::Job);
    Some(
        finding
            .says(
                format!("No published figure was read for {book}: {list} go by common practice."),
                "Ask the builder or look in the local code, and type the figures into the settings.",
            )
            .by(plan.rules.rule(RuleId::StudBearingBore).source.words()),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::Edit;
    use crate::rules::RuleBook;

    #[test]
    fn a_book_nobody_read_says_so_until_the_figures_are_ones_own() {
        assert_eq!(check(&Plan::new()), None);
        let canada = Plan::new().apply(&Edit::SetRuleBook(RuleBook::Canada));
        let canada = canada.unwrap();
        let what = check(&canada).unwrap().what;
        assert!(what.contains("Canada") && what.contains("joists"), "{what}");
        let own = LIMITS.map(|(id, _)| Edit::SetRule(id, 30.0)).to_vec();
        let own = canada.apply(&Edit::Together(own)).unwrap();
        assert_eq!(check(&own), None);
    }
}
