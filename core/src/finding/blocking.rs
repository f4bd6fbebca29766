//! Findings about cables that pass over a bearing wall between the joists that lie on it. As a rule blocking or
//! squash blocks stand there, which no plan states: no hole in them is counted.

use std::collections::BTreeSet;

use super::{Finding, Severity, Subject};
use crate::framing::{Framing, LevelFraming, Space, SpaceKind, WallFraming};
use crate::plan::{CableId, JoistKind, LevelId, Plan, Role, Wall};
use crate::route::{Move, MoveKind, Ways};
use crate::rules::trade::BLOCKING_SOURCE;
use crate::shape::Pos;
use crate::units::counted;

/// A wall lies across joists where it is farther from their direction than this: the cosine of 45 degrees.
const ACROSS: f64 = 0.707;

/// What passes over one wall.
#[derive(Default)]
struct Passed {
    cables: BTreeSet<CableId>,
    /// Between which joists.
    strips: BTreeSet<Option<usize>>,
    /// Of the cable with the lowest identity, so that the order of drawing decides nothing.
    first: Option<(CableId, Pos)>,
}

pub(super) fn check(plan: &Plan, framing: &Framing, ways: &Ways) -> Vec<Finding> {
    let levels = plan.levels.iter().zip(&framing.levels);
    let mut found = Vec::new();
    for (level, framed) in levels {
        let Some((index, space)) = blocked(framing, framed) else {
            continue;
        };
        let bearing = level.walls.iter().filter(|wall| wall.role == Role::Bearing);
        for wall in bearing {
            let line = framed.wall(wall.id);
            let across = line.filter(|framed| framed.line.along.dot(space.along).abs() < ACROSS);
            if let Some(line) = across {
                let passed = passed(ways, index, space, line);
                found.extend(told(level.id, wall, &passed));
            }
        }
    }
    found
}

/// The space over a level whose joists are blocked on what bears them: solid ones, and cable between them.
fn blocked<'f>(framing: &'f Framing, level: &LevelFraming) -> Option<(usize, &'f Space)> {
    let index = level.above?;
    let space = framing.spaces.get(index)?;
    let solid = matches!(
        space.kind,
        SpaceKind::Floor(JoistKind::Sawn | JoistKind::IJoist)
    );
    (solid && !space.hangs).then_some((index, space))
}

/// Follows every way through a space, and notes where it comes from one side of a wall to the other.
fn passed(ways: &Ways, index: usize, space: &Space, wall: &WallFraming) -> Passed {
    let mut found = Passed::default();
    let is_in_it = |step: &Move| match step.kind {
        MoveKind::AlongStrip { space } | MoveKind::AcrossStrips { space } => space == index,
        _ => false,
    };
    for way in &ways.ways {
        // Below zero on one side of the wall, above it on the other; zero on it, past its ends and elsewhere.
        let mut side = 0.0;
        for step in &way.moves {
            if !is_in_it(step) {
                side = 0.0;
                continue;
            }
            for at in [step.from.at, step.to.at] {
                let aside = wall.line.aside_of(at);
                if !(wall.start..=wall.end).contains(&wall.line.offset_of(at)) {
                    side = 0.0;
                } else if aside.abs() >= 1.0 {
                    if side * aside < 0.0 {
                        found.cables.insert(way.cable);
                        found.strips.insert(space.strip_at(at));
                        if found.first.is_none_or(|(known, _)| way.cable < known) {
                            found.first = Some((way.cable, at));
                        }
                    }
                    side = aside;
                }
            }
        }
    }
    found
}

fn told(level: LevelId, wall: &Wall, passed: &Passed) -> Option<Finding> {
    let label = wall.label();
    let (_, at) = passed.first?;
    let key = format!("blocking:{label}");
    let finding = Finding::new(key, Severity::Note, Subject::Wall(wall.id));
    let passes = match passed.cables.len() {
        1 => "passes",
        _ => "pass",
    };
    let what = format!(
        "{} {passes} over {label}, which bears, between its joists in {}: blocking or squash blocks stand \
         there as a rule, and no hole in them is counted.",
        counted(passed.cables.len(), "cable"),
        counted(passed.strips.len(), "place"),
    );
    let todo = "Ask the builder what stands there before drilling, and leave squash blocks whole.";
    Some(finding.at(level, at).says(what, todo).by(BLOCKING_SOURCE))
}
