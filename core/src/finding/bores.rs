//! Findings about bores: over the member's limit, over its fill, by the maker's chart, in bearing
//! members.

use super::{Finding, Severity, Subject};
use crate::bore::{Bore, limit, member_name};
use crate::framing::Framing;
use crate::plan::Plan;
use crate::route::{Crossing, Member, Ways};
use crate::rules::RuleId;

pub(super) fn check(plan: &Plan, framing: &Framing, ways: &Ways, bores: &[Bore]) -> Vec<Finding> {
    let mut found = Vec::new();
    let mut last = 0;
    for bore in bores {
        // A row shares its number and says everything once.
        if bore.number == last {
            continue;
        }
        last = bore.number;
        let crossing = &ways.crossings[bore.crossing];
        let checks = [
            over(plan, framing, crossing, bore),
            web(crossing, bore),
            bearing(plan, crossing, bore),
            tie(plan, crossing, bore),
        ];
        found.extend(
            checks
                .into_iter()
                .flatten()
                .map(|f| f.at(crossing.level, crossing.at)),
        );
    }
    found
}

/// A stable name for a bore: what it goes through and where, not its number.
fn key(kind: &str, crossing: &Crossing) -> String {
    let wall = crossing.wall.map_or(0, |wall| wall.0);
    format!("{kind}:{}:W{wall}:{:.0}", crossing.level.0, crossing.offset)
}

fn over(plan: &Plan, framing: &Framing, crossing: &Crossing, bore: &Bore) -> Option<Finding> {
    if bore.within_rules {
        return None;
    }
    let subject = Subject::Bore(bore.number);
    let finding = Finding::new(key("over-limit", crossing), Severity::Stop, subject);
    let allowed = limit(plan, framing, crossing);
    let (bit, member) = (
        plan.units.size(bore.bit),
        member_name(plan, framing, crossing),
    );
    let todo = "Send some cables another way, open another wall, or ask the builder.";
    Some(
        match allowed.largest.filter(|largest| !bore.bit.within(*largest)) {
            Some(largest) => {
                let what = format!(
                    "Bore {}: {} cables want a {bit} bore; this {member} allows {}.",
                    bore.number,
                    bore.cables.len(),
                    plan.units.limit(largest)
                );
                finding
                    .says(what, todo)
                    .by(plan.rules.rule(allowed.rule).source.words())
            }
            None => {
                let rule = plan.rules.fill_rule(bore.cables.len());
                let what = format!(
                    "Bore {}: no bit the crew owns holds its {} cables; a {bit} bore would be {:.0} % full.",
                    bore.number,
                    bore.cables.len(),
                    bore.fill * 100.0
                );
                finding
                    .says(what, todo)
                    .by(plan.rules.rule(rule).source.words())
            }
        },
    )
}

fn web(crossing: &Crossing, bore: &Bore) -> Option<Finding> {
    let is_web = matches!(crossing.member, Member::Web { .. });
    is_web.then(|| {
        Finding::new(
            key("web", crossing),
            Severity::Warn,
            Subject::Bore(bore.number),
        )
        .says(
            format!("Bore {} goes through I-joist webs.", bore.number),
            "Ask for the maker's hole chart before drilling; flanges are never cut.",
        )
        .by("IRC 2018, R502.8.2: as the maker allows")
    })
}

fn bearing(plan: &Plan, crossing: &Crossing, bore: &Bore) -> Option<Finding> {
    let (_, wall) = plan.wall(crossing.wall?)?;
    let studs = matches!(crossing.member, Member::Studs(_) | Member::Corner { .. });
    (studs && wall.role.is_bearing()).then(|| {
        Finding::new(
            key("bearing", crossing),
            Severity::Note,
            Subject::Bore(bore.number),
        )
        .says(
            format!(
                "Bore {} goes through {} studs of {}.",
                bore.number,
                wall.role.name(),
                wall.label()
            ),
            "Show it to the builder before drilling.",
        )
        .by(plan.rules.rule(RuleId::StudBearingBore).source.words())
    })
}

fn tie(plan: &Plan, crossing: &Crossing, bore: &Bore) -> Option<Finding> {
    bore.tie.then(|| {
        Finding::new(
            key("tie", crossing),
            Severity::Warn,
            Subject::Bore(bore.number),
        )
        .says(
            format!(
                "Bore {} takes more than half of a top plate's width.",
                bore.number
            ),
            "Nail a metal tie across the plate, or use smaller bores.",
        )
        .by(plan.rules.rule(RuleId::PlateTie).source.words())
    })
}
