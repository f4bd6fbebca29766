//! Findings about bores through the bottom plates of a bearing wall that runs along the joists under it. As a rule
//! joists are doubled there, which no plan states: no bore keeps clear of them.

use super::{Finding, Severity, Subject};
use crate::bore::Bore;
use crate::framing::{Framing, Space, SpaceKind, WallFraming};
use crate::plan::{JoistKind, Level, Plan, Role, Wall};
use crate::route::{Member, Ways};
use crate::rules::trade::{DOUBLED_SOURCE, PARALLEL};
use crate::units::counted;

pub(super) fn check(plan: &Plan, framing: &Framing, ways: &Ways, bores: &[Bore]) -> Vec<Finding> {
    let levels = plan.levels.iter().zip(&framing.levels);
    let mut found = Vec::new();
    for (level, framed) in levels {
        let below = framed.below.and_then(|index| framing.spaces.get(index));
        let Some(space) = below.filter(|space| is_solid(space)) else {
            continue;
        };
        let bearing = level.walls.iter().filter(|wall| wall.role == Role::Bearing);
        for wall in bearing {
            let line = framed.wall(wall.id);
            let along = |line: &&WallFraming| line.line.along.cross(space.along).abs() < PARALLEL;
            if let Some(line) = line.filter(along) {
                found.extend(told(level, (wall, line), ways, bores));
            }
        }
    }
    found
}

/// Whether its joists are boards or have webs: what is between them is no way through them.
fn is_solid(space: &Space) -> bool {
    let (SpaceKind::Floor(kind) | SpaceKind::Crawl(kind)) = space.kind else {
        return false;
    };
    matches!(kind, JoistKind::Sawn | JoistKind::IJoist)
}

fn told(
    level: &Level,
    (wall, line): (&Wall, &WallFraming),
    ways: &Ways,
    bores: &[Bore],
) -> Option<Finding> {
    let is_here = |bore: &&Bore| {
        ways.crossings.get(bore.crossing).is_some_and(|crossing| {
            matches!(crossing.member, Member::BottomPlates(_)) && crossing.wall == Some(wall.id)
        })
    };
    let count = bores.iter().filter(is_here).count();
    if count == 0 {
        return None;
    }
    let label = wall.label();
    let finding = Finding::new(
        format!("doubled:{label}"),
        Severity::Note,
        Subject::Wall(wall.id),
    );
    let come = if count == 1 { "comes" } else { "come" };
    let what = format!(
        "{label} bears and runs along the joists under it, which are doubled there as a rule: {} through its \
         bottom plates {come} down on them.",
        counted(count, "bore"),
    );
    let todo = "Ask the builder where those joists stand; bore beside them, and never into them.";
    let middle = line.line.at(line.line.length / 2.0, 0.0);
    Some(
        finding
            .at(level.id, middle)
            .says(what, todo)
            .by(DOUBLED_SOURCE),
    )
}
