//! Edits of cables and of what a person overruled about their ways.

use super::drops::drop_mut;
use super::{Done, Refusal, caps, take};
use crate::plan::{Cable, CableId, CableKindId, DropId, Pin, PinTo, Plan, WallId};
use crate::units::Mm;

pub(super) fn add(plan: &mut Plan, drop: DropId, kind: CableKindId) -> Done {
    known(plan, kind)?;
    let id = CableId(take(&mut plan.next.cable));
    let drop = drop_mut(plan, drop)?;
    caps::CABLES.admits(drop.cables.len())?;
    let taken = drop.cables.iter().map(|cable| cable.letter).max();
    let letter = match taken {
        Some('Z') => ('A'..='Z').find(|l| drop.cables.iter().all(|c| c.letter != *l)),
        Some(last) => char::from_u32(last as u32 + 1),
        None => Some('A'),
    };
    drop.cables.push(Cable {
        id,
        letter: letter.unwrap_or('A'),
        kind,
    });
    Ok(())
}

pub(super) fn set(plan: &mut Plan, id: CableId, kind: CableKindId) -> Done {
    known(plan, kind)?;
    let cables = plan.drops.iter_mut().flat_map(|drop| &mut drop.cables);
    let cable = cables
        .into_iter()
        .find(|cable| cable.id == id)
        .ok_or_else(gone)?;
    cable.kind = kind;
    Ok(())
}

pub(super) fn remove(plan: &mut Plan, id: CableId) -> Done {
    if plan.labels_frozen {
        return Err(Refusal::because(
            "Labels are printed, so this cable keeps its name. Mark its drop as spare instead.",
        ));
    }
    let (drop, _) = plan.cable(id).ok_or_else(gone)?;
    if drop.cables.len() < 2 {
        return Err(Refusal::because(
            "A drop keeps one cable. Remove the drop instead.",
        ));
    }
    let drop = drop.id;
    drop_mut(plan, drop)?.cables.retain(|cable| cable.id != id);
    forget_lost(plan);
    Ok(())
}

pub(super) fn add_pin(plan: &mut Plan, pin: Pin) -> Done {
    if let Pin::Cable { cable, to } = pin {
        plan.cable(cable).ok_or_else(gone)?;
        if let PinTo::Overhead { at } = to
            && !at.is_plausible()
        {
            return Err(Refusal::because(
                "That is over 200 m from the origin. Check the scale.",
            ));
        }
    }
    if let Some(wall) = pin.on_wall() {
        let (level, _) = plan
            .wall(wall)
            .ok_or_else(|| Refusal::because("That wall is no longer in the plan."))?;
        if let Pin::Lane { height, .. } = pin
            && !(Mm(50)..=level.ceiling).contains(&height)
        {
            return Err(Refusal::because(
                "A lane lies between floor and ceiling. Check its height.",
            ));
        }
    }
    plan.pins.retain(|known| !known.same_place(&pin));
    caps::PINS.admits(plan.pins.len())?;
    plan.pins.push(pin);
    Ok(())
}

pub(super) fn remove_pin(plan: &mut Plan, pin: Pin) -> Done {
    plan.pins.retain(|known| *known != pin);
    Ok(())
}

/// What names a cable or wall that is gone goes with it: pins, and the keep-outs and power runs of
/// other levels.
pub(super) fn forget_lost(plan: &mut Plan) {
    let cables: Vec<CableId> = plan.cables().map(|(_, cable)| cable.id).collect();
    let levels = plan.levels.iter().flat_map(|level| &level.walls);
    let walls: Vec<WallId> = levels.map(|wall| wall.id).collect();
    let stands = |wall: Option<WallId>| wall.is_none_or(|wall| walls.contains(&wall));
    plan.pins.retain(|pin| {
        stands(pin.on_wall())
            && match pin {
                Pin::Cable { cable, .. } => cables.contains(cable),
                Pin::Lane { .. } => true,
            }
    });
    for level in &mut plan.levels {
        level.keep_outs.retain(|out| stands(out.on_wall()));
        level.power_runs.retain(|run| stands(run.on_wall()));
    }
}

fn known(plan: &Plan, kind: CableKindId) -> Done {
    match plan.catalogue.cable(kind) {
        Some(_) => Ok(()),
        None => Err(Refusal::because(
            "That cable is not in the catalogue. Add it first.",
        )),
    }
}

fn gone() -> Refusal {
    Refusal::because("That cable is no longer in the plan.")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::Edit;
    use crate::plan::{DropKind, PinTo, Place};
    use crate::shape::Point;

    fn plan() -> Plan {
        let plan = Plan::new();
        let place = Place::Ceiling {
            at: Point::new(1000, 1000),
        };
        let level = plan.levels[0].id;
        plan.apply(&Edit::AddDrop {
            kind: DropKind::Data,
            level,
            place,
        })
        .unwrap()
    }

    #[test]
    fn cable_letters_run_on_and_are_not_used_again() {
        let plan = plan();
        let first = plan.drops[0].cables[0].id;
        let plan = plan
            .apply(&Edit::AddCable(DropId(1), CableKindId::CAT6A))
            .unwrap();
        let plan = plan.apply(&Edit::RemoveCable(first)).unwrap();
        let letters: String = plan.drops[0]
            .cables
            .iter()
            .map(|cable| cable.letter)
            .collect();
        assert_eq!(letters, "BC");
    }

    #[test]
    fn a_printed_label_holds_its_cable() {
        let plan = plan().apply(&Edit::FreezeLabels).unwrap();
        let cable = plan.drops[0].cables[0].id;
        assert!(
            plan.apply(&Edit::RemoveCable(cable))
                .unwrap_err()
                .sentence
                .contains("printed")
        );
    }

    #[test]
    fn a_pin_goes_with_its_cable() {
        let plan = plan();
        let cable = plan.drops[0].cables[0].id;
        let pin = Pin::Cable {
            cable,
            to: PinTo::Overhead {
                at: Point::new(5, 5),
            },
        };
        let plan = plan.apply(&Edit::AddPin(pin)).unwrap();
        assert_eq!(plan.pins.len(), 1);
        assert!(
            plan.apply(&Edit::RemoveDrop(DropId(1)))
                .unwrap()
                .pins
                .is_empty()
        );
        assert!(
            plan.apply(&Edit::AddCable(DropId(1), CableKindId(99)))
                .is_err()
        );
    }
}
