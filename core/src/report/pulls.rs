//! The cut list and the pulls, as rows of text and as JSON.

use serde_json::{Value, json};

use super::csv::{Row, length, length_unit};
use crate::design::Design;
use crate::plan::{CableId, Plan};
use crate::schedule::{BoxCourse, Chains, Cut, Parted, Pull};

/// The heads of the cut list.
pub(super) const CUT_HEADS: [&str; 12] = [
    "pull",
    "cable",
    "kind",
    "drop",
    "path",
    "slack",
    "waste",
    "cut",
    "unit",
    "reel",
    "leaves after bore",
    "bores from the box",
];

/// One row a cable, in the order of pulling.
pub(super) fn cut_rows(plan: &Plan, design: &Design) -> Vec<Row> {
    let chains = Chains::of(&design.bores);
    let pulls = design.cut_list.pulls.iter();
    let courses = pulls.map(|pull| (pull.number, chains.course(&design.ways, pull)));
    let courses: Vec<_> = courses.collect();
    let row = |cut: &Cut| {
        let course = courses.iter().find(|(number, _)| *number == cut.pull);
        let of_box = course.and_then(|(_, c)| c.boxes.iter().find(|b| b.drop == cut.drop));
        let leaves = of_box.map_or(&[][..], |of_box| &of_box.leaves_after);
        let kind = plan.catalogue.cable(cut.kind);
        let drop = plan.drop(cut.drop);
        let reel = cut.reel.and_then(|reel| design.cut_list.reels.get(reel));
        vec![
            cut.pull.to_string(),
            plan.cable_label(cut.cable),
            kind.map_or(String::new(), |spec| spec.name.clone()),
            drop.map_or(String::new(), |drop| drop.label()),
            length(plan.units, cut.path),
            length(plan.units, cut.slack),
            length(plan.units, cut.waste),
            length(plan.units, cut.length),
            length_unit(plan.units).to_string(),
            reel.map_or(String::new(), |reel| reel.name.clone()),
            spaced(leaves),
            spaced(&chains.of_cable(&design.ways, cut.cable)),
        ]
    };
    design.cut_list.cuts.iter().map(row).collect()
}

fn spaced(numbers: &[u32]) -> String {
    let numbers: Vec<String> = numbers.iter().map(u32::to_string).collect();
    numbers.join(" ")
}

/// One object a cable, in the order of pulling.
pub(super) fn cut_list(plan: &Plan, design: &Design) -> Vec<Value> {
    let chains = Chains::of(&design.bores);
    let row = |cut: &Cut| {
        let drop = plan.drop(cut.drop);
        let reel = cut.reel.and_then(|reel| design.cut_list.reels.get(reel));
        json!({
            "cable": plan.cable_label(cut.cable),
            "drop": drop.map_or_else(String::new, |drop| drop.label()),
            "kind": plan.catalogue.cable(cut.kind).map_or("?", |spec| spec.name.as_str()),
            "path_mm": cut.path.0,
            "slack_mm": cut.slack.0,
            "waste_mm": cut.waste.0,
            "length_mm": cut.length.0,
            "length": plan.units.total(cut.length),
            "pull": cut.pull,
            "reel": reel.map(|reel| reel.name.as_str()),
            "bores": chains.of_cable(&design.ways, cut.cable),
        })
    };
    design.cut_list.cuts.iter().map(row).collect()
}

/// The pulls in their order, and what they take.
pub(super) fn pulls(plan: &Plan, design: &Design) -> Value {
    let tally = design.cut_list.tally(plan, &design.ways);
    let chains = Chains::of(&design.bores);
    let each = design
        .cut_list
        .pulls
        .iter()
        .map(|pull| one(plan, design, &chains, pull));
    json!({
        "boxes_visited_again": tally.visited_again,
        "trunk_walked_mm": tally.walked.0,
        "set_ups": tally.set_ups,
        "pulls": each.collect::<Vec<_>>(),
    })
}

fn one(plan: &Plan, design: &Design, chains: &Chains, pull: &Pull) -> Value {
    let course = chains.course(&design.ways, pull);
    let names = |reels: &[usize]| {
        let reels = reels
            .iter()
            .filter_map(|reel| design.cut_list.reels.get(*reel));
        reels.map(|reel| reel.name.clone()).collect::<Vec<_>>()
    };
    json!({
        "number": pull.number,
        "starts_at": "closet",
        "reels": names(&pull.reels),
        "set_up": names(&pull.set_up),
        "trunk_walked_mm": pull.walked.0,
        "trunk_from_the_closet": course.trunk,
        "bore_that_holds_all": course.holds_all,
        "boxes": course.boxes.iter().map(|of_box| of_box_value(plan, of_box)).collect::<Vec<_>>(),
    })
}

fn of_box_value(plan: &Plan, of_box: &BoxCourse) -> Value {
    let parted = of_box.parted.as_ref().map(|parted| match parted {
        Parted::SideBySide { bores } => json!({ "side_by_side": bores }),
        Parted::OtherWays { after } => json!({ "other_ways_after": after }),
    });
    let cable = |(id, _): &(CableId, Vec<u32>)| plan.cable_label(*id);
    json!({
        "drop": plan.drop(of_box.drop).map_or_else(String::new, |drop| drop.label()),
        "leaves_after": of_box.leaves_after,
        "cables": of_box.chains.iter().map(cable).collect::<Vec<_>>(),
        "parted": parted,
    })
}
