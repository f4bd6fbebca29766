//! Mends the record of the site by the rules of the edits that note it.

use crate::file::losses::Losses;
use crate::plan::Plan;
use crate::plan::edit::sound_record;

use super::LARGEST_NUMBER;

pub(super) fn mend(plan: &mut Plan, losses: &mut Losses) {
    let mut record = std::mem::take(&mut plan.record);
    let before = record.left.len() + record.punch.len();
    record.left.retain(|left| left.cable.0 <= LARGEST_NUMBER);
    record.punch.retain(|item| item.number <= LARGEST_NUMBER);
    record.last_punch = record.last_punch.min(LARGEST_NUMBER);
    let far = before - record.left.len() - record.punch.len();
    let (record, lost) = sound_record(plan, record);
    plan.record = record;
    match lost + far {
        0 => {}
        1 => losses.say("One note from the site is about nothing in the plan and was left out."),
        n => losses.say(format!(
            "{n} notes from the site are about nothing in the plan and were left out."
        )),
    }
}
