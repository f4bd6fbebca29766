//! Mends printed numbers of bores: each is of one place.

use std::collections::BTreeSet;

use super::{LARGEST_NUMBER, plausible, say_doubles, unique};
use crate::file::losses::Losses;
use crate::plan::edit::caps;
use crate::plan::{Plan, Printed};
use crate::shape::Point;
use crate::units::Mm;

/// Rows of levels that are gone stay: their numbers are given.
pub(super) fn mend(plan: &mut Plan, losses: &mut Losses) {
    let printed = &mut plan.printed;
    let before = printed.rows.len();
    let within = |point: Point| plausible(Mm(point.x)) && plausible(Mm(point.y));
    printed.rows.retain(|row| {
        row.number > 0 && plausible(row.height) && within(row.from) && within(row.to)
    });
    let odd = before - printed.rows.len();
    let doubles = unique(&mut printed.rows, &mut BTreeSet::new(), |row| row.number);
    say_doubles(odd + doubles, "printed row of holes", losses);
    if let Some(sentence) = caps::PRINTED.cut(&mut printed.rows) {
        losses.say(sentence);
    }
    printed.rows.sort_by_key(|row| row.number);
    for row in &mut printed.rows {
        row.revision = row.revision.clamp(1, LARGEST_NUMBER);
        printed.revision = printed.revision.max(row.revision);
    }
    printed.revision = printed.revision.min(LARGEST_NUMBER);
    if printed.rows.is_empty() && printed.revision == 0 {
        *printed = Printed::default();
    }
    plan.revision = plan.revision.max(printed.revision);
}
