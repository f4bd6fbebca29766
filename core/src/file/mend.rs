//! Makes a plan that was read whole in itself: what it names exists, numbers are used once,
//! figures are ones that edits allow. Everything taken out or set anew is said. A plan that edits
//! made passes through untouched. Used by every saved form; never reads bytes.

mod drops;
mod levels;
mod printed;
mod record;
mod replies;
mod settings;
mod site;

pub(super) use settings::stand_in;

use std::collections::{BTreeMap, BTreeSet};

use super::losses::Losses;
use crate::plan::{Level, Numbers, Plan, WallId};
use crate::shape::Point;
use crate::units::Mm;

/// Numbers above this are no number series of ours.
const LARGEST_NUMBER: u32 = 1_000_000_000;

/// Mends a plan in place.
pub(super) fn mend(plan: &mut Plan, losses: &mut Losses) {
    settings::mend(plan, losses);
    levels::mend(&mut plan.levels, losses);
    site::mend(&mut plan.levels, losses);
    drops::mend(plan, losses);
    printed::mend(plan, losses);
    replies::mend(plan, losses);
    record::mend(plan, losses);
    next_numbers(plan);
}

/// Keeps the first holder of each number, and only numbers of a series.
fn unique<T>(list: &mut Vec<T>, seen: &mut BTreeSet<u32>, number: impl Fn(&T) -> u32) -> usize {
    let before = list.len();
    list.retain(|thing| {
        let number = number(thing);
        number <= LARGEST_NUMBER && seen.insert(number)
    });
    before - list.len()
}

/// Says how many were left out for using a number again.
fn say_doubles(doubles: usize, what: &str, losses: &mut Losses) {
    match doubles {
        0 => {}
        1 => losses.say(format!(
            "One {what} used a number again or out of series and was left out."
        )),
        n => losses.say(format!(
            "{n} {what}s used a number again or out of series and were left out."
        )),
    }
}

/// A length that a house can have, as an offset or a height.
fn plausible(length: Mm) -> bool {
    length.0.unsigned_abs() <= Point::LIMIT.unsigned_abs()
}

/// The length of every wall by its number.
fn lengths<'a>(levels: impl IntoIterator<Item = &'a Level>) -> BTreeMap<WallId, Mm> {
    let walls = levels.into_iter().flat_map(|level| &level.walls);
    walls
        .map(|wall| (wall.id, wall.from.distance(wall.to)))
        .collect()
}

/// The next number of each series, and the least it can be: one above every number in use. In the
/// order level, wall, opening, room, keep-out, power run, drop, cable.
pub(super) fn series(plan: &Plan) -> [(u32, u32); 8] {
    fn least(used: impl Iterator<Item = u32>) -> u32 {
        used.max().map_or(1, |largest| largest.saturating_add(1))
    }
    let (all, drops, next) = (|| plan.levels.iter(), &plan.drops, plan.next);
    let left = plan.record.left.iter().map(|left| left.cable.0);
    [
        (next.level, least(all().map(|l| l.id.0))),
        (
            next.wall,
            least(all().flat_map(|l| &l.walls).map(|w| w.id.0)),
        ),
        (
            next.opening,
            least(all().flat_map(|l| &l.openings).map(|o| o.id.0)),
        ),
        (
            next.room,
            least(all().flat_map(|l| &l.rooms).map(|r| r.id.0)),
        ),
        (
            next.keep_out,
            least(all().flat_map(|l| &l.keep_outs).map(|k| k.id.0)),
        ),
        (
            next.power_run,
            least(all().flat_map(|l| &l.power_runs).map(|r| r.id.0)),
        ),
        (next.drop, least(drops.iter().map(|d| d.id.0.max(d.number)))),
        (
            next.cable,
            least(
                drops
                    .iter()
                    .flat_map(|d| &d.cables)
                    .map(|c| c.id.0)
                    .chain(left),
            ),
        ),
    ]
}

/// Sets the next number of each series, in the same order.
pub(super) fn set_series(plan: &mut Plan, next: [u32; 8]) {
    let [level, wall, opening, room, keep_out, power_run, drop, cable] = next;
    plan.next = Numbers {
        level,
        wall,
        opening,
        room,
        keep_out,
        power_run,
        drop,
        cable,
    };
}

/// The next numbers stand above every number in use.
fn next_numbers(plan: &mut Plan) {
    let sound = |(next, least): (u32, u32)| match (least..=LARGEST_NUMBER + 1).contains(&next) {
        true => next,
        false => least,
    };
    let next = series(plan).map(sound);
    set_series(plan, next);
}
