//! Single edits spread over a house: a drop taken out, moved along its wall, or placed; and how near
//! a tally is to what then settles.

use borewright_core::design::Design;
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{DropKind, Place, Plan, Side};
use borewright_core::units::Mm;

/// How far a drop is moved, millimetres.
const MOVE: i32 = 500;

/// How high an outlet is placed, millimetres to its centre: 16 in.
const HEIGHT: Mm = Mm(406);

/// The plan after each of up to so many removals, moves and placings, with what was done.
pub fn single_edits(plan: &Plan, each: usize) -> Vec<(String, Plan)> {
    let kinds: [Vec<(String, Edit)>; 3] = [removals(plan), moves(plan), placings(plan)];
    let made = |kind: Vec<(String, Edit)>| {
        let all = kind.into_iter();
        let all = all.filter_map(|(words, edit)| Some((words, plan.apply(&edit).ok()?)));
        spread(all.collect(), each)
    };
    kinds.into_iter().flat_map(made).collect()
}

/// Whether nobody would tell the tallies apart: cable within 1 % and bores within one.
pub fn near(live: &Design, settled: &Design) -> bool {
    let cable = |design: &Design| -> f64 {
        let kinds = design.totals.cable.iter();
        kinds.map(|kind| kind.length.f64()).sum()
    };
    let (cable, then) = (cable(live), cable(settled));
    let bores = live.totals.bores.abs_diff(settled.totals.bores);
    (cable - then).abs() <= then / 100.0 && bores <= 1
}

/// Some of them, from the first to the last.
fn spread<T>(all: Vec<T>, count: usize) -> Vec<T> {
    let stride = all.len().div_ceil(count.max(1)).max(1);
    all.into_iter().step_by(stride).collect()
}

fn removals(plan: &Plan) -> Vec<(String, Edit)> {
    let drops = plan.drops.iter();
    let removal = |label: String, edit| (format!("{label} removed"), edit);
    drops
        .map(|drop| removal(drop.label(), Edit::RemoveDrop(drop.id)))
        .collect()
}

fn moves(plan: &Plan) -> Vec<(String, Edit)> {
    let moved = |place| match place {
        Place::Wall {
            wall,
            offset,
            side,
            height,
        } => Some(Place::Wall {
            wall,
            offset: Mm(offset.0 + MOVE),
            side,
            height,
        }),
        _ => None,
    };
    let edit = |drop: &borewright_core::plan::Drop| {
        let edit = Edit::MoveDrop(drop.id, moved(drop.place)?);
        Some((format!("{} moved", drop.label()), edit))
    };
    plan.drops.iter().filter_map(edit).collect()
}

/// An outlet in the middle of each wall.
fn placings(plan: &Plan) -> Vec<(String, Edit)> {
    let placing = |level: &borewright_core::plan::Level, wall: &borewright_core::plan::Wall| {
        let place = Place::Wall {
            wall: wall.id,
            offset: Mm(wall.from.distance(wall.to).0 / 2),
            side: Side::Right,
            height: HEIGHT,
        };
        let edit = Edit::AddDrop {
            kind: DropKind::Data,
            level: level.id,
            place,
        };
        (format!("outlet in W{}", wall.id.0), edit)
    };
    let of = |level| move |wall| placing(level, wall);
    let levels = plan.levels.iter();
    levels
        .flat_map(|level| level.walls.iter().map(of(level)))
        .collect()
}
