//! Every list of a job as one JSON value: the door for scripts, benchmarks and checks.
//!
//! Lengths are whole millimetres, bits millimetres with decimals, shares 0 to 1. Cables and drops
//! go by their labels. Cost and bound are thousandths of a minute; the bound is null unless it was
//! worked out. The same plan gives the same text on every machine.

pub mod csv;
mod place;
mod pulls;
mod site;

use serde_json::{Value, json};

use crate::design::{Design, Effort};
use crate::finding::Finding;
use crate::plan::Plan;
use crate::route::words;
use crate::schedule::Price;

/// Totals, drill list, cut list, pulls, ways, the record of the site and findings of a plan.
pub fn report(plan: &Plan, design: &Design) -> Value {
    json!({
        "title": plan.title,
        "revision": plan.revision,
        "rules": plan.rules.name(),
        "totals": totals(plan, design),
        "drill_list": drill_list(plan, design),
        "cut_list": pulls::cut_list(plan, design),
        "pulls": pulls::pulls(plan, design),
        "reels": reels(design),
        "effort": match design.effort {
            Effort::Unsought => "not sought",
            Effort::Live => "live",
            Effort::Long => "long",
        },
        "cost": design.ways.cost,
        "bound": design.ways.bound,
        "reels_by_kind": reels_by_kind(plan, design),
        "ways": ways(plan, design),
        "record": site::record(plan, design),
        "findings": design.findings.iter().map(finding).collect::<Vec<_>>(),
    })
}

fn totals(plan: &Plan, design: &Design) -> Value {
    let totals = &design.totals;
    let name = |kind| {
        plan.catalogue
            .cable(kind)
            .map_or("?", |spec| spec.name.as_str())
    };
    json!({
        "drops": totals.drops,
        "cables": totals.cables,
        "cable": totals.cable.iter().map(|total| json!({
            "kind": name(total.kind),
            "cables": total.cables,
            "length_mm": total.length.0,
            "reels": total.reels,
        })).collect::<Vec<_>>(),
        "reels": totals.reels,
        "bores": totals.bores,
        "bores_by_bit": totals.by_bit.iter().map(|(bit, count)| json!({
            "bit_mm": millimetres(bit.0),
            "bit": plan.units.size(*bit),
            "bores": count,
        })).collect::<Vec<_>>(),
        "nail_plates": totals.nail_plates,
        "ties": totals.ties,
        "seals": totals.seals,
        "supports": totals.supports,
        "brackets": totals.brackets,
        "blocking": totals.blocking,
        "boxes_by_others": totals.boxes_by_others,
        "faceplates": totals.faceplates,
        "keystones": totals.keystones,
        "hours": (totals.hours * 100.0).round() / 100.0,
        "cost_thousandths": design.ways.cost,
        "price_thousandths": price(&totals.price),
    })
}

fn price(price: &Price) -> Value {
    json!({
        "cable": price.laid.cable,
        "bores": price.bores,
        "supports": price.laid.supports,
        "beside_power": price.laid.beside_power,
        "unheld": price.unheld,
        "difference": price.difference,
    })
}

fn drill_list(plan: &Plan, design: &Design) -> Vec<Value> {
    let row = |row: &crate::bore::DrillRow| {
        json!({
            "number": row.number,
            "level": plan.level(row.level).map_or("?", |level| level.name.as_str()),
            "what": row.what,
            "where": row.location,
            "place": row.whereabouts.as_ref().map(place::coordinates),
            "member": row.member,
            "members": row.members,
            "bit_mm": millimetres(row.bit.0),
            "bit": plan.units.size(row.bit),
            "height": row.height,
            "cables": row.cables.iter().map(|cable| plan.cable_label(*cable)).collect::<Vec<_>>(),
            "fill": (row.fill * 1000.0).round() / 1000.0,
            "nail_plates": row.nail_plates,
            "ties": row.ties,
            "seals": row.seals,
        })
    };
    design.drill_list.iter().map(row).collect()
}

fn reels(design: &Design) -> Vec<Value> {
    let reel = |reel: &crate::schedule::Reel| {
        json!({
            "name": reel.name,
            "length_mm": reel.length.0,
            "left_mm": reel.left.0,
            "part": reel.part,
        })
    };
    design.cut_list.reels.iter().map(reel).collect()
}

fn reels_by_kind(plan: &Plan, design: &Design) -> Vec<Value> {
    let kind = |of: &crate::schedule::KindOfReels| {
        json!({
            "kind": plan.catalogue.cable(of.kind).map_or("?", |spec| spec.name.as_str()),
            "new_reels": of.new_reels,
            "fewest_possible": of.fewest_possible,
            "to_pull_from": of.at_hand,
            "opened_for_pulls": of.for_pulls,
            "trunks_split": of.split.iter().map(|trunk| json!({
                "cables": trunk.cables,
                "pulls": trunk.pulls,
            })).collect::<Vec<_>>(),
            "too_long": of.too_long.iter().map(|id| plan.cable_label(*id)).collect::<Vec<_>>(),
        })
    };
    design.cut_list.kinds.iter().map(kind).collect()
}

fn ways(plan: &Plan, design: &Design) -> Vec<Value> {
    let way = |way: &crate::route::Way| {
        json!({
            "cable": plan.cable_label(way.cable),
            "length_mm": way.length.0,
            "words": words(plan, &design.framing, &design.ways, way),
            "found": way.trouble.is_none(),
        })
    };
    design.ways.ways.iter().map(way).collect()
}

fn finding(finding: &Finding) -> Value {
    json!({
        "key": finding.key,
        "severity": finding.severity.name(),
        "what": finding.what,
        "todo": finding.todo,
        "source": finding.source,
        "set_aside": finding.dismissed,
    })
}

fn millimetres(size: f64) -> f64 {
    (size * 1000.0).round() / 1000.0
}
