//! Edits of the closet and of drops.

use super::{Done, Refusal, cables, caps, take, tidy};
use crate::plan::{Closet, ClosetPlace, Drop, DropId, DropKind, LevelId, Place, Plan, WallId};
use crate::units::Mm;

pub(super) fn set_closet(plan: &mut Plan, closet: Option<Closet>) -> Done {
    if let Some(closet) = closet {
        let level = plan.level(closet.level);
        let level =
            level.ok_or_else(|| Refusal::because("That level is no longer in the plan."))?;
        if !(Mm(0)..=level.ceiling).contains(&closet.panel_height) {
            return Err(Refusal::because(
                "The panel hangs between floor and ceiling. Check its height.",
            ));
        }
        match closet.place {
            ClosetPlace::Wall { wall, offset, .. } => on_wall(plan, closet.level, wall, offset)?,
            ClosetPlace::Point(at) if !at.is_plausible() => return Err(off_wall()),
            ClosetPlace::Point(_) => {}
        }
    }
    plan.closet = closet;
    Ok(())
}

pub(super) fn add(plan: &mut Plan, kind: DropKind, level: LevelId, place: Place) -> Done {
    caps::DROPS.admits(plan.drops.len())?;
    sound(plan, level, place)?;
    let number = take(&mut plan.next.drop);
    plan.drops.push(Drop {
        id: DropId(number),
        letter: kind.letter(),
        number,
        kind,
        level,
        place,
        cables: Vec::new(),
        fixing: kind.usual_fixing(),
        gangs: 1,
        aim: None,
        outdoors: matches!(place, Place::Outside { .. }),
        buried: false,
        spare: false,
        note: String::new(),
    });
    kind.usual_cables()
        .iter()
        .try_for_each(|cable| cables::add(plan, DropId(number), *cable))
}

pub(super) fn relocate(plan: &mut Plan, id: DropId, place: Place) -> Done {
    let level = plan.drop(id).ok_or_else(gone)?.level;
    sound(plan, level, place)?;
    let drop = drop_mut(plan, id)?;
    drop.outdoors = matches!(place, Place::Outside { .. });
    drop.place = place;
    Ok(())
}

pub(super) fn set(plan: &mut Plan, details: &Drop) -> Done {
    if !(1..=4).contains(&details.gangs) {
        return Err(Refusal::because("A box has one to four gangs."));
    }
    let known = drop_mut(plan, details.id)?;
    *known = Drop {
        letter: known.letter,
        number: known.number,
        level: known.level,
        place: known.place,
        cables: known.cables.clone(),
        note: tidy(&details.note),
        ..details.clone()
    };
    Ok(())
}

pub(super) fn remove(plan: &mut Plan, id: DropId) -> Done {
    plan.drop(id).ok_or_else(gone)?;
    plan.drops.retain(|drop| drop.id != id);
    cables::forget_lost(plan);
    Ok(())
}

pub(super) fn drop_mut(plan: &mut Plan, id: DropId) -> Result<&mut Drop, Refusal> {
    plan.drops
        .iter_mut()
        .find(|drop| drop.id == id)
        .ok_or_else(gone)
}

fn gone() -> Refusal {
    Refusal::because("That drop is no longer in the plan.")
}

fn off_wall() -> Refusal {
    Refusal::because("There is no wall there. Tap nearer to a wall.")
}

fn sound(plan: &Plan, level: LevelId, place: Place) -> Done {
    if plan.level(level).is_none() {
        return Err(Refusal::because("That level is no longer in the plan."));
    }
    match place {
        Place::Wall {
            wall,
            offset,
            height,
            ..
        } => {
            on_wall(plan, level, wall, offset)?;
            let ceiling = plan.level(level).map_or(Mm(0), |level| level.ceiling);
            match (Mm(0)..=ceiling).contains(&height) {
                true => Ok(()),
                false => Err(Refusal::because(
                    "A box is between floor and ceiling. Check its height.",
                )),
            }
        }
        Place::Outside {
            wall,
            offset,
            height,
            ..
        } => {
            on_wall(plan, level, wall, offset)?;
            match (Mm(-3000)..=Mm(12_000)).contains(&height) {
                true => Ok(()),
                false => Err(Refusal::because(
                    "That is no height on this wall. Check it.",
                )),
            }
        }
        Place::Ceiling { at } | Place::Adrift { at } => match at.is_plausible() {
            true => Ok(()),
            false => Err(Refusal::because(
                "That is over 200 m from the origin. Check the scale.",
            )),
        },
    }
}

fn on_wall(plan: &Plan, level: LevelId, wall: WallId, offset: Mm) -> Done {
    let level = plan.level(level).ok_or_else(off_wall)?;
    let wall = level.wall(wall).ok_or_else(off_wall)?;
    match offset >= Mm(0) && offset <= wall.from.distance(wall.to) {
        true => Ok(()),
        false => Err(Refusal::because(format!(
            "That is past the end of {}. Tap on the wall.",
            wall.label()
        ))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::Edit;
    use crate::plan::{CableKindId, Side};
    use crate::shape::Point;

    #[test]
    fn a_drop_off_any_wall_is_refused() {
        let plan = Plan::new();
        let level = plan.levels[0].id;
        let place = Place::Wall {
            wall: WallId(1),
            offset: Mm(0),
            side: Side::Left,
            height: Mm(406),
        };
        let refusal = plan.apply(&Edit::AddDrop {
            kind: DropKind::Data,
            level,
            place,
        });
        assert!(refusal.unwrap_err().sentence.contains("no wall"));
    }

    #[test]
    fn labels_and_cables_survive_removal_of_others() {
        let plan = Plan::new();
        let level = plan.levels[0].id;
        let place = Place::Ceiling {
            at: Point::new(1000, 1000),
        };
        let add = Edit::AddDrop {
            kind: DropKind::CeilingAccessPoint,
            level,
            place,
        };
        let plan = plan.apply(&add).unwrap().apply(&add).unwrap();
        let plan = plan
            .apply(&Edit::RemoveDrop(DropId(1)))
            .unwrap()
            .apply(&add)
            .unwrap();
        let labels: Vec<String> = plan.drops.iter().map(Drop::label).collect();
        assert_eq!(labels, ["A2", "A3"]);
        assert_eq!(plan.cable_label(plan.drops[1].cables[0].id), "A3A");
        assert_eq!(plan.drops[0].cables[0].kind, CableKindId::CAT6);
    }

    #[test]
    fn setting_a_drop_keeps_its_label_and_place() {
        let plan = Plan::new();
        let level = plan.levels[0].id;
        let place = Place::Ceiling {
            at: Point::new(1000, 1000),
        };
        let add = Edit::AddDrop {
            kind: DropKind::CeilingAccessPoint,
            level,
            place,
        };
        let plan = plan.apply(&add).unwrap();
        let details = Drop {
            letter: 'Z',
            gangs: 2,
            place: Place::Adrift {
                at: Point::new(0, 0),
            },
            ..plan.drops[0].clone()
        };
        let plan = plan.apply(&Edit::SetDrop(details)).unwrap();
        assert_eq!((plan.drops[0].letter, plan.drops[0].gangs), ('A', 2));
        assert_eq!(plan.drops[0].place, place);
    }
}
