//! Mends drops, their cables, the closet and pins. A drop is never left out for losing its wall:
//! it is set adrift, and keeps its label and its cables.

use std::collections::BTreeSet;

use super::{LARGEST_NUMBER, plausible, say_doubles, unique};
use crate::file::losses::Losses;
use crate::plan::edit::{caps, tidy};
use crate::plan::{
    Cable, CableId, CableKindId, Closet, ClosetPlace, Drop, Level, Pin, PinTo, Place, Plan, WallId,
};
use crate::shape::Point;
use crate::units::Mm;

pub(super) fn mend(plan: &mut Plan, losses: &mut Losses) {
    let doubles = unique(&mut plan.drops, &mut BTreeSet::new(), |drop| drop.id.0);
    say_doubles(doubles, "drop", losses);
    let cut = [
        caps::DROPS.cut(&mut plan.drops),
        caps::PINS.cut(&mut plan.pins),
    ];
    cut.into_iter().flatten().for_each(|told| losses.say(told));
    labels(&mut plan.drops, losses);
    places(plan, losses);
    cables(plan, losses);
    closet(plan, losses);
    pins(plan, losses);
}

/// A label is one capital letter and a number that no other drop has.
fn labels(drops: &mut [Drop], losses: &mut Losses) {
    let mut seen = BTreeSet::new();
    let largest = drops.iter().map(|drop| drop.number.max(drop.id.0)).max();
    let mut next = largest.unwrap_or(0).min(LARGEST_NUMBER);
    for drop in drops {
        if !drop.letter.is_ascii_uppercase() {
            drop.letter = drop.kind.letter();
        }
        if drop.number > LARGEST_NUMBER || !seen.insert((drop.letter, drop.number)) {
            let was = drop.label();
            next = next.saturating_add(1);
            drop.number = next;
            seen.insert((drop.letter, drop.number));
            losses.say(format!(
                "The label {was} stood twice; one of them is now {}.",
                drop.label()
            ));
        }
        drop.note = tidy(&drop.note);
        if !(1..=4).contains(&drop.gangs) {
            losses.say(format!(
                "The gangs of {} were out of range; one is assumed.",
                drop.label()
            ));
            drop.gangs = 1;
        }
    }
}

fn places(plan: &mut Plan, losses: &mut Losses) {
    let Some(lowest) = plan.levels.first().map(|level| level.id) else {
        return;
    };
    for drop in &mut plan.drops {
        let label = drop.label();
        if plan.levels.iter().all(|level| level.id != drop.level) {
            losses.say(format!(
                "{label} stood on a level that is gone; it is adrift on the lowest one."
            ));
            drop.level = lowest;
            drop.place = Place::Adrift {
                at: Point::default(),
            };
        }
        let level = plan.levels.iter().find(|level| level.id == drop.level);
        if let Some(level) = level
            && !stands(drop.place, level)
        {
            losses.say(format!(
                "{label} has lost its place and is adrift; put it on a wall again."
            ));
            let at = adrift(drop.place, level);
            drop.place = Place::Adrift { at };
        }
    }
}

fn stands(place: Place, level: &Level) -> bool {
    let on_wall = |wall, offset| {
        let wall = level.wall(wall);
        wall.is_some_and(|w| (Mm(0)..=w.from.distance(w.to)).contains(&offset))
    };
    match place {
        Place::Wall {
            wall,
            offset,
            height,
            ..
        } => on_wall(wall, offset) && (Mm(0)..=Mm(12_000)).contains(&height),
        Place::Outside {
            wall,
            offset,
            height,
            ..
        } => on_wall(wall, offset) && (Mm(-3000)..=Mm(12_000)).contains(&height),
        Place::Ceiling { at } | Place::Adrift { at } => at.is_plausible(),
    }
}

/// Somewhere near where a drop was: on its wall, or else at the level's first corner.
fn adrift(place: Place, level: &Level) -> Point {
    let line = place
        .on_wall()
        .and_then(|(wall, offset)| Some((level.wall(wall)?.line()?, offset)));
    match (line, level.walls.first()) {
        (Some((line, offset)), _) => line.at(offset.f64().clamp(0.0, line.length), 0.0).point(),
        (None, Some(wall)) => wall.from,
        (None, None) => Point::default(),
    }
}

fn cables(plan: &mut Plan, losses: &mut Losses) {
    let kinds = plan.catalogue.cables.len();
    let mut seen = BTreeSet::new();
    let used = plan.drops.iter().flat_map(|drop| &drop.cables);
    let largest = used
        .map(|cable| cable.id.0)
        .filter(|id| *id <= LARGEST_NUMBER);
    let mut next = largest.max().unwrap_or(0);
    for drop in &mut plan.drops {
        let label = drop.label();
        let before = drop.cables.len();
        let mut letters = BTreeSet::new();
        drop.cables.retain(|cable| {
            let number = cable.id.0;
            cable.letter.is_ascii_uppercase()
                && number <= LARGEST_NUMBER
                && letters.insert(cable.letter)
                && seen.insert(number)
        });
        if drop.cables.len() < before {
            losses.say(format!(
                "A cable of {label} used a name again and was left out."
            ));
        }
        for cable in &mut drop.cables {
            if usize::from(cable.kind.0) >= kinds {
                losses.say(format!(
                    "A cable of {label} is of a kind that is gone; Cat 6 is assumed."
                ));
                cable.kind = CableKindId::CAT6;
            }
        }
        if drop.cables.is_empty() {
            next = next.saturating_add(1);
            seen.insert(next);
            losses.say(format!(
                "The cables of {label} are gone; one Cat 6 is assumed."
            ));
            drop.cables.push(Cable {
                id: CableId(next),
                letter: 'A',
                kind: CableKindId::CAT6,
            });
        }
    }
}

fn closet(plan: &mut Plan, losses: &mut Losses) {
    let sound = |closet: &Closet| {
        let Some(level) = plan.level(closet.level) else {
            return false;
        };
        let placed = match closet.place {
            ClosetPlace::Wall { wall, offset, .. } => {
                level.wall(wall).is_some() && offset >= Mm(0) && plausible(offset)
            }
            ClosetPlace::Point(at) => at.is_plausible(),
        };
        placed && (Mm(0)..=Mm(12_000)).contains(&closet.panel_height)
    };
    if plan.closet.as_ref().is_some_and(|closet| !sound(closet)) {
        losses.say("The closet has lost its place; place it again.");
        plan.closet = None;
    }
}

fn pins(plan: &mut Plan, losses: &mut Losses) {
    let cables: BTreeSet<CableId> = plan.cables().map(|(_, cable)| cable.id).collect();
    let walls: BTreeSet<WallId> = plan
        .levels
        .iter()
        .flat_map(|level| &level.walls)
        .map(|wall| wall.id)
        .collect();
    let before = plan.pins.len();
    plan.pins.retain(|pin| {
        let there = pin.on_wall().is_none_or(|wall| walls.contains(&wall));
        there
            && match *pin {
                Pin::Lane { height, .. } => plausible(height),
                Pin::Cable { cable, to } => {
                    cables.contains(&cable)
                        && match to {
                            PinTo::Bay { offset, .. } => plausible(offset),
                            PinTo::Overhead { at } => at.is_plausible(),
                        }
                }
            }
    });
    if plan.pins.len() < before {
        losses.say("A pinned way names a cable or wall that is gone; it was left out.");
    }
}
