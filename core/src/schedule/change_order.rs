//! What a later version of a job adds and removes, against an earlier one: the change order.
//!
//! Drops and cables are told apart by identity, which is never used twice, so that one that moved is
//! not one removed and one added. Counts come from the totals of both; nothing is priced.

use std::collections::BTreeSet;

use super::Totals;
use crate::framing::drop_room;
use crate::plan::{CableId, Drop, Plan};
use crate::units::{Mm, Units, thousands};

/// How two versions differ.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ChangeOrder {
    /// Revision of the earlier version and of the later one.
    pub revisions: (u32, u32),
    /// Every drop that differs, in the order of their numbers.
    pub drops: Vec<DropChange>,
    /// Every count that differs, in the order of the tally.
    pub counts: Vec<CountChange>,
}

/// What became of a drop.
#[derive(Clone, Debug, PartialEq)]
pub struct DropChange {
    /// Its label.
    pub label: String,
    /// What it is and where: "outlet, Bedroom 1".
    pub what: String,
    /// What became of it: "added, 2 cables", "removed, 1 cable", "moved", "1 cable more".
    pub change: String,
}

/// A count before and after.
#[derive(Clone, Debug, PartialEq)]
pub struct CountChange {
    /// What is counted.
    pub what: String,
    /// Before.
    pub before: String,
    /// After.
    pub after: String,
    /// The difference, with its sign.
    pub difference: String,
}

impl ChangeOrder {
    /// How the later version differs from the earlier. Nothing in it when nothing does.
    pub fn between(before: (&Plan, &Totals), after: (&Plan, &Totals)) -> Self {
        let mut numbers: BTreeSet<u32> = before.0.drops.iter().map(|drop| drop.id.0).collect();
        numbers.extend(after.0.drops.iter().map(|drop| drop.id.0));
        let drop = |plan: &Plan, number: u32| {
            let found = plan.drops.iter().find(|drop| drop.id.0 == number);
            found.cloned()
        };
        let changes = numbers.iter().filter_map(|number| {
            let (old, new) = (drop(before.0, *number), drop(after.0, *number));
            drop_change((before.0, old.as_ref()), (after.0, new.as_ref()))
        });
        Self {
            revisions: (before.0.revision, after.0.revision),
            drops: changes.collect(),
            counts: counts(before, after),
        }
    }

    /// Whether nothing differs.
    pub fn is_empty(&self) -> bool {
        self.drops.is_empty() && self.counts.is_empty()
    }
}

fn drop_change(
    (old_plan, old): (&Plan, Option<&Drop>),
    (new_plan, new): (&Plan, Option<&Drop>),
) -> Option<DropChange> {
    let (plan, drop, change) = match (old, new) {
        (None, Some(new)) => (
            new_plan,
            new,
            format!("added, {}", cables(new.cables.len())),
        ),
        (Some(old), None) => (
            old_plan,
            old,
            format!("removed, {}", cables(old.cables.len())),
        ),
        (Some(old), Some(new)) => (new_plan, new, altered((old_plan, old), (new_plan, new))?),
        (None, None) => return None,
    };
    let room = drop_room(plan, drop).map(|room| format!(", {}", room.name));
    Some(DropChange {
        label: drop.label(),
        what: format!("{}{}", drop.kind.name(), room.unwrap_or_default()),
        change,
    })
}

/// What differs of a drop that is in both versions; `None` when nothing does that costs work.
fn altered((old_plan, old): (&Plan, &Drop), (new_plan, new): (&Plan, &Drop)) -> Option<String> {
    let mut said = Vec::new();
    if old.kind != new.kind {
        said.push(format!(
            "{} instead of {}",
            new.kind.name(),
            old.kind.name()
        ));
    }
    let place = |plan: &Plan, drop: &Drop| drop.place.position(plan).map(|at| at.point());
    if (old.level, place(old_plan, old)) != (new.level, place(new_plan, new)) {
        said.push(String::from("moved"));
    }
    if let (Some(from), Some(to)) = (old.height(), new.height())
        && from != to
    {
        let units = new_plan.units;
        said.push(format!(
            "at {} instead of {}",
            units.height(to),
            units.height(from)
        ));
    }
    if (old.fixing, old.gangs) != (new.fixing, new.gangs) {
        said.push(String::from("another box"));
    }
    said.extend(cable_changes(old, new));
    (!said.is_empty()).then(|| said.join(", "))
}

fn cable_changes(old: &Drop, new: &Drop) -> Vec<String> {
    let kind = |drop: &Drop, id: CableId| {
        let cable = drop.cables.iter().find(|cable| cable.id == id);
        cable.map(|cable| cable.kind)
    };
    let count = |one: &Drop, other: &Drop, is_meant: &dyn Fn(CableId) -> bool| {
        let ids = one.cables.iter().map(|cable| cable.id);
        ids.filter(|id| is_meant(*id) && kind(other, *id) != kind(one, *id))
            .count()
    };
    let more = count(new, old, &|id| kind(old, id).is_none());
    let fewer = count(old, new, &|id| kind(new, id).is_none());
    let other = count(new, old, &|id| kind(old, id).is_some());
    let said = [(more, "more"), (fewer, "fewer"), (other, "of another kind")];
    let said = said.into_iter().filter(|(count, _)| *count > 0);
    said.map(|(count, words)| format!("{} {words}", cables(count)))
        .collect()
}

fn cables(count: usize) -> String {
    let plural = if count == 1 { "" } else { "s" };
    format!("{count} cable{plural}")
}

fn counts(
    (old_plan, old): (&Plan, &Totals),
    (new_plan, new): (&Plan, &Totals),
) -> Vec<CountChange> {
    let (was, is) = (old, new);
    let units = new_plan.units;
    let mut all = vec![
        whole("drops", was.drops, is.drops),
        whole("cables", was.cables, is.cables),
    ];
    all.extend(lengths((old_plan, old), (new_plan, new), units));
    all.extend([
        whole("new reels", was.reels, is.reels),
        whole("bores", was.bores, is.bores),
        whole("steel nail plates", was.nail_plates, is.nail_plates),
        whole("plate ties", was.ties, is.ties),
        whole("seals", was.seals, is.seals),
        whole("supports", was.supports, is.supports),
        whole("jacks", was.keystones, is.keystones),
        hours(was.hours, is.hours),
    ]);
    all.into_iter().flatten().collect()
}

fn whole(what: &str, before: u32, after: u32) -> Option<CountChange> {
    let step = i64::from(after) - i64::from(before);
    (step != 0).then(|| CountChange {
        what: what.to_string(),
        before: thousands(i64::from(before)),
        after: thousands(i64::from(after)),
        difference: signed(step, &thousands(step.abs())),
    })
}

/// Cable to cut by the name of its kind, so that a kind added to the catalogue moves no other.
fn lengths(
    (old_plan, old): (&Plan, &Totals),
    (new_plan, new): (&Plan, &Totals),
    units: Units,
) -> Vec<Option<CountChange>> {
    let of = |plan: &Plan, totals: &Totals| -> Vec<(String, Mm)> {
        let total = |total: &super::CableTotal| {
            let spec = plan.catalogue.cable(total.kind)?;
            Some((spec.name.clone(), total.length))
        };
        totals.cable.iter().filter_map(total).collect()
    };
    let (was, is) = (of(old_plan, old), of(new_plan, new));
    let mut names: Vec<&String> = is.iter().chain(&was).map(|(name, _)| name).collect();
    let mut seen = BTreeSet::new();
    names.retain(|name| seen.insert(name.as_str()));
    let length = |all: &[(String, Mm)], name: &String| {
        let found = all.iter().find(|(known, _)| known == name);
        found.map_or(Mm(0), |(_, length)| *length)
    };
    let change = |name: &String| {
        let (before, after) = (length(&was, name), length(&is, name));
        let step = i64::from(after.0) - i64::from(before.0);
        (step != 0).then(|| CountChange {
            what: name.clone(),
            before: units.total(before),
            after: units.total(after),
            difference: signed(
                step,
                &units.total(Mm(step.unsigned_abs().min(i32::MAX as u64) as i32)),
            ),
        })
    };
    names.into_iter().map(change).collect()
}

fn hours(before: f64, after: f64) -> Option<CountChange> {
    let tenths = |hours: f64| (hours * 10.0).round() as i64;
    let step = tenths(after) - tenths(before);
    let words = |tenths: i64| format!("{}.{}", tenths / 10, tenths % 10);
    (step != 0).then(|| CountChange {
        what: String::from("hours"),
        before: words(tenths(before)),
        after: words(tenths(after)),
        difference: signed(step, &words(step.abs())),
    })
}

fn signed(step: i64, size: &str) -> String {
    format!("{}{size}", if step > 0 { "+" } else { "−" })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::picture::sample;
    use crate::plan::CableKindId;
    use crate::plan::edit::Edit;

    fn between(before: &Plan, after: &Plan) -> ChangeOrder {
        let totals = |plan: &Plan| Design::of(plan).totals;
        ChangeOrder::between((before, &totals(before)), (after, &totals(after)))
    }

    fn difference<'a>(order: &'a ChangeOrder, what: &str) -> &'a str {
        let found = order.counts.iter().find(|count| count.what == what);
        found.map_or("", |count| count.difference.as_str())
    }

    #[test]
    fn a_version_does_not_differ_from_itself() {
        let plan = sample::house();
        assert!(between(&plan, &plan).is_empty());
    }

    #[test]
    fn what_is_added_one_way_is_removed_the_other() {
        let plan = sample::house();
        let drop = plan.drops[0].clone();
        let later = plan.apply(&Edit::RemoveDrop(drop.id)).unwrap();
        let removed = between(&plan, &later);
        let added = between(&later, &plan);
        assert_eq!(removed.drops.len(), 1);
        assert_eq!(removed.drops[0].label, drop.label());
        assert!(removed.drops[0].change.starts_with("removed, "));
        assert!(added.drops[0].change.starts_with("added, "));
        assert_eq!(difference(&removed, "drops"), "−1");
        assert_eq!(difference(&added, "drops"), "+1");
        let flipped = |order: &ChangeOrder| -> Vec<(String, String)> {
            let counts = order.counts.iter();
            counts
                .map(|count| (count.before.clone(), count.after.clone()))
                .collect()
        };
        let back: Vec<_> = flipped(&added).into_iter().map(|(a, b)| (b, a)).collect();
        assert_eq!(flipped(&removed), back);
    }

    #[test]
    fn another_cable_and_another_height_are_told_of_their_drop() {
        let plan = sample::house();
        let drop = plan
            .drops
            .iter()
            .find(|drop| drop.height().is_some())
            .unwrap();
        let mut place = drop.place;
        if let crate::plan::Place::Wall { height, .. }
        | crate::plan::Place::Outside { height, .. } = &mut place
        {
            *height = *height + Mm(50);
        }
        let later = plan
            .apply(&Edit::AddCable(drop.id, CableKindId::CAT6))
            .and_then(|plan| plan.apply(&Edit::MoveDrop(drop.id, place)))
            .unwrap();
        let order = between(&plan, &later);
        let change = &order.drops[0].change;
        assert!(
            change.contains(" instead of ") && change.contains("1 cable more"),
            "{change}"
        );
        assert_eq!(difference(&order, "cables"), "+1");
        assert!(difference(&order, "hours").starts_with('+'));
    }
}
