//! Edits of rooms, keep-outs and power runs.

use super::{Done, Refusal, caps, level_mut, take, tidy_line};
use crate::plan::{
    KeepOut, KeepOutId, KeepOutShape, LevelId, Plan, PowerPlace, PowerRun, PowerRunId, Room, RoomId,
};
use crate::shape::Point;
use crate::units::Mm;

pub(super) fn add_room(plan: &mut Plan, level: LevelId, name: &str, at: Point) -> Done {
    if !at.is_plausible() {
        return Err(far());
    }
    let room = Room {
        id: RoomId(take(&mut plan.next.room)),
        name: named(name)?,
        at,
    };
    let rooms = &mut level_mut(plan, level)?.rooms;
    caps::ROOMS.admits(rooms.len())?;
    rooms.push(room);
    Ok(())
}

pub(super) fn set_room(plan: &mut Plan, id: RoomId, name: &str, at: Point) -> Done {
    if !at.is_plausible() {
        return Err(far());
    }
    let name = named(name)?;
    let rooms = plan.levels.iter_mut().flat_map(|level| &mut level.rooms);
    let room = rooms
        .into_iter()
        .find(|room| room.id == id)
        .ok_or_else(|| gone("room"))?;
    *room = Room { id, name, at };
    Ok(())
}

pub(super) fn remove_room(plan: &mut Plan, id: RoomId) -> Done {
    let level = plan
        .levels
        .iter_mut()
        .find(|level| level.room(id).is_some());
    level
        .ok_or_else(|| gone("room"))?
        .rooms
        .retain(|room| room.id != id);
    Ok(())
}

pub(super) fn add_keep_out(plan: &mut Plan, level: LevelId, keep_out: &KeepOut) -> Done {
    sound_keep_out(plan, keep_out)?;
    let id = KeepOutId(take(&mut plan.next.keep_out));
    let keep_outs = &mut level_mut(plan, level)?.keep_outs;
    caps::KEEP_OUTS.admits(keep_outs.len())?;
    keep_outs.push(KeepOut {
        id,
        ..keep_out.clone()
    });
    Ok(())
}

pub(super) fn set_keep_out(plan: &mut Plan, keep_out: &KeepOut) -> Done {
    sound_keep_out(plan, keep_out)?;
    let all = plan
        .levels
        .iter_mut()
        .flat_map(|level| &mut level.keep_outs);
    let known = all.into_iter().find(|known| known.id == keep_out.id);
    *known.ok_or_else(|| gone("keep-out"))? = keep_out.clone();
    Ok(())
}

pub(super) fn remove_keep_out(plan: &mut Plan, id: KeepOutId) -> Done {
    let level = plan
        .levels
        .iter_mut()
        .find(|level| level.keep_out(id).is_some());
    level
        .ok_or_else(|| gone("keep-out"))?
        .keep_outs
        .retain(|known| known.id != id);
    Ok(())
}

pub(super) fn add_power_run(plan: &mut Plan, level: LevelId, run: &PowerRun) -> Done {
    sound_power_run(plan, run)?;
    let id = PowerRunId(take(&mut plan.next.power_run));
    let runs = &mut level_mut(plan, level)?.power_runs;
    caps::POWER_RUNS.admits(runs.len())?;
    runs.push(PowerRun { id, ..run.clone() });
    Ok(())
}

pub(super) fn set_power_run(plan: &mut Plan, run: &PowerRun) -> Done {
    sound_power_run(plan, run)?;
    let all = plan
        .levels
        .iter_mut()
        .flat_map(|level| &mut level.power_runs);
    let known = all.into_iter().find(|known| known.id == run.id);
    *known.ok_or_else(|| gone("power run"))? = run.clone();
    Ok(())
}

pub(super) fn remove_power_run(plan: &mut Plan, id: PowerRunId) -> Done {
    let level = plan
        .levels
        .iter_mut()
        .find(|level| level.power_run(id).is_some());
    level
        .ok_or_else(|| gone("power run"))?
        .power_runs
        .retain(|known| known.id != id);
    Ok(())
}

fn gone(what: &str) -> Refusal {
    Refusal::because(format!("That {what} is no longer in the plan."))
}

fn named(name: &str) -> Result<String, Refusal> {
    let name = tidy_line(name);
    match name.is_empty() {
        true => Err(Refusal::because(
            "A room needs a name. Type what the owner calls it.",
        )),
        false => Ok(name),
    }
}

/// The tallest height a keep-out or power run can name, either way from the floor.
const TALLEST: i32 = 20_000;

fn sound_height(height: Mm) -> Done {
    match height.0.unsigned_abs() <= TALLEST.unsigned_abs() {
        true => Ok(()),
        false => Err(Refusal::because(
            "That height is over 20 m from the floor. Check it.",
        )),
    }
}

fn sound_keep_out(plan: &Plan, keep_out: &KeepOut) -> Done {
    sound_height(keep_out.bottom)?;
    sound_height(keep_out.top)?;
    if keep_out.bottom >= keep_out.top {
        return Err(Refusal::because(
            "A keep-out's top lies over its bottom. Check its heights.",
        ));
    }
    match &keep_out.shape {
        KeepOutShape::Region(corners) if corners.len() < 3 => Err(Refusal::because(
            "A keep-out needs at least three corners. Tap one more.",
        )),
        KeepOutShape::Region(corners) if corners.len() > caps::CORNERS.most => {
            caps::CORNERS.admits(corners.len())
        }
        KeepOutShape::Region(corners) if !corners.iter().all(|c| c.is_plausible()) => Err(far()),
        KeepOutShape::Region(_) => Ok(()),
        KeepOutShape::Stretch { wall, from, to } => stretch(plan, *wall, *from, *to),
    }
}

fn sound_power_run(plan: &Plan, run: &PowerRun) -> Done {
    if let PowerPlace::Wall { height, .. } = run.place {
        sound_height(height)?;
    }
    match &run.place {
        PowerPlace::Overhead(points) if points.len() < 2 => Err(Refusal::because(
            "A power run needs two points. Tap where it goes.",
        )),
        PowerPlace::Overhead(points) if points.len() > caps::BENDS.most => {
            caps::BENDS.admits(points.len())
        }
        PowerPlace::Overhead(points) if !points.iter().all(|p| p.is_plausible()) => Err(far()),
        PowerPlace::Overhead(_) => Ok(()),
        PowerPlace::Wall { wall, from, to, .. } => stretch(plan, *wall, *from, *to),
    }
}

fn far() -> Refusal {
    Refusal::because("That is over 200 m from the origin. Check the scale.")
}

fn stretch(plan: &Plan, wall: crate::plan::WallId, from: Mm, to: Mm) -> Done {
    let (_, wall) = plan.wall(wall).ok_or_else(|| gone("wall"))?;
    let length = wall.from.distance(wall.to);
    match from >= Mm(0) && from <= to && to <= length {
        true => Ok(()),
        false => Err(Refusal::because(format!(
            "The stretch runs past the ends of {}. Check its offsets.",
            wall.label()
        ))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::KeepOutReason;
    use crate::plan::edit::Edit;

    #[test]
    fn a_room_has_a_name_and_keeps_its_number() {
        let plan = Plan::new();
        let level = plan.levels[0].id;
        let at = Point::new(100, 100);
        assert!(
            plan.apply(&Edit::AddRoom {
                level,
                name: " ".into(),
                at
            })
            .is_err()
        );
        let plan = plan
            .apply(&Edit::AddRoom {
                level,
                name: "Den".into(),
                at,
            })
            .unwrap();
        let room = plan.levels[0].rooms[0].id;
        let plan = plan
            .apply(&Edit::SetRoom {
                room,
                name: "Study".into(),
                at,
            })
            .unwrap();
        assert_eq!(plan.levels[0].rooms[0].name, "Study");
        assert!(
            plan.apply(&Edit::RemoveRoom(room)).unwrap().levels[0]
                .rooms
                .is_empty()
        );
    }

    #[test]
    fn a_keep_out_needs_a_shape() {
        let plan = Plan::new();
        let keep_out = |shape, top| KeepOut {
            id: KeepOutId(0),
            shape,
            bottom: Mm(0),
            top: Mm(top),
            reason: KeepOutReason::Duct,
        };
        let level = plan.levels[0].id;
        let corners: Vec<Point> = [(0, 0), (900, 0), (900, 900)]
            .map(|(x, y)| Point::new(x, y))
            .into();
        let line = KeepOutShape::Region(corners[..2].to_vec());
        assert!(
            plan.apply(&Edit::AddKeepOut(level, keep_out(line, 2400)))
                .is_err()
        );
        let region = KeepOutShape::Region(corners);
        assert!(
            plan.apply(&Edit::AddKeepOut(level, keep_out(region.clone(), 0)))
                .is_err()
        );
        assert!(
            plan.apply(&Edit::AddKeepOut(level, keep_out(region, 2400)))
                .is_ok()
        );
    }

    #[test]
    fn a_power_run_names_a_wall_that_stands() {
        let plan = Plan::new();
        let place = PowerPlace::Wall {
            wall: crate::plan::WallId(7),
            from: Mm(0),
            to: Mm(100),
            height: Mm(450),
        };
        let run = PowerRun {
            id: PowerRunId(0),
            place,
            circuits: 1,
            panel: false,
        };
        assert!(
            plan.apply(&Edit::AddPowerRun(plan.levels[0].id, run))
                .is_err()
        );
    }
}
