//! Placing drops. The last kind stays in the hand.

use super::{NO_WALL, moving};
use crate::desk::answer::Answer;
use crate::desk::choice::under;
use crate::desk::snap::{boxed, nearest_wall, stepped};
use crate::desk::{Choice, Draft, Gesture, Hold, Reach, Session, Snap};
use crate::plan::edit::Edit;
use crate::plan::{DropId, DropKind, Place, Role};
use crate::rules::{RuleId, RuleSet};
use crate::shape::Point;
use crate::units::Mm;

/// A box on a wall keeps this far under the ceiling.
const UNDER_CEILING: Mm = Mm(100);

pub(super) fn answer(session: &Session, gesture: &Gesture<Point>, reach: Reach) -> Answer {
    match *gesture {
        Gesture::Hover(at) => match under(session, at, reach) {
            Some(Choice::Drop(_)) => Answer::default(),
            _ => shown(session, at, reach),
        },
        Gesture::Tap(at) => match under(session, at, reach) {
            Some(choice @ Choice::Drop(_)) => Answer::default().choosing(choice),
            _ => tap(session, at, reach),
        },
        _ => moving::answer(session, gesture, reach),
    }
}

fn shown(session: &Session, at: Point, reach: Reach) -> Answer {
    let kind = session.hand.drop;
    match place(session, kind, None, at, reach) {
        Some((place, snap)) => Answer::begun(Draft::Drop { kind, place }, snap),
        None => Answer::default(),
    }
}

fn tap(session: &Session, at: Point, reach: Reach) -> Answer {
    let kind = session.hand.drop;
    let Some((place, _)) = place(session, kind, None, at, reach) else {
        return Answer::declined(session, NO_WALL, at);
    };
    let edit = Edit::AddDrop {
        kind,
        level: session.level,
        place,
    };
    let new = Choice::Drop(DropId(session.plan.next.drop));
    Answer::edit(edit, at).choosing(new)
}

/// Where a drop of a kind lands for a pointer: on the ceiling; on the nearest face of a wall; for a
/// camera or a doorbell at an outside wall, and for anything pointed at from outdoors, on the
/// outside face. `height` stands in for the kind's usual one. `None` away from any wall.
pub(super) fn place(
    session: &Session,
    kind: DropKind,
    height: Option<Mm>,
    at: Point,
    reach: Reach,
) -> Option<(Place, Snap)> {
    let plan = &session.plan;
    if kind == DropKind::CeilingAccessPoint {
        return Some(on_ceiling(session, at, reach));
    }
    let level = session.shown_level()?;
    let framing = session.shown_framing();
    let mut facing = nearest_wall(level, framing, at, reach)?;
    if kind.is_outdoors() && facing.wall.role == Role::Exterior {
        facing = facing.outwards(framing).unwrap_or(facing);
    }
    let height = height.unwrap_or_else(|| usual_height(kind, &plan.rules));
    let height = match facing.outside {
        true => height,
        false => height.min(level.ceiling - UNDER_CEILING),
    };
    let (offset, snap) = boxed(&facing, level, framing, height, reach, plan.units);
    let (wall, side) = (facing.wall.id, facing.side);
    let place = match facing.outside {
        true => Place::Outside {
            wall,
            offset,
            side,
            height,
        },
        false => Place::Wall {
            wall,
            offset,
            side,
            height,
        },
    };
    Some((place, snap))
}

fn on_ceiling(session: &Session, at: Point, reach: Reach) -> (Place, Snap) {
    let at = match reach.free {
        true => at,
        false => stepped(at, session.plan.units),
    };
    let holds = vec![Hold::Ceiling];
    (Place::Ceiling { at }, Snap { at, holds })
}

/// The height the rules give a kind of drop, above the finished floor.
fn usual_height(kind: DropKind, rules: &RuleSet) -> Mm {
    rules.length(match kind {
        DropKind::Data | DropKind::Other | DropKind::CeilingAccessPoint => RuleId::OutletHeight,
        DropKind::Television => RuleId::TelevisionHeight,
        DropKind::WallAccessPoint => RuleId::AccessPointHeight,
        DropKind::Camera => RuleId::CameraHeight,
        DropKind::Doorbell => RuleId::DoorbellHeight,
    })
}
