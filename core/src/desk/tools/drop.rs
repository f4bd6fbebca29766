//! Placing drops. The last kind stays in the hand.

use super::{NO_WALL, NOT_ON_WALL, moving};
use crate::desk::answer::Answer;
use crate::desk::choice::under;
use crate::desk::snap::{boxed, nearest_wall, stepped};
use crate::desk::{Choice, Draft, Gesture, Hold, Notice, Reach, Session, Snap};
use crate::framing::outside_height;
use crate::plan::edit::Edit;
use crate::plan::{BoxKind, Drop, DropId, DropKind, Place, Role, WallId, box_outline};
use crate::rules::{RuleId, RuleSet};
use crate::shape::Point;
use crate::units::{Mm, read_length};
use Landing::{Moved, New};

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
    match place(session, New(kind), at, reach) {
        Some((place, snap)) => Answer::begun(Draft::Drop { kind, place }, snap),
        None => Answer::default(),
    }
}

fn tap(session: &Session, at: Point, reach: Reach) -> Answer {
    let kind = session.hand.drop;
    let Some((place, _)) = place(session, New(kind), at, reach) else {
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

/// A typed length places the drop under the pointer that far from the nearer end of its wall.
pub(super) fn typed(session: &Session, kind: DropKind, ghost: Place, text: &str) -> Answer {
    let Some((wall, offset)) = ghost.on_wall() else {
        return Answer {
            notice: Some(Notice::refused(NOT_ON_WALL, None)),
            ..Answer::unmoved(session)
        };
    };
    match measured(session, wall, offset, text) {
        Ok(offset) => {
            let place = at_offset(ghost, offset);
            let edit = Edit::AddDrop {
                kind,
                level: session.level,
                place,
            };
            let new = Choice::Drop(DropId(session.plan.next.drop));
            Answer {
                edit: Some(edit),
                ..Answer::default()
            }
            .choosing(new)
        }
        Err(notice) => Answer {
            notice: Some(notice),
            ..Answer::unmoved(session)
        },
    }
}

/// The offset that a typed distance from the nearer end of a wall's plates means.
pub(super) fn measured(
    session: &Session,
    wall: WallId,
    offset: Mm,
    text: &str,
) -> Result<Mm, Notice> {
    let units = session.plan.units;
    let at = session.snap.as_ref().map(|snap| snap.at);
    let distance = read_length(text, units).map_err(|e| Notice::refused(e.to_string(), at))?;
    let wall = session
        .design
        .framing
        .wall(wall)
        .ok_or_else(|| Notice::refused(NO_WALL, at))?;
    let (_, first) = wall.from_nearer_end(offset.f64());
    wall.from_end(distance, first).ok_or_else(|| {
        let length = units.position(Mm::rounded(wall.end - wall.start));
        let text = format!(
            "W{} is {length} long between the ends of its plates. Type a shorter distance.",
            wall.wall.0
        );
        Notice::refused(text, at)
    })
}

fn at_offset(place: Place, offset: Mm) -> Place {
    let mut place = place;
    if let Place::Wall { offset: known, .. } | Place::Outside { offset: known, .. } = &mut place {
        *known = offset;
    }
    place
}

/// What is to land somewhere: a new drop of a kind, or one that is moved and keeps its height.
pub(super) enum Landing<'d> {
    New(DropKind),
    Moved(&'d Drop),
}

impl Landing<'_> {
    fn kind(&self) -> DropKind {
        match self {
            New(kind) => *kind,
            Moved(drop) => drop.kind,
        }
    }

    fn height(&self) -> Option<Mm> {
        match self {
            New(_) => None,
            Moved(drop) => drop.height(),
        }
    }

    /// The outline of its box; `None` without one, which hangs anywhere.
    fn outline(&self) -> Option<(f64, f64)> {
        let (fixing, outline) = match self {
            New(kind) => (kind.usual_fixing(), box_outline(1)),
            Moved(drop) => (drop.fixing, drop.outline()),
        };
        (fixing != BoxKind::None).then_some(outline)
    }
}

/// Where a drop lands for a pointer: on the ceiling; on the nearest face of a wall; for a camera or a
/// doorbell at an outside wall, and for anything pointed at from outdoors, on the outside face. `None`
/// away from any wall.
pub(super) fn place(
    session: &Session,
    drop: Landing,
    at: Point,
    reach: Reach,
) -> Option<(Place, Snap)> {
    let plan = &session.plan;
    let (kind, height) = (drop.kind(), drop.height());
    if kind == DropKind::CeilingAccessPoint {
        return Some(on_ceiling(session, at, reach));
    }
    let level = session.shown_level()?;
    let framing = session.shown_framing();
    let mut facing = nearest_wall(level, framing, at, reach)?;
    if kind.is_outdoors() && facing.wall.role == Role::Exterior {
        facing = facing.outwards(framing).unwrap_or(facing);
    }
    let usual = usual_height(kind, &plan.rules);
    let inside = height.unwrap_or(usual).min(level.ceiling - UNDER_CEILING);
    let seen = match facing.outside {
        true => height.unwrap_or(usual),
        false => inside,
    };
    let outline = drop.outline().filter(|_| !facing.outside);
    let (offset, snap) = boxed(&facing, level, framing, (seen, outline), reach, plan.units);
    let (wall, side) = (facing.wall.id, facing.side);
    let height = match (facing.outside, height) {
        (true, None) => outside_height(plan, &session.design.framing, wall, offset.f64(), usual),
        _ => seen,
    };
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::trial::Trial;
    use crate::desk::{Hand, Intent, Step, Tool};
    use crate::plan::{Floor, Side, WallId};

    fn placing(kind: DropKind) -> Trial {
        let trial = Trial::with_house().take(Tool::Drop);
        trial.hand(|hand| Hand { drop: kind, ..hand })
    }

    fn places(trial: &Trial) -> Vec<Place> {
        trial.plan().drops.iter().map(|drop| drop.place).collect()
    }

    #[test]
    fn an_outlet_lands_on_the_near_face_at_its_height() {
        let trial = placing(DropKind::Data).hover(3140, 200);
        let words = trial.session.snap.as_ref().unwrap().words();
        assert_eq!(words, "on W1, on stud 10, W4 side");
        let trial = trial.tap(3140, 200);
        let expected = Place::Wall {
            wall: WallId(1),
            offset: Mm(3135),
            side: Side::Right,
            height: Mm(406),
        };
        assert_eq!(places(&trial), [expected]);
        assert_eq!(trial.session.chosen, Some(Choice::Drop(DropId(1))));
        assert_eq!(trial.done(), "placed D1");
    }

    #[test]
    fn an_outlet_tapped_from_outdoors_is_outdoors() {
        let trial = placing(DropKind::Data).tap(3000, -150);
        let expected = Place::Outside {
            wall: WallId(1),
            offset: Mm(3000),
            side: Side::Left,
            height: Mm(406),
        };
        assert_eq!(places(&trial), [expected]);
        assert!(trial.plan().drops[0].outdoors);
    }

    #[test]
    fn a_camera_goes_outside_and_an_access_point_to_the_ceiling() {
        let camera = placing(DropKind::Camera).tap(3000, 150);
        assert!(matches!(
            places(&camera)[0],
            Place::Outside {
                side: Side::Left,
                height: Mm(2743),
                ..
            }
        ));
        let ceiling = placing(DropKind::CeilingAccessPoint).tap(4010, 3012);
        let at = Point::new(4000, 3000);
        assert_eq!(places(&ceiling), [Place::Ceiling { at }]);
    }

    /// Common practice: 9 ft is the height of a camera. Over a 9 ft wall under an attic the hole goes
    /// through the soffit; under another floor it would be in the top plates, so it is put 3 in under
    /// them.
    #[test]
    fn a_camera_under_a_floor_comes_out_below_the_plates() {
        let trial = placing(DropKind::Camera);
        let over = Edit::AddLevel {
            name: String::from("Upper"),
            floor: Floor::sawn(crate::shape::Direction::ALONG_Y),
        };
        let back = Intent::ShowLevel(trial.session.level);
        let trial = trial.intent(&Intent::Edit(over)).intent(&back);
        let trial = trial.tap(3000, 150);
        let height = trial.plan().drops[0].height();
        assert_eq!(height, Some(Mm(2591)));
        assert!(
            trial
                .session
                .design
                .findings
                .iter()
                .all(|f| !f.key.starts_with("outside-hole"))
        );
    }

    #[test]
    fn away_from_walls_nothing_is_placed_and_the_hand_keeps_its_kind() {
        let trial = placing(DropKind::Television).tap(4000, 3000);
        assert!(trial.told().contains("no wall there"));
        assert!(places(&trial).is_empty());
        let trial = trial.tap(3135, 100).tap(5000, 100);
        assert_eq!(trial.plan().drops[1].label(), "T2");
    }

    #[test]
    fn a_drop_is_tapped_to_choose_and_dragged_to_another_wall() {
        let trial = placing(DropKind::Data).tap(3135, 100).tap(6000, 100);
        let trial = trial.tap(3135, 90);
        assert_eq!(trial.plan().drops.len(), 2);
        assert_eq!(trial.session.chosen, Some(Choice::Drop(DropId(1))));
        let trial = trial.drag((3135, 90), (7900, 2000));
        let (wall, offset) = places(&trial)[0].on_wall().unwrap();
        // No upright that holds it is farther away than half the room between two and half a box.
        assert!(wall == WallId(2) && (offset - Mm(2000)).0.abs() < 210);
        assert_eq!(trial.done(), "moved D1");
        let trial = trial.intent(&Intent::Undo);
        assert_eq!(trial.told(), "Undid: moved D1.");
        assert!(matches!(
            places(&trial)[0],
            Place::Wall {
                wall: WallId(1),
                ..
            }
        ));
    }

    #[test]
    fn a_drag_shows_the_plan_as_it_would_be_and_changes_nothing_before_its_end() {
        let trial = placing(DropKind::Data).tap(3135, 100);
        let pulled = trial.pull((3135, 90), (4853, 90));
        assert!(matches!(
            places(&pulled)[0],
            Place::Wall {
                offset: Mm(3135),
                ..
            }
        ));
        let shown = pulled.session.shown_plan().drops[0].place;
        assert!(matches!(
            shown,
            Place::Wall {
                offset: Mm(4853),
                ..
            }
        ));
        let lost = pulled.drag((3135, 90), (4000, 3000));
        assert!(lost.told().contains("no wall there"));
        assert!(matches!(
            places(&lost)[0],
            Place::Wall {
                offset: Mm(3135),
                ..
            }
        ));
        assert_eq!(lost.session.draft, None);
    }

    /// W1 is a 2x6, 139.7 wide, as W4 and W2 are: it runs through both corners, 70
    /// beyond the drawn ones. Lengths are from there.
    #[test]
    fn a_typed_length_places_it_that_far_from_the_nearer_end() {
        let offset = |trial: &Trial| places(trial)[0].on_wall().unwrap().1;
        let near = placing(DropKind::Data).hover(2000, 100).types("1.5 m");
        assert_eq!(offset(&near), Mm(1500 - 70));
        let far = placing(DropKind::Data).hover(7000, 100).types("1.5 m");
        assert_eq!(offset(&far), Mm(8000 + 70 - 1500));
        let long = placing(DropKind::Data).hover(7000, 100).types("9 m");
        assert!(
            long.told().contains("W1 is 8140 mm long"),
            "{}",
            long.told()
        );
        assert!(places(&long).is_empty() && long.session.draft.is_some());
        let ceiling = placing(DropKind::CeilingAccessPoint).hover(4000, 3000);
        assert!(ceiling.types("1 m").told().contains("along a wall"));
    }

    #[test]
    fn a_drop_keeps_its_own_height_when_it_is_moved() {
        let trial = placing(DropKind::Data).tap(3135, 100);
        let mut place = trial.plan().drops[0].place;
        if let Place::Wall { height, .. } = &mut place {
            *height = Mm(1200);
        }
        let trial = trial.intent(&Intent::Edit(Edit::MoveDrop(DropId(1), place)));
        let trial = trial.drag((3135, 90), (4853, 90));
        assert_eq!(trial.plan().drops[0].height(), Some(Mm(1200)));
    }

    #[test]
    fn a_drop_set_adrift_is_counted_and_taken_to_another_wall() {
        let trial = placing(DropKind::Data).tap(3135, 100);
        let trial = trial.intent(&Intent::Edit(Edit::RemoveWall(WallId(1))));
        let closet = trial.take(Tool::Closet).tap(7900, 3000);
        assert_eq!(closet.session.lacks(Step::Drops).words, "1 drop adrift");
        let trial = closet.take(Tool::Drop).drag((3000, 0), (4000, 5900));
        assert!(matches!(
            places(&trial)[0],
            Place::Wall {
                wall: WallId(3),
                ..
            }
        ));
        assert_eq!(trial.session.lacks(Step::Drops).words, "1, none adrift");
    }
}
