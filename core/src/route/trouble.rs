//! Why a cable has no way, with the obstacle named.

use super::network::Way as Found;
use super::way::NoWay;
use super::{MoveKind, Routing};
use crate::framing::pin_words;
use crate::plan::{Above, Below, Drop, Pin, PinTo, Place};
use crate::units::Mm;

/// What is the matter with the way of a drop's cable; `None` when all is well.
pub(super) fn of(routing: &Routing, drop: &Drop, found: Option<&Found>) -> Option<NoWay> {
    if matches!(drop.place, Place::Adrift { .. }) {
        return Some(NoWay::Adrift);
    }
    if routing.plan.closet.is_none() {
        return Some(NoWay::NoCloset);
    }
    match found {
        Some(Found::Found { .. }) => None,
        Some(Found::TooLong { shortest_mm, .. }) => {
            let slack = drop.kind.slack(&routing.plan.rules);
            Some(NoWay::TooLong(Mm::rounded(*shortest_mm as f64) + slack))
        }
        Some(Found::NoPath) | None => Some(NoWay::Cut(obstacle(routing, drop))),
    }
}

/// What cuts a drop off: the wall it is in, and what is over and under it.
fn obstacle(routing: &Routing, drop: &Drop) -> String {
    let plan = routing.plan;
    let Some(level) = plan.level(drop.level) else {
        return String::from("its level is gone");
    };
    let over = match level.above {
        Above::ClosedRoof => "the roof above is closed",
        _ => "no plate above it leads on",
    };
    let under = match level.below {
        Below::Slab => "there is a slab below",
        _ => "no plate below it leads on",
    };
    let by = |to| format!("no way leads by {}", pin_words(plan, routing.framing, to));
    let pinned = pin_of(routing, drop).map(by);
    let Some((wall, offset)) = drop.place.on_wall() else {
        return pinned.unwrap_or_else(|| over.to_string());
    };
    let Some(wall) = level.wall(wall) else {
        return String::from("its wall is gone");
    };
    if let Some(pinned) = pinned {
        return pinned;
    }
    if wall.never_drill {
        return format!("{} is marked never to be drilled", wall.label());
    }
    let openings = level.openings_of(wall.id);
    let nearest = openings.iter().min_by_key(|opening| {
        ((opening.offset - offset).0.abs()).min((opening.offset + opening.width - offset).0.abs())
    });
    let beside = match nearest {
        Some(opening) => format!(
            "the header over the {} in {} stops the lane",
            opening.kind.name(),
            wall.label()
        ),
        None => format!(
            "the lane of {} ends at a wall that cannot be drilled",
            wall.label()
        ),
    };
    let reaches =
        |kind: MoveKind| matches!(kind, MoveKind::AlongWall { wall: on } if on == wall.id);
    let alone = !routing.graph.steps.iter().any(|step| reaches(step.kind));
    let beside = if alone && nearest.is_none() {
        format!("no stud of {} can be drilled", wall.label())
    } else {
        beside
    };
    format!("{beside}, {over} and {under}")
}

/// The first pin of a drop's cables, which then is what cuts them off.
fn pin_of(routing: &Routing, drop: &Drop) -> Option<PinTo> {
    routing.plan.pins.iter().find_map(|pin| match *pin {
        Pin::Cable { cable, to } if drop.cables.iter().any(|one| one.id == cable) => Some(to),
        _ => None,
    })
}
