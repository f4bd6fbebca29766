//! Findings about joists right over or under what comes out of a plate or a ceiling.

use super::{Finding, Severity, Subject};
use crate::bore::{Bore, from_joist, in_joists};
use crate::framing::Framing;
use crate::plan::{Drop, Place, Plan};
use crate::route::{Member, Ways};

const SOURCE: &str = "common practice, no source";

pub(super) fn check(plan: &Plan, framing: &Framing, ways: &Ways, bores: &[Bore]) -> Vec<Finding> {
    let plates = in_joists(framing, ways, bores).into_iter();
    let plates = plates.filter_map(|place| plate(plan, framing, ways, bores.get(place)?));
    let drops = plan.drops.iter();
    let drops = drops.filter_map(|drop| ceiling(framing, drop));
    plates.chain(drops).collect()
}

fn plate(plan: &Plan, framing: &Framing, ways: &Ways, bore: &Bore) -> Option<Finding> {
    let crossing = ways.crossings.get(bore.crossing)?;
    let (_, wall) = plan.wall(crossing.wall?)?;
    let (place, end) = match crossing.member {
        Member::TopPlates(_) => ("under", "top"),
        _ => ("over", "bottom"),
    };
    let key = format!(
        "under-joist:{}:{}:{:.0}:{end}:{}",
        crossing.level.0,
        wall.label(),
        crossing.offset,
        bore.part
    );
    let at = framing.wall(wall.id)?.line.at(bore.offset, 0.0);
    let what = format!(
        "Bore {} in the {end} plates of {} is right {place} a joist.",
        bore.number,
        wall.label()
    );
    let todo = "Move the drop to a wall or bay that is clear of it, or bore beside the joist where the \
                plate is wide enough.";
    let finding = Finding::new(key, Severity::Warn, Subject::Bore(bore.number));
    Some(finding.at(crossing.level, at).says(what, todo).by(SOURCE))
}

fn ceiling(framing: &Framing, drop: &Drop) -> Option<Finding> {
    let Place::Ceiling { at } = drop.place else {
        return None;
    };
    let space = framing.level(drop.level)?.above?;
    let right_under = from_joist(framing.spaces.get(space)?, at.pos()) < 0.0;
    right_under.then(|| {
        let label = drop.label();
        Finding::new(
            format!("ceiling-joist:{label}"),
            Severity::Note,
            Subject::Drop(drop.id),
        )
        .at(drop.level, at.pos())
        .says(
            format!("{label} is right under a joist."),
            "Move it beside the joist, so that its cable comes down free.",
        )
        .by(SOURCE)
    })
}
