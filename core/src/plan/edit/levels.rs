//! Edits of levels and of what lies between them.

use super::cables::forget_lost;
use super::{Done, Refusal, caps, level_mut, take, tidy_line};
use crate::plan::{Above, Below, Floor, Level, LevelId, Plan, Rafters};
use crate::rules::trade::STEEPEST_ROOF;
use crate::units::Mm;

pub(super) fn add(plan: &mut Plan, name: &str, floor: Floor) -> Done {
    caps::LEVELS.admits(plan.levels.len())?;
    sound(floor)?;
    let mut level = Level::new(LevelId(take(&mut plan.next.level)), &tidy_line(name));
    level.below = Below::Level(floor);
    if let Some(beneath) = plan.levels.last_mut() {
        level.above = beneath.above;
        beneath.above = Above::LEVEL;
    }
    plan.levels.push(level);
    Ok(())
}

pub(super) fn remove(plan: &mut Plan, id: LevelId) -> Done {
    if plan.levels.len() < 2 {
        return Err(Refusal::because(
            "A plan keeps at least one level. Draw over this one instead.",
        ));
    }
    let Some(place) = plan.levels.iter().position(|level| level.id == id) else {
        return Err(Refusal::because("That level is no longer in the plan."));
    };
    let gone = plan.levels.remove(place);
    plan.drops.retain(|drop| drop.level != id);
    if plan.closet.is_some_and(|closet| closet.level == id) {
        plan.closet = None;
    }
    match (place.checked_sub(1), plan.levels.get(place).is_some()) {
        (Some(beneath), false) => plan.levels[beneath].above = gone.above,
        (None, _) => plan.levels[0].below = gone.below,
        _ => {}
    }
    forget_lost(plan);
    Ok(())
}

pub(super) fn set(plan: &mut Plan, id: LevelId, name: &str, ceiling: Mm) -> Done {
    if !(Mm(1800)..=Mm(12_000)).contains(&ceiling) {
        return Err(Refusal::because(
            "A ceiling is between 6 ft and 39 ft high. Check the height.",
        ));
    }
    let level = level_mut(plan, id)?;
    level.name = tidy_line(name);
    level.ceiling = ceiling;
    Ok(())
}

pub(super) fn set_above(plan: &mut Plan, id: LevelId, above: Above) -> Done {
    let highest = plan.levels.last().is_some_and(|level| level.id == id);
    if highest == matches!(above, Above::Level { .. }) {
        return Err(Refusal::because(match highest {
            true => "There is no level above this one. Add a level first.",
            false => "Another level stands on this one. Change what is over the highest level.",
        }));
    }
    match above {
        Above::AtticJoists(floor) => sound(floor)?,
        Above::AtticTrusses(trusses)
        | Above::Level {
            beside: Some(trusses),
            ..
        } => sound(trusses.as_joists())?,
        Above::ClosedRoof(Some(rafters)) => {
            sound(rafters.as_joists())?;
            steep(rafters)?;
        }
        Above::Level { beside: None, .. } | Above::ClosedRoof(None) => {}
    }
    level_mut(plan, id)?.above = above;
    Ok(())
}

pub(super) fn set_below(plan: &mut Plan, id: LevelId, below: Below) -> Done {
    let lowest = plan.levels.first().is_some_and(|level| level.id == id);
    if lowest == matches!(below, Below::Level(_)) {
        return Err(Refusal::because(match lowest {
            true => "There is no level under this one. Choose a slab or a crawl space.",
            false => "This level stands on another. Only its floor framing can be changed.",
        }));
    }
    if let Below::Crawl(floor) | Below::Level(floor) = below {
        sound(floor)?;
    }
    level_mut(plan, id)?.below = below;
    Ok(())
}

fn steep(rafters: Rafters) -> Done {
    match rafters.pitch <= STEEPEST_ROOF {
        true => Ok(()),
        false => Err(Refusal::because(
            "A roof rises at most 24 in 12. Check its pitch.",
        )),
    }
}

fn sound(floor: Floor) -> Done {
    if floor.direction.unit().is_none() {
        return Err(Refusal::because(
            "State which way the joists run: draw a line along one.",
        ));
    }
    if !(100.0..=2500.0).contains(&floor.spacing.0) {
        return Err(Refusal::because(
            "Joists stand between 4 in and 8 ft apart. Check the spacing.",
        ));
    }
    if !(60.0..=1000.0).contains(&floor.depth.0) {
        return Err(Refusal::because(
            "Joists are between 2-1/2 in and 39 in deep. Check the depth.",
        ));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::Edit;
    use crate::shape::Direction;

    #[test]
    fn a_new_level_takes_over_the_roof() {
        let floor = Floor::sawn(Direction::ALONG_Y);
        let plan = Plan::new()
            .apply(&Edit::AddLevel {
                name: "Upper".into(),
                floor,
            })
            .unwrap();
        assert_eq!(plan.levels[0].above, Above::LEVEL);
        assert!(matches!(plan.levels[1].above, Above::AtticTrusses(_)));
        let upper = plan.levels[1].id;
        let plan = plan.apply(&Edit::RemoveLevel(upper)).unwrap();
        assert!(matches!(plan.levels[0].above, Above::AtticTrusses(_)));
        assert!(plan.apply(&Edit::RemoveLevel(plan.levels[0].id)).is_err());
    }

    /// An attic, whether over trusses or joists, and a closed roof lie over the highest level alone: set
    /// before a level is added they rise with it, set after they are refused.
    #[test]
    fn a_roof_under_another_level_is_refused() {
        let floor = Floor::sawn(Direction::ALONG_Y);
        let roofs = [
            Above::attic_over_trusses(Direction::ALONG_X),
            Above::AtticJoists(floor),
            Above::CLOSED,
            Above::ClosedRoof(Some(Rafters::along(Direction::ALONG_X))),
        ];
        for roof in roofs {
            let plan = Plan::new();
            let ground = plan.levels[0].id;
            let plan = plan.apply(&Edit::SetAbove(ground, roof)).unwrap();
            let name = String::from("Upper");
            let plan = plan.apply(&Edit::AddLevel { name, floor }).unwrap();
            assert_eq!(plan.levels[0].above, Above::LEVEL);
            assert_eq!(plan.levels[1].above, roof);
            let refusal = plan.apply(&Edit::SetAbove(ground, roof)).unwrap_err();
            assert!(
                refusal
                    .sentence
                    .starts_with("Another level stands on this one.")
            );
        }
    }

    #[test]
    fn what_named_a_removed_level_goes_with_it() {
        use crate::plan::{Lumber, Pin, Role, WallId};
        use crate::shape::Point;
        let floor = Floor::sawn(Direction::ALONG_Y);
        let name = String::from("Upper");
        let plan = Plan::new().apply(&Edit::AddLevel { name, floor }).unwrap();
        let upper = plan.levels[1].id;
        let wall = Edit::AddWall {
            level: upper,
            from: Point::new(0, 0),
            to: Point::new(3000, 0),
            lumber: Lumber::TwoByFour,
            role: Role::Partition,
        };
        let (on, height) = (WallId(1), Mm(900));
        let pin = Edit::AddPin(Pin::Lane { wall: on, height });
        let plan = plan.apply(&Edit::Together(vec![wall, pin])).unwrap();
        assert_eq!(plan.pins.len(), 1);
        let plan = plan.apply(&Edit::RemoveLevel(upper)).unwrap();
        assert!(plan.pins.is_empty());
    }

    #[test]
    fn what_is_over_and_under_must_make_sense() {
        let plan = Plan::new();
        let id = plan.levels[0].id;
        assert!(plan.apply(&Edit::SetAbove(id, Above::LEVEL)).is_err());
        let unstated = Floor::sawn(Direction { dx: 0, dy: 0 });
        assert!(
            plan.apply(&Edit::SetBelow(id, Below::Crawl(unstated)))
                .is_err()
        );
        assert!(plan.apply(&Edit::SetAbove(id, Above::CLOSED)).is_ok());
        let too_steep = Rafters {
            pitch: 25,
            ..Rafters::along(Direction::ALONG_X)
        };
        let unstated = Rafters::along(Direction { dx: 0, dy: 0 });
        for rafters in [too_steep, unstated] {
            let roof = Edit::SetAbove(id, Above::ClosedRoof(Some(rafters)));
            assert!(plan.apply(&roof).is_err());
        }
        let squat = Edit::SetLevel {
            level: id,
            name: "Ground".into(),
            ceiling: Mm(0),
        };
        assert!(plan.apply(&squat).is_err());
    }
}
