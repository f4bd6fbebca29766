//! Edits of doors, windows and cased openings.

use super::walls::level_of;
use super::{Done, Refusal, caps, take};
use crate::plan::{Level, Opening, OpeningId, OpeningKind, Plan};
use crate::units::Mm;

pub(super) fn add(plan: &mut Plan, opening: Opening) -> Done {
    let opening = Opening {
        id: OpeningId(take(&mut plan.next.opening)),
        ..opening
    };
    let level = level_of(plan, opening.wall)?;
    caps::OPENINGS.admits(level.openings.len())?;
    fits(level, &opening)?;
    level.openings.push(opening);
    Ok(())
}

pub(super) fn set(plan: &mut Plan, opening: Opening) -> Done {
    let level = level_of(plan, opening.wall)?;
    fits(level, &opening)?;
    let known = level
        .openings
        .iter_mut()
        .find(|known| known.id == opening.id)
        .ok_or_else(gone)?;
    *known = opening;
    Ok(())
}

pub(super) fn remove(plan: &mut Plan, id: OpeningId) -> Done {
    let level = plan
        .levels
        .iter_mut()
        .find(|level| level.opening(id).is_some());
    level
        .ok_or_else(gone)?
        .openings
        .retain(|opening| opening.id != id);
    Ok(())
}

fn gone() -> Refusal {
    Refusal::because("That opening is no longer in the plan.")
}

fn fits(level: &Level, opening: &Opening) -> Done {
    let Some(wall) = level.wall(opening.wall) else {
        return Err(Refusal::because(
            "An opening stays on its own level. Add another one there.",
        ));
    };
    let (name, label) = (opening.kind.name(), wall.label());
    let length = wall.from.distance(wall.to);
    if !(Mm(150)..=length).contains(&opening.width) {
        return Err(Refusal::because(format!(
            "The {name} is wider than {label}, or under 6 in. Check its width."
        )));
    }
    if opening.offset < Mm(0) || opening.offset + opening.width > length {
        return Err(Refusal::because(format!(
            "The {name} would run past the end of {label}. Move it along, or make it narrower."
        )));
    }
    let low = opening.sill < Mm(0) || opening.head <= opening.sill + Mm(100);
    let is_floor_high = opening.kind == OpeningKind::Window || opening.sill == Mm(0);
    if low || opening.head > level.ceiling || !is_floor_high {
        return Err(Refusal::because(format!(
            "The {name} does not fit between floor and ceiling. Check its sill and head."
        )));
    }
    let clear = |other: &&Opening| {
        other.id != opening.id
            && other.offset < opening.offset + opening.width
            && opening.offset < other.offset + other.width
    };
    match level.openings_of(opening.wall).iter().any(clear) {
        true => Err(Refusal::because(format!(
            "Another opening is in the way in {label}. Move one of them."
        ))),
        false => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::Edit;
    use crate::plan::{Lumber, Role, WallId};
    use crate::shape::Point;

    fn plan() -> Plan {
        let plan = Plan::new();
        plan.apply(&Edit::AddWall {
            level: plan.levels[0].id,
            from: Point::new(0, 0),
            to: Point::new(4000, 0),
            lumber: Lumber::TwoByFour,
            role: Role::Bearing,
        })
        .unwrap()
    }

    fn door(offset: i32, width: i32) -> Opening {
        Opening {
            id: OpeningId(0),
            wall: WallId(1),
            offset: Mm(offset),
            width: Mm(width),
            sill: Mm(0),
            head: Mm(2032),
            kind: OpeningKind::Door,
        }
    }

    #[test]
    fn a_door_fits_its_wall_or_is_refused_by_name() {
        let refused = |opening| {
            plan()
                .apply(&Edit::AddOpening(opening))
                .unwrap_err()
                .sentence
        };
        assert!(refused(door(0, 5000)).contains("wider than W1"));
        assert!(refused(door(3500, 900)).contains("past the end of W1"));
        assert!(
            refused(Opening {
                head: Mm(3000),
                ..door(0, 900)
            })
            .contains("ceiling")
        );
        assert!(
            refused(Opening {
                sill: Mm(300),
                ..door(0, 900)
            })
            .contains("sill")
        );
    }

    #[test]
    fn openings_do_not_overlap() {
        let plan = plan().apply(&Edit::AddOpening(door(500, 900))).unwrap();
        assert!(plan.apply(&Edit::AddOpening(door(1000, 900))).is_err());
        assert!(plan.apply(&Edit::AddOpening(door(1400, 900))).is_ok());
        let moved = Opening {
            id: OpeningId(1),
            ..door(700, 900)
        };
        assert!(plan.apply(&Edit::SetOpening(moved)).is_ok());
        assert!(plan.apply(&Edit::RemoveOpening(OpeningId(9))).is_err());
    }
}
