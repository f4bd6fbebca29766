//! Why a cable has no way, with the obstacle named.

use super::network::Way as Found;
use super::way::NoWay;
use super::{MoveKind, Routing, stopped_lane};
use crate::framing::pin_words;
use crate::plan::{Above, Below, Drop, Level, Opening, Pin, PinTo, Place, Wall};
use crate::units::Mm;

/// What is the matter with the way of a drop's cable; `None` when all is well. `shut` tells what shuts the
/// closet.
pub(super) fn of(
    routing: &Routing,
    drop: &Drop,
    found: Option<&Found>,
    shut: impl Fn() -> Option<String>,
) -> Option<NoWay> {
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
        Some(Found::NoPath) | None => Some(NoWay::Cut(
            shut().unwrap_or_else(|| obstacle(routing, drop)),
        )),
    }
}

/// Why nothing comes to the closet, where no way at all does; the drops are not to blame then.
pub(super) fn shut_closet(routing: &Routing) -> Option<String> {
    if routing.is_reached() {
        return None;
    }
    let plan = routing.plan;
    let closet = plan.closet?;
    let level = plan.level(closet.level)?;
    let over = over(level);
    let why = match closet.on_wall().and_then(|wall| level.wall(wall)) {
        Some(wall) if wall.never_drill => {
            format!(
                "{}, where it hangs, is never to be drilled and {over}",
                wall.label()
            )
        }
        // What stops the lane of its wall is told as for any drop.
        Some(_) => return None,
        None => format!("it stands free, {over} and {}", under(level)),
    };
    Some(format!("nothing comes to the closet, for {why}"))
}

fn over(level: &Level) -> &'static str {
    match level.above {
        Above::ClosedRoof(_) => "the roof above is closed",
        _ => "no plate above it leads on",
    }
}

fn under(level: &Level) -> &'static str {
    match level.below {
        Below::Slab => "there is a slab below",
        _ => "no plate below it leads on",
    }
}

/// What cuts a drop off: the wall it is in, and what is over and under it.
fn obstacle(routing: &Routing, drop: &Drop) -> String {
    let plan = routing.plan;
    let Some(level) = plan.level(drop.level) else {
        return String::from("its level is gone");
    };
    let (over, under) = (over(level), under(level));
    let by = |to| format!("no way leads by {}", pin_words(plan, routing.framing, to));
    let pinned = pin_of(routing, drop).map(by);
    let Some((wall, offset)) = drop.place.on_wall() else {
        return pinned.unwrap_or_else(|| match (is_bare(routing, drop), level.above) {
            (true, _) => String::from("no level stands over it, and the roof there is not stated"),
            (_, Above::ClosedRoof(rafters)) => under_rafters(routing, drop, rafters.is_some()),
            _ => over.to_string(),
        });
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
    let beside = beside(routing, level, wall, offset);
    format!("{beside}, {over} and {under}")
}

/// What cuts off a drop on the ceiling under a closed roof.
fn under_rafters(routing: &Routing, drop: &Drop, stated: bool) -> String {
    let drops = routing.plan.drops.iter().zip(&routing.graph.sources);
    let is_entered = |(other, source): (&Drop, &Option<_>)| other.id == drop.id && source.is_some();
    let why = match (stated, drops.into_iter().any(is_entered)) {
        (false, _) => "the roof above is closed, and how its rafters run is not stated",
        (true, false) => "no wall under its rafter bay can be drilled up into it",
        (true, true) => "its rafter bay is reached, and from there nothing leads to the closet",
    };
    String::from(why)
}

/// Whether a drop is under a part of its level over which nothing is stated.
fn is_bare(routing: &Routing, drop: &Drop) -> bool {
    let (framing, at) = (routing.framing, drop.place.in_front(routing.plan, 0.0));
    let level = framing
        .level(drop.level)
        .filter(|level| level.bare.is_some());
    level.is_some_and(|level| at.is_some_and(|at| framing.space_over(level, at).is_none()))
}

/// What stops the lane of a drop's wall, the nearest to it.
fn beside(routing: &Routing, level: &Level, wall: &Wall, offset: Mm) -> String {
    let away = |opening: &Opening| {
        let ends = [opening.offset, opening.offset + opening.width];
        ends.map(|end| (end - offset).0.abs()).into_iter().min()
    };
    let openings = level.openings_of(wall.id);
    let nearest = openings.iter().min_by_key(|opening| away(opening));
    let reached = nearest.and_then(|opening| away(opening));
    let power = stopped_lane(routing.plan, routing.framing, wall.id, offset.f64());
    let power = power.filter(|power| reached.is_none_or(|away| power.away <= f64::from(away)));
    if let Some(power) = power {
        return power.words;
    }
    if let Some(opening) = nearest {
        return format!(
            "the header over the {} in {} stops the lane",
            opening.kind.name(),
            wall.label()
        );
    }
    let reaches =
        |kind: MoveKind| matches!(kind, MoveKind::AlongWall { wall: on } if on == wall.id);
    match routing.graph.steps.iter().any(|step| reaches(step.kind)) {
        true => format!(
            "the lane of {} ends at a wall that cannot be drilled",
            wall.label()
        ),
        false => format!("no stud of {} can be drilled", wall.label()),
    }
}

/// The first pin of a drop's cables, which then is what cuts them off.
fn pin_of(routing: &Routing, drop: &Drop) -> Option<PinTo> {
    routing.plan.pins.iter().find_map(|pin| match *pin {
        Pin::Cable { cable, to } if drop.cables.iter().any(|one| one.id == cable) => Some(to),
        _ => None,
    })
}
