//! Edits of walls.

use super::cables::forget_lost;
use super::{Done, Refusal, caps, level_mut, take};
use crate::plan::{Level, LevelId, Lumber, Place, Plan, Role, Wall, WallId};
use crate::shape::Point;
use crate::units::{Mm, Size};

/// The shortest wall worth framing: 100 mm.
const SHORTEST: Mm = Mm(100);
/// Ends nearer than this to a corner move with it, millimetres.
const CORNER: f64 = 60.0;

pub(super) fn add(
    plan: &mut Plan,
    level: LevelId,
    ends: (Point, Point),
    lumber: Lumber,
    role: Role,
) -> Done {
    let wall = Wall::new(
        WallId(take(&mut plan.next.wall)),
        ends.0,
        ends.1,
        lumber,
        role,
    );
    let level = level_mut(plan, level)?;
    caps::WALLS.admits(level.walls.len())?;
    sound(&wall)?;
    if level.walls.iter().any(|other| same_line(other, &wall)) {
        return Err(Refusal::because(
            "A wall already stands there. Draw it somewhere else.",
        ));
    }
    level.walls.push(wall);
    Ok(())
}

pub(super) fn set(plan: &mut Plan, wall: Wall) -> Done {
    sound(&wall)?;
    let level = level_of(plan, wall.id)?;
    openings_fit(level, &wall)?;
    match level.walls.iter_mut().find(|known| known.id == wall.id) {
        Some(known) => *known = wall,
        None => return Err(gone()),
    }
    drops_fit(plan, &wall)
}

pub(super) fn move_corner(plan: &mut Plan, level: LevelId, from: Point, to: Point) -> Done {
    let mut moved = Vec::new();
    for wall in &level_mut(plan, level)?.walls {
        let near = |end: Point| end.pos().distance(from.pos()) <= CORNER;
        let (first, second) = (near(wall.from), near(wall.to));
        if first || second {
            let mut wall = *wall;
            if first {
                wall.from = to;
            }
            if second {
                wall.to = to;
            }
            moved.push(wall);
        }
    }
    if moved.is_empty() {
        return Err(Refusal::because("No wall ends there any more."));
    }
    moved.into_iter().try_for_each(|wall| set(plan, wall))
}

pub(super) fn remove(plan: &mut Plan, id: WallId) -> Done {
    let wall = plan.wall(id).map(|(_, wall)| *wall).ok_or_else(gone)?;
    for drop in &mut plan.drops {
        if let Some((on, offset)) = drop.place.on_wall()
            && on == id
        {
            let at = wall
                .line()
                .map_or(wall.from, |line| line.at(offset.f64(), 0.0).point());
            drop.place = Place::Adrift { at };
        }
    }
    if plan
        .closet
        .is_some_and(|closet| closet.on_wall() == Some(id))
    {
        plan.closet = None;
    }
    let level = level_of(plan, id)?;
    level.walls.retain(|wall| wall.id != id);
    level.openings.retain(|opening| opening.wall != id);
    forget_lost(plan);
    Ok(())
}

pub(super) fn level_of(plan: &mut Plan, wall: WallId) -> Result<&mut Level, Refusal> {
    let found = plan
        .levels
        .iter_mut()
        .find(|level| level.wall(wall).is_some());
    found.ok_or_else(gone)
}

fn gone() -> Refusal {
    Refusal::because("That wall is no longer in the plan.")
}

fn sound(wall: &Wall) -> Done {
    if !(wall.from.is_plausible() && wall.to.is_plausible()) {
        return Err(Refusal::because(
            "That is over 200 m from the origin. Check the scale.",
        ));
    }
    if wall.from.distance(wall.to) < SHORTEST {
        return Err(Refusal::because(
            "That wall has no length. Tap its other end farther away.",
        ));
    }
    if !(Size(25.0).within(wall.width()) && wall.width().within(Size(600.0))) {
        return Err(Refusal::because(
            "A wall is between 1 in and 24 in thick. Check its width.",
        ));
    }
    if !(100.0..=1300.0).contains(&wall.spacing.0) {
        return Err(Refusal::because(
            "Studs stand between 4 in and 4 ft apart. Check the spacing.",
        ));
    }
    if !(1..=4).contains(&wall.top_plates) || !(1..=4).contains(&wall.bottom_plates) {
        return Err(Refusal::because(
            "A wall has one to four plates at top and bottom.",
        ));
    }
    Ok(())
}

fn same_line(one: &Wall, other: &Wall) -> bool {
    (one.from, one.to) == (other.from, other.to) || (one.from, one.to) == (other.to, other.from)
}

fn openings_fit(level: &Level, wall: &Wall) -> Done {
    let length = wall.from.distance(wall.to);
    let fits = |end: Mm| end <= length;
    match level
        .openings_of(wall.id)
        .into_iter()
        .all(|o| fits(o.offset + o.width))
    {
        true => Ok(()),
        false => Err(Refusal::because(format!(
            "{} would be too short for its openings. Move or remove them first.",
            wall.label()
        ))),
    }
}

/// Drops stay on a wall that got shorter: those beyond its end move to the end.
fn drops_fit(plan: &mut Plan, wall: &Wall) -> Done {
    let length = wall.from.distance(wall.to);
    for drop in &mut plan.drops {
        if let Place::Wall {
            wall: on, offset, ..
        }
        | Place::Outside {
            wall: on, offset, ..
        } = &mut drop.place
            && *on == wall.id
        {
            *offset = (*offset).min(length);
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::Edit;
    use crate::plan::{DropKind, Opening, OpeningId, OpeningKind, Side};

    fn wall(plan: &Plan, from: (i32, i32), to: (i32, i32)) -> Edit {
        Edit::AddWall {
            level: plan.levels[0].id,
            from: Point::new(from.0, from.1),
            to: Point::new(to.0, to.1),
            lumber: Lumber::TwoByFour,
            role: Role::Partition,
        }
    }

    fn corner() -> Plan {
        let plan = Plan::new();
        let plan = plan.apply(&wall(&plan, (0, 0), (4000, 0))).unwrap();
        plan.apply(&wall(&plan, (4000, 0), (4000, 3000))).unwrap()
    }

    #[test]
    fn a_wall_needs_length_and_a_place_of_its_own() {
        let plan = corner();
        assert!(plan.apply(&wall(&plan, (10, 10), (10, 10))).is_err());
        assert!(plan.apply(&wall(&plan, (4000, 0), (0, 0))).is_err());
        assert!(plan.apply(&wall(&plan, (0, 0), (900_000, 0))).is_err());
    }

    #[test]
    fn a_corner_moves_every_wall_that_meets_there() {
        let plan = corner();
        let edit = Edit::MoveCorner {
            level: plan.levels[0].id,
            from: Point::new(4000, 0),
            to: Point::new(4200, 100),
        };
        let plan = plan.apply(&edit).unwrap();
        assert_eq!(plan.levels[0].walls[0].to, Point::new(4200, 100));
        assert_eq!(plan.levels[0].walls[1].from, Point::new(4200, 100));
    }

    #[test]
    fn a_removed_wall_sets_its_drops_adrift_and_its_number_is_not_used_again() {
        let plan = corner();
        let on = plan.levels[0].walls[0].id;
        let place = Place::Wall {
            wall: on,
            offset: Mm(1000),
            side: Side::Right,
            height: Mm(406),
        };
        let level = plan.levels[0].id;
        let plan = plan
            .apply(&Edit::AddDrop {
                kind: DropKind::Data,
                level,
                place,
            })
            .unwrap();
        let plan = plan.apply(&Edit::RemoveWall(on)).unwrap();
        assert_eq!(
            plan.drops[0].place,
            Place::Adrift {
                at: Point::new(1000, 0)
            }
        );
        let plan = plan.apply(&wall(&plan, (0, 0), (4000, 0))).unwrap();
        assert_eq!(plan.levels[0].walls[1].id, WallId(3));
    }

    #[test]
    fn a_wall_is_not_made_too_short_for_its_door() {
        let plan = corner();
        let on = plan.levels[0].walls[0];
        let door = Opening {
            id: OpeningId(0),
            wall: on.id,
            offset: Mm(2500),
            width: Mm(900),
            sill: Mm(0),
            head: Mm(2032),
            kind: OpeningKind::Door,
        };
        let plan = plan.apply(&Edit::AddOpening(door)).unwrap();
        let short = Wall {
            to: Point::new(3000, 0),
            ..on
        };
        assert!(
            plan.apply(&Edit::SetWall(short))
                .unwrap_err()
                .sentence
                .contains("W1")
        );
    }
}
