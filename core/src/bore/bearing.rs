//! Bores in what bears: what the rule set allows there and how much of it a bore takes, in words for
//! the builder.

use super::{Bore, DrillRow, limit};
use crate::framing::Framing;
use crate::plan::Plan;
use crate::route::{Member, Ways};
use crate::rules::{Rule, RuleId};
use crate::units::Size;

/// What a rule set allows a bore, and how much of it the bore takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Share {
    /// What is allowed, in words: "1-3/8 in", "2-3/4 in without a tie".
    pub limit: String,
    /// The bore over that limit, 0 to 1 and beyond; `None` where the rule set has no figure.
    pub used: Option<f64>,
}

/// What the member of a bore allows and how much of it the bore takes.
///
/// A top plate has no largest bore: its figure is the one over which it wants a tie. An I-joist has none
/// without its maker's chart; bottom plates, sheathing and soffit have none.
pub fn share(plan: &Plan, framing: &Framing, ways: &Ways, bore: &Bore) -> Share {
    let none = |words: &str| Share {
        limit: words.to_string(),
        used: None,
    };
    let Some(crossing) = ways.crossings.get(bore.crossing) else {
        return none("not known");
    };
    let of = |largest: Size| (largest.0 > 0.0).then(|| bore.bit.0 / largest.0);
    match crossing.member {
        Member::TopPlates(_) => {
            let wall = crossing.wall.and_then(|wall| plan.wall(wall));
            let Some((_, wall)) = wall else {
                return none("not known");
            };
            let most = plan.rules.plate_limit(wall.width());
            Share {
                limit: format!("{} without a tie", plan.units.limit(most)),
                used: of(most),
            }
        }
        Member::Web { .. } => none("by the maker's hole chart"),
        Member::BottomPlates(_) | Member::Sheathing | Member::Soffit => {
            none("none in this rule set")
        }
        Member::Studs(_) | Member::Corner { .. } | Member::Joist { .. } => {
            match limit(plan, framing, ways, crossing).largest {
                Some(largest) => Share {
                    limit: plan.units.limit(largest),
                    used: of(largest),
                },
                None => none("none in this rule set"),
            }
        }
    }
}

/// The rules that the bores of some rows come under, each once.
pub fn rules_of_rows(
    plan: &Plan,
    framing: &Framing,
    ways: &Ways,
    bores: &[Bore],
    rows: &[&DrillRow],
) -> Vec<Rule> {
    let mut found: Vec<RuleId> = Vec::new();
    let places = rows.iter().flat_map(|row| &row.bores);
    for bore in places.filter_map(|place| bores.get(*place)) {
        let Some(crossing) = ways.crossings.get(bore.crossing) else {
            continue;
        };
        let rule = limit(plan, framing, ways, crossing).rule;
        let has_figure = share(plan, framing, ways, bore).used.is_some();
        if has_figure && !found.contains(&rule) {
            found.push(rule);
        }
    }
    found.sort();
    found.into_iter().map(|id| plan.rules.rule(id)).collect()
}

/// "9 holes go through what bears: the builder sees them before anyone drills."; `None` where none does.
pub fn bearing_words(plan: &Plan, rows: &[DrillRow]) -> Option<String> {
    let bearing = rows.iter().filter(|row| row.is_in_what_bears(plan));
    let holes: u32 = bearing.map(|row| row.members).sum();
    match holes {
        0 => None,
        1 => Some(String::from(
            "1 hole goes through what bears: the builder sees it before anyone drills.",
        )),
        _ => Some(format!(
            "{holes} holes go through what bears: the builder sees them before anyone drills."
        )),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::picture::sample;

    fn shares(plan: &Plan, design: &Design) -> Vec<(String, Share)> {
        let rows = design.drill_list.iter();
        let bearing = rows.filter(|row| row.is_in_what_bears(plan));
        bearing
            .map(|row| {
                let bore = &design.bores[row.bores[0]];
                let share = share(plan, &design.framing, &design.ways, bore);
                (row.what.clone(), share)
            })
            .collect()
    }

    #[test]
    fn a_bore_over_its_limit_takes_more_than_all_of_it() {
        for seed in 0..8 {
            let plan = crate::plan::edit::sample::plan(seed, 160);
            let design = Design::of(&plan);
            for bore in &design.bores {
                let crossing = &design.ways.crossings[bore.crossing];
                let allowed = limit(&plan, &design.framing, &design.ways, crossing).largest;
                let share = share(&plan, &design.framing, &design.ways, bore);
                if let Some(largest) = allowed.filter(|largest| largest.0 > 0.0) {
                    let within = share.used.is_some_and(|used| used <= 1.0 + 1e-4);
                    assert_eq!(within, bore.bit.within(largest), "{share:?}");
                }
                let over = share.used.is_some_and(|used| used > 1.0 + 1e-4);
                assert!(!bore.tie || over, "a tie is for more than the figure");
            }
        }
    }

    #[test]
    fn a_plate_counts_as_what_bears() {
        let plan = sample::house();
        let design = Design::of(&plan);
        let shares = shares(&plan, &design);
        let plates: Vec<_> = shares
            .iter()
            .filter(|(what, _)| what == "top plates")
            .collect();
        assert!(!plates.is_empty());
        for (_, share) in plates {
            assert!(share.limit.ends_with("without a tie") && share.used.is_some());
        }
        let words = bearing_words(&plan, &design.drill_list).unwrap();
        assert!(words.ends_with("before anyone drills."), "{words}");
        assert_eq!(bearing_words(&plan, &[]), None);
    }
}
