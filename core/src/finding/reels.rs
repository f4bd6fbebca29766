//! Findings about reels: cables that none holds, trunks of more cables than there are reels to pull
//! from, reels opened for pulling alone.

use super::{Finding, Severity, Subject};
use crate::plan::{CableId, Plan};
use crate::rules::trade::PULLING_SOURCE;
use crate::schedule::{CutList, KindOfReels};
use crate::units::counted;

pub(super) fn check(plan: &Plan, cuts: &CutList) -> Vec<Finding> {
    let of_kind = |of: &KindOfReels| {
        let name = name(plan, of);
        let long = of.too_long.iter();
        let mut found: Vec<Finding> = long.map(|id| too_long(plan, of, *id)).collect();
        // Where nobody said what lies in the van, the pull sheet says how to pull, and that is all.
        if is_stock_known(plan, of) {
            found.extend(short_of_reels(plan, of, &name));
            found.extend((!of.split.is_empty()).then(|| split(of, &name)));
            found.extend((of.for_pulls > 0).then(|| for_pulls(of, &name)));
        }
        found
    };
    cuts.kinds.iter().flat_map(of_kind).collect()
}

fn is_stock_known(plan: &Plan, of: &KindOfReels) -> bool {
    let spec = plan.catalogue.cable(of.kind);
    spec.is_some_and(|spec| spec.on_hand > 0 || !spec.part_reels.is_empty())
}

fn name(plan: &Plan, of: &KindOfReels) -> String {
    let spec = plan.catalogue.cable(of.kind);
    spec.map_or_else(|| String::from("Cable"), |spec| spec.name.clone())
}

fn too_long(plan: &Plan, of: &KindOfReels, cable: CableId) -> Finding {
    let (label, longest) = (plan.cable_label(cable), plan.units.total(of.longest));
    let key = format!("longer-than-reels:C{}", cable.0);
    Finding::new(key, Severity::Stop, Subject::Cable(cable))
        .says(
            format!("{label} is longer than every reel; the longest holds {longest}."),
            "Order a longer reel and set it under Settings, or move the drop or the closet.",
        )
        .by(PULLING_SOURCE)
}

fn split(of: &KindOfReels, name: &str) -> Finding {
    let trunks = of.split.len();
    let most = of.split.iter().map(|trunk| trunk.cables).max().unwrap_or(0);
    let reels = counted(of.at_hand, "reel");
    let what = match trunks {
        1 => format!("A trunk of {most} {name} cables is larger than the {reels} to pull from."),
        _ => format!(
            "{trunks} trunks of up to {most} {name} cables are larger than the {reels} to pull from."
        ),
    };
    let key = format!("trunk-over-reels:K{}", of.kind.0);
    let todo = format!(
        "Pull them as the pull sheet splits them, or bring {most} reels and set that under Settings."
    );
    Finding::new(key, Severity::Note, Subject::Job)
        .says(what, todo)
        .by(PULLING_SOURCE)
}

/// Fewer full reels lie in the van than are opened.
fn short_of_reels(plan: &Plan, of: &KindOfReels, name: &str) -> Option<Finding> {
    let on_hand = usize::from(plan.catalogue.cable(of.kind)?.on_hand);
    let missing = of
        .new_reels
        .checked_sub(on_hand)
        .filter(|short| *short > 0)?;
    let key = format!("reels-short:K{}", of.kind.0);
    let what = format!(
        "{name} takes {}; {on_hand} {} in the van.",
        counted(of.new_reels, "full reel"),
        if on_hand == 1 { "is" } else { "are" }
    );
    let todo = format!("Bring {missing} more, and set what is in the van under Settings.");
    Some(
        Finding::new(key, Severity::Warn, Subject::Job)
            .says(what, todo)
            .by("the cut list against the reels in the van"),
    )
}

fn for_pulls(of: &KindOfReels, name: &str) -> Finding {
    let key = format!("reels-for-pulls:K{}", of.kind.0);
    let reels = counted(of.for_pulls, "reel");
    Finding::new(key, Severity::Note, Subject::Job)
        .says(
            format!(
                "{reels} of {name} more than the lengths need, so that cables of one pull come from different reels."
            ),
            "Set fewer full reels under Settings if opening one costs more than another pull.",
        )
        .by(PULLING_SOURCE)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::picture::sample;
    use crate::units::Mm;

    fn keys(plan: &Plan) -> Vec<String> {
        let found = Design::of(plan).findings;
        let keys = found.into_iter().map(|finding| finding.key);
        keys.filter(|key| key.contains("reels")).collect()
    }

    #[test]
    fn a_reel_too_short_for_a_cable_stops_the_work() {
        let mut plan = sample::house();
        assert!(keys(&plan).iter().all(|key| !key.starts_with("longer")));
        plan.catalogue.cables.iter_mut().for_each(|spec| {
            spec.reel = Mm(1000);
        });
        let long = keys(&plan)
            .into_iter()
            .filter(|key| key.starts_with("longer"));
        assert_eq!(long.count(), plan.cables().count());
    }

    #[test]
    fn too_few_full_reels_are_told() {
        let mut plan = sample::house();
        let told = |plan: &Plan| {
            let found = Design::of(plan).findings;
            let short = found.iter().find(|f| f.key.starts_with("reels-short"));
            short.map(|f| (f.what.clone(), f.todo.clone()))
        };
        assert_eq!(told(&plan), None, "nobody said what is in the van");
        plan.catalogue.cables.iter_mut().for_each(|spec| {
            (spec.on_hand, spec.reel) = (1, Mm::feet(100.0));
        });
        let (what, todo) = told(&plan).unwrap();
        assert!(what.ends_with("full reels; 1 is in the van."), "{what}");
        assert!(todo.starts_with("Bring "), "{todo}");
        let cables = plan.catalogue.cables.iter_mut();
        cables.for_each(|spec| spec.on_hand = 60);
        assert_eq!(told(&plan), None);
    }

    #[test]
    fn a_trunk_larger_than_the_reels_is_told_until_there_are_enough() {
        let mut plan = sample::house();
        let told = |plan: &Plan| keys(plan).iter().any(|key| key.starts_with("trunk-over"));
        let bring = |plan: &mut Plan, reels: u16| {
            let cables = plan.catalogue.cables.iter_mut();
            cables.for_each(|spec| spec.on_hand = reels);
        };
        assert!(!told(&plan), "nobody said what is in the van");
        bring(&mut plan, 1);
        assert!(told(&plan));
        bring(&mut plan, 40);
        assert!(!told(&plan));
    }
}
