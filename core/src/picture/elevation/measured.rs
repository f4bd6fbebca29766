//! The studs of a wall that rows on paper measure from.

use std::collections::BTreeSet;

use crate::bore::Along;
use crate::design::Design;
use crate::framing::{Hang, hang_of};
use crate::plan::{Plan, WallId};

/// Their numbers: of the drill list's rows, and of what boxes hang on. Of a run of studs its ends.
pub(crate) fn from(plan: &Plan, design: &Design, wall: WallId) -> BTreeSet<u32> {
    let rows = design
        .drill_list
        .iter()
        .filter_map(|row| row.whereabouts.as_ref());
    let mut numbers: BTreeSet<u32> = rows.flat_map(|place| of_row(&place.along, wall)).collect();
    for drop in &plan.drops {
        if drop.place.on_wall().is_none_or(|(on, _)| on != wall) {
            continue;
        }
        let on = match hang_of(plan, &design.framing, drop) {
            Some(Ok(Hang::On { stud, .. })) => vec![stud],
            Some(Ok(Hang::Between(one, other))) => vec![one, other],
            _ => Vec::new(),
        };
        let studs = design.framing.wall(wall).map(|frame| &frame.studs);
        let number = |at: usize| {
            studs
                .and_then(|studs| studs.get(at))
                .map(|stud| stud.number)
        };
        numbers.extend(on.into_iter().filter_map(number));
    }
    numbers.remove(&0);
    numbers
}

fn of_row(along: &Along, wall: WallId) -> Vec<u32> {
    match along {
        Along::Studs {
            wall: on, numbers, ..
        } if *on == wall => ends(numbers),
        Along::Short { wall: on, past, .. } if *on == wall => vec![*past],
        Along::Past(past) if past.wall == wall => vec![past.stud],
        Along::Corner { from, into } => {
            let here = [from, into].into_iter().filter(|past| past.wall == wall);
            here.map(|past| past.stud).collect()
        }
        _ => Vec::new(),
    }
}

/// The first and the last of each run of numbers.
fn ends(numbers: &[u32]) -> Vec<u32> {
    let runs = numbers.chunk_by(|one, next| one + 1 == *next);
    runs.flat_map(|run| run.first().into_iter().chain(run.last()))
        .copied()
        .collect()
}
