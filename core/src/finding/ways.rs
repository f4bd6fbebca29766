//! Findings about ways: none, too long, beside power, or through something only its maker allows.

use super::{Finding, Severity, Subject};
use crate::framing::Framing;
use crate::plan::{Above, Drop, Place, Plan};
use crate::route::{NoWay, Way, Ways, beside_power, trouble_words};
use crate::rules::RuleId;

pub(super) fn check(plan: &Plan, framing: &Framing, ways: &Ways) -> Vec<Finding> {
    let mut found = Vec::new();
    if plan.closet.is_none() && !plan.drops.is_empty() {
        found.push(
            Finding::new(String::from("no-closet"), Severity::Stop, Subject::Job)
                .says(
                    "There is no closet, so no cable has an end.",
                    "Place the closet every cable comes home to.",
                )
                .by("ANSI/TIA-570, star topology"),
        );
    }
    for drop in &plan.drops {
        let troubled = ways
            .ways
            .iter()
            .find(|way| way.drop == drop.id && way.trouble.is_some());
        found.extend(troubled.and_then(|way| trouble(plan, way)));
    }
    found.extend(power(plan, framing, ways));
    found
}

fn trouble(plan: &Plan, way: &Way) -> Option<Finding> {
    let drop = plan.drop(way.drop)?;
    let trouble = way.trouble.as_ref()?;
    let label = drop.label();
    let (kind, todo, source) = match trouble {
        NoWay::NoCloset => return None,
        NoWay::Adrift => (
            "adrift",
            String::from("Drag it onto the wall it belongs to."),
            String::from("geometry"),
        ),
        NoWay::Cut(_) => (
            "no-way",
            to_open(plan, drop),
            String::from("the framing as drawn"),
        ),
        NoWay::TooLong(_) => (
            "too-long",
            String::from("Move the closet nearer, or plan a second one."),
            plan.rules.rule(RuleId::LinkLength).source.words(),
        ),
    };
    let finding = Finding::new(
        format!("{kind}:{label}"),
        Severity::Stop,
        Subject::Drop(drop.id),
    );
    let finding = finding
        .says(format!("{label}: {}", trouble_words(plan, trouble)), todo)
        .by(source);
    Some(finding.at_drop(plan, drop))
}

/// What to do where a drop is cut off.
fn to_open(plan: &Plan, drop: &Drop) -> String {
    let level = plan.level(drop.level);
    let on_ceiling = matches!(drop.place, Place::Ceiling { .. });
    match level.filter(|level| on_ceiling && level.above == Above::CLOSED) {
        Some(level) => format!(
            "State how the rafters over {} run, and its cable comes along a rafter bay; or move it to a wall.",
            level.name
        ),
        None => {
            String::from("Move it, open a wall for drilling, or change what is above or below.")
        }
    }
}

/// Cables that run beside power nearer or longer than the rules want.
fn power(plan: &Plan, framing: &Framing, ways: &Ways) -> Vec<Finding> {
    let beside = beside_power(plan, framing, ways);
    let finding = |beside: crate::route::Beside| {
        let (severity, rule) = match beside.near {
            true => (Severity::Warn, plan.rules.power_rule()),
            false => (Severity::Note, RuleId::PowerParallel),
        };
        let apart = plan.units.limit(plan.rules.size(rule));
        let where_to = match rule {
            RuleId::PowerSegregation => String::from("nearer than its circuits ask to"),
            _ => format!("within {apart} of"),
        };
        Finding::new(
            format!("power:{}", beside.name),
            severity,
            Subject::Cable(beside.cable),
        )
        .at(beside.level, beside.at)
        .says(
            format!(
                "{} run {where_to} power cable in {}.",
                beside.cables, beside.name
            ),
            "Shift the lane, or cross the power cable squarely.",
        )
        .by(plan.rules.rule(rule).source.words())
    };
    beside.into_iter().map(finding).collect()
}
