//! Mends rooms, keep-outs and power runs.

use std::collections::{BTreeMap, BTreeSet};

use super::{lengths, plausible, say_doubles, unique};
use crate::file::losses::Losses;
use crate::plan::edit::{caps, tidy_line};
use crate::plan::{KeepOut, KeepOutShape, Level, PowerPlace, PowerRun, Room, WallId};
use crate::shape::Point;
use crate::units::Mm;

type Lengths = BTreeMap<WallId, Mm>;

pub(super) fn mend(levels: &mut [Level], losses: &mut Losses) {
    let lengths = lengths(&*levels);
    let (mut rooms, mut outs, mut runs) = (BTreeSet::new(), BTreeSet::new(), BTreeSet::new());
    for level in levels {
        let doubles = unique(&mut level.rooms, &mut rooms, |room| room.id.0);
        say_doubles(doubles, "room", losses);
        let doubles = unique(&mut level.keep_outs, &mut outs, |out| out.id.0);
        say_doubles(doubles, "keep-out", losses);
        let doubles = unique(&mut level.power_runs, &mut runs, |run| run.id.0);
        say_doubles(doubles, "power run", losses);
        let cut = [
            caps::ROOMS.cut(&mut level.rooms),
            caps::KEEP_OUTS.cut(&mut level.keep_outs),
            caps::POWER_RUNS.cut(&mut level.power_runs),
        ];
        cut.into_iter().flatten().for_each(|told| losses.say(told));
        let name = &level.name;
        let mut lost = |what: &str| losses.say(format!("{what} of {name} has no sound place."));
        level
            .rooms
            .retain_mut(|room| is_room(room) || out(&mut lost, "A room"));
        level
            .keep_outs
            .retain(|keep_out| is_keep_out(keep_out, &lengths) || out(&mut lost, "A keep-out"));
        level
            .power_runs
            .retain(|run| is_power_run(run, &lengths) || out(&mut lost, "A power run"));
    }
}

/// Says the loss, and that the thing goes.
fn out(lost: &mut impl FnMut(&str), what: &str) -> bool {
    lost(what);
    false
}

fn is_room(room: &mut Room) -> bool {
    room.name = tidy_line(&room.name);
    room.at.is_plausible() && !room.name.is_empty()
}

fn is_keep_out(keep_out: &KeepOut, lengths: &Lengths) -> bool {
    let upright =
        keep_out.bottom < keep_out.top && plausible(keep_out.bottom) && plausible(keep_out.top);
    upright
        && match &keep_out.shape {
            KeepOutShape::Region(corners) => {
                (3..=caps::CORNERS.most).contains(&corners.len())
                    && corners.iter().all(|c| c.is_plausible())
            }
            KeepOutShape::Stretch { wall, from, to } => {
                lengths.contains_key(wall) && is_stretch(*from, *to)
            }
        }
}

fn is_power_run(run: &PowerRun, lengths: &Lengths) -> bool {
    match &run.place {
        PowerPlace::Overhead(points) => {
            (2..=caps::BENDS.most).contains(&points.len())
                && points.iter().all(|p: &Point| p.is_plausible())
        }
        PowerPlace::Wall {
            wall,
            from,
            to,
            height,
        } => lengths.contains_key(wall) && is_stretch(*from, *to) && plausible(*height),
    }
}

/// A stretch may run past the end of a wall that was shortened later.
fn is_stretch(from: Mm, to: Mm) -> bool {
    Mm(0) <= from && from <= to && plausible(to)
}
