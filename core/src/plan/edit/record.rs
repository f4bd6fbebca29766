//! Edits of the record of the job, and what becomes of it when a cable or a drop leaves the plan.

use std::collections::BTreeMap;

use super::{Done, Refusal, tidy, tidy_line};
use crate::plan::{
    BoxStage, CableId, CableStage, Drop, DropId, LeftCable, Mark, Plan, PunchItem, SiteRecord, Test,
};
use crate::units::Mm;

/// The most punch items one job keeps.
pub(crate) const MOST_PUNCH: usize = 500;
/// No cable of a house is longer: a kilometre.
const LONGEST: Mm = Mm(1_000_000);

/// One thing noted on site. A date is the text the page gives; `None` takes the note back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Note {
    /// A cable has reached a stage, at a date.
    Cable(CableId, CableStage, Option<String>),
    /// A box has reached a stage, at a date.
    Box(DropId, BoxStage, Option<String>),
    /// How a cable's test came out.
    Test(CableId, Option<Test>),
    /// A cable's length as measured, from end to end.
    Length(CableId, Option<Mm>),
    /// A word about a box.
    BoxWords(DropId, String),
    /// Where the pictures are kept.
    Photos(String),
    /// The inspection before cover is done.
    Inspected(Option<Mark>),
    /// The job is handed over.
    HandedOver(Option<Mark>),
    /// Something is to be put right, about a drop or the job.
    AddPunch(Option<DropId>, String),
    /// A punch item, by its number, is done at a date, or open again.
    Punch(u32, Option<String>),
    /// A punch item was none.
    RemovePunch(u32),
    /// A cable that left the plan was taken out of the wall.
    TakenOut(CableId),
}

pub(super) fn take(plan: &mut Plan, note: &Note) -> Done {
    match note {
        Note::Cable(id, stage, date) => of_cable(plan, *id, |cable| {
            reach(&mut cable.reached, *stage, date.as_deref());
        }),
        Note::Test(id, test) => of_cable(plan, *id, |cable| {
            cable.test = test.as_ref().map(|test| Test {
                date: tidy_line(&test.date),
                fault: tidy(&test.fault),
            });
        }),
        Note::Length(id, length) => measured(plan, *id, *length),
        Note::Box(id, stage, date) => of_box(plan, *id, |noted| {
            reach(&mut noted.reached, *stage, date.as_deref());
        }),
        Note::BoxWords(id, words) => of_box(plan, *id, |noted| noted.note = tidy(words)),
        Note::Photos(words) => {
            plan.record.photos = tidy(words);
            Ok(())
        }
        Note::Inspected(mark) => {
            plan.record.inspected = mark.as_ref().map(tidied);
            Ok(())
        }
        Note::HandedOver(mark) => {
            plan.record.handed_over = mark.as_ref().map(tidied);
            Ok(())
        }
        Note::AddPunch(drop, text) => add_punch(plan, *drop, text),
        Note::Punch(number, done) => {
            let done = done.as_deref().map(tidy);
            punch_mut(plan, *number).map(|item| item.done = done)
        }
        Note::RemovePunch(number) => {
            punch_mut(plan, *number)?;
            plan.record.punch.retain(|item| item.number != *number);
            Ok(())
        }
        Note::TakenOut(id) => taken_out(plan, *id),
    }
}

fn reach<S: Ord>(reached: &mut BTreeMap<S, String>, stage: S, date: Option<&str>) {
    match date {
        Some(date) => drop(reached.insert(stage, tidy_line(date))),
        None => drop(reached.remove(&stage)),
    }
}

/// Changes what is noted of a cable; what is left without a note leaves the record.
fn of_cable(
    plan: &mut Plan,
    id: CableId,
    change: impl FnOnce(&mut crate::plan::CableRecord),
) -> Done {
    if plan.cable(id).is_none() {
        return Err(gone("cable"));
    }
    let noted = plan.record.cables.entry(id).or_default();
    change(noted);
    plan.record.cables.retain(|_, noted| !noted.is_empty());
    Ok(())
}

fn of_box(plan: &mut Plan, id: DropId, change: impl FnOnce(&mut crate::plan::BoxRecord)) -> Done {
    if plan.drop(id).is_none() {
        return Err(gone("drop"));
    }
    change(plan.record.boxes.entry(id).or_default());
    plan.record.boxes.retain(|_, noted| !noted.is_empty());
    Ok(())
}

fn measured(plan: &mut Plan, id: CableId, length: Option<Mm>) -> Done {
    if length.is_some_and(|length| !(Mm(1)..=LONGEST).contains(&length)) {
        return Err(Refusal::because(
            "That is no length of a cable in a house. Check the unit.",
        ));
    }
    of_cable(plan, id, |cable| cable.length = length)
}

fn tidied(mark: &Mark) -> Mark {
    Mark {
        date: tidy_line(&mark.date),
        who: tidy_line(&mark.who),
    }
}

fn add_punch(plan: &mut Plan, drop: Option<DropId>, text: &str) -> Done {
    if drop.is_some_and(|id| plan.drop(id).is_none()) {
        return Err(gone("drop"));
    }
    let text = tidy(text);
    if text.is_empty() {
        return Err(Refusal::because(
            "A punch item needs words. Type what is to be put right.",
        ));
    }
    let record = &mut plan.record;
    if record.punch.len() >= MOST_PUNCH {
        return Err(Refusal::because(
            "A punch list keeps up to 500 items. Remove one that is done first.",
        ));
    }
    record.last_punch = record.last_punch.saturating_add(1);
    record.punch.push(PunchItem {
        number: record.last_punch,
        drop,
        text,
        done: None,
    });
    Ok(())
}

fn punch_mut(plan: &mut Plan, number: u32) -> Result<&mut PunchItem, Refusal> {
    let mut items = plan.record.punch.iter_mut();
    items
        .find(|item| item.number == number)
        .ok_or_else(|| Refusal::because("That punch item is no longer in the list."))
}

fn taken_out(plan: &mut Plan, id: CableId) -> Done {
    let before = plan.record.left.len();
    plan.record.left.retain(|left| left.cable != id);
    match plan.record.left.len() < before {
        true => Ok(()),
        false => Err(gone("cable")),
    }
}

fn gone(what: &str) -> Refusal {
    Refusal::because(format!("That {what} is no longer in the plan."))
}

/// After an edit: a cable that left the plan and was noted as pulled stays in the record by its name,
/// for it is in the wall; other notes of what is gone go with it. A punch item of a drop that is gone
/// becomes one of the job, with the drop's name before its words.
pub(super) fn keep_lost(before: &Plan, plan: &mut Plan) {
    if plan.record.is_empty() {
        return;
    }
    let mut record = std::mem::take(&mut plan.record);
    let (cables, drops) = (identities(plan), plan.drops.iter().map(|drop| drop.id));
    let drops: Vec<DropId> = drops.collect();
    for (id, noted) in &record.cables {
        if !cables.contains(id) && noted.reached.contains_key(&CableStage::Pulled) {
            record.left.push(LeftCable {
                cable: *id,
                name: before.cable_label(*id),
            });
        }
    }
    record.cables.retain(|id, _| cables.contains(id));
    record.boxes.retain(|id, _| drops.contains(id));
    for item in &mut record.punch {
        if let Some(id) = item.drop.filter(|id| !drops.contains(id)) {
            let name = before.drop(id).map_or_else(String::new, Drop::label);
            item.text = tidy(&format!("{name}: {}", item.text));
            item.drop = None;
        }
    }
    plan.record = record;
}

fn identities(plan: &Plan) -> Vec<CableId> {
    plan.cables().map(|(_, cable)| cable.id).collect()
}

/// The record as edits could have made it; how many parts were left out for naming nothing.
pub(crate) fn sound(plan: &Plan, record: SiteRecord) -> (SiteRecord, usize) {
    let (cables, before) = (identities(plan), parts(&record));
    let mut sound = record;
    sound.cables.retain(|id, noted| {
        tidy_all(&mut noted.reached);
        noted.length = noted.length.filter(|l| (Mm(1)..=LONGEST).contains(l));
        if let Some(test) = &mut noted.test {
            (test.date, test.fault) = (tidy_line(&test.date), tidy(&test.fault));
        }
        cables.contains(id) && !noted.is_empty()
    });
    sound.boxes.retain(|id, noted| {
        tidy_all(&mut noted.reached);
        noted.note = tidy(&noted.note);
        plan.drop(*id).is_some() && !noted.is_empty()
    });
    let mut seen = Vec::new();
    sound.left.retain_mut(|left| {
        left.name = tidy_line(&left.name);
        let is_new = !seen.contains(&left.cable);
        seen.push(left.cable);
        is_new && !cables.contains(&left.cable) && !left.name.is_empty()
    });
    let mut numbers = Vec::new();
    sound.punch.retain_mut(|item| {
        item.text = tidy(&item.text);
        item.done = item.done.as_deref().map(tidy);
        item.drop = item.drop.filter(|id| plan.drop(*id).is_some());
        let is_new = item.number > 0 && !numbers.contains(&item.number);
        numbers.push(item.number);
        is_new && !item.text.is_empty()
    });
    sound.punch.truncate(MOST_PUNCH);
    let used = sound.punch.iter().map(|item| item.number).max();
    sound.last_punch = sound.last_punch.max(used.unwrap_or_default());
    sound.photos = tidy(&sound.photos);
    sound.inspected = sound.inspected.as_ref().map(tidied);
    sound.handed_over = sound.handed_over.as_ref().map(tidied);
    let lost = before - parts(&sound);
    (sound, lost)
}

fn tidy_all<S>(reached: &mut BTreeMap<S, String>) {
    reached
        .values_mut()
        .for_each(|date| *date = tidy_line(date));
}

fn parts(record: &SiteRecord) -> usize {
    record.cables.len() + record.boxes.len() + record.left.len() + record.punch.len()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::Edit;
    use crate::plan::{DropKind, Place};
    use crate::shape::Point;

    /// Two outlets on the ceiling, of two cables each: D1 with 1 and 2, D2 with 3 and 4.
    fn plan() -> Plan {
        let level = Plan::new().levels[0].id;
        let add = Edit::AddDrop {
            kind: DropKind::Data,
            level,
            place: Place::Ceiling {
                at: Point::new(1000, 1000),
            },
        };
        let both = Edit::Together(vec![add.clone(), add]);
        Plan::new().apply(&both).unwrap()
    }

    fn noted(plan: &Plan, notes: &[Note]) -> Plan {
        let edits = notes.iter().cloned().map(Edit::Note).collect();
        plan.apply(&Edit::Together(edits)).unwrap()
    }

    fn pulled(id: u32) -> Note {
        Note::Cable(CableId(id), CableStage::Pulled, Some("2026-06-02".into()))
    }

    fn refused(plan: &Plan, note: Note) -> String {
        let refusal = plan.apply(&Edit::Note(note));
        refusal.expect_err("should be refused").sentence
    }

    #[test]
    fn a_note_that_is_taken_back_leaves_nothing() {
        let plan = plan();
        let there = noted(
            &plan,
            &[
                pulled(1),
                Note::Box(DropId(1), BoxStage::Tucked, Some(String::new())),
                Note::Length(CableId(2), Some(Mm(20_000))),
                Note::Test(CableId(2), Some(Test::default())),
                Note::BoxWords(DropId(2), " behind the door\u{7} ".into()),
            ],
        );
        assert!(there.record.has_cable(CableId(1), CableStage::Pulled));
        assert!(there.record.has_box(DropId(1), BoxStage::Tucked));
        assert!(there.record.test(CableId(2)).is_some_and(Test::is_good));
        assert_eq!(there.record.box_note(DropId(2)), "behind the door");
        let back = noted(
            &there,
            &[
                Note::Cable(CableId(1), CableStage::Pulled, None),
                Note::Box(DropId(1), BoxStage::Tucked, None),
                Note::Length(CableId(2), None),
                Note::Test(CableId(2), None),
                Note::BoxWords(DropId(2), " ".into()),
            ],
        );
        assert_eq!(back, plan);
    }

    #[test]
    fn what_is_not_there_or_cannot_be_is_refused() {
        let plan = plan();
        assert!(refused(&plan, pulled(9)).contains("no longer"));
        let far = Note::Length(CableId(1), Some(Mm(2_000_000)));
        assert!(refused(&plan, far).contains("unit"));
        let mute = Note::AddPunch(None, " ".into());
        assert!(refused(&plan, mute).contains("words"));
        let gone = Note::AddPunch(Some(DropId(9)), "plate".into());
        assert!(refused(&plan, gone).contains("no longer"));
        assert!(refused(&plan, Note::RemovePunch(1)).contains("no longer"));
        assert!(refused(&plan, Note::TakenOut(CableId(1))).contains("no longer"));
    }

    #[test]
    fn a_pulled_cable_that_leaves_the_plan_stays_in_the_record_by_its_name() {
        let labelled = Note::Cable(CableId(4), CableStage::Labelled, Some(String::new()));
        let there = noted(&plan(), &[pulled(3), labelled]);
        let gone = there.apply(&Edit::RemoveDrop(DropId(2))).unwrap();
        let left = LeftCable {
            cable: CableId(3),
            name: "D2A".into(),
        };
        assert_eq!(gone.record.left, [left]);
        assert!(gone.record.cables.is_empty());
        let out = noted(&gone, &[Note::TakenOut(CableId(3))]);
        assert!(out.record.is_empty());
        let one = there.apply(&Edit::RemoveCable(CableId(3))).unwrap();
        assert_eq!(one.record.left.len(), 1);
        assert_eq!(one.record.cables.len(), 1);
    }

    #[test]
    fn a_punch_item_outlives_its_drop_and_keeps_its_number() {
        let add = |text: &str| Note::AddPunch(Some(DropId(2)), text.into());
        let there = noted(&plan(), &[add("plate cracked"), add("label missing")]);
        let done = noted(&there, &[Note::Punch(1, Some("2026-09-01".into()))]);
        assert_eq!(done.record.punch[0].done.as_deref(), Some("2026-09-01"));
        let gone = done.apply(&Edit::RemoveDrop(DropId(2))).unwrap();
        assert_eq!(gone.record.punch[1].text, "D2: label missing");
        assert_eq!(gone.record.punch[1].drop, None);
        let removed = noted(&gone, &[Note::RemovePunch(2)]);
        let again = noted(&removed, &[Note::AddPunch(None, "sweep".into())]);
        assert_eq!(again.record.punch[1].label(), "P3");
    }

    #[test]
    fn a_record_that_edits_made_is_sound() {
        let plan = noted(
            &plan(),
            &[pulled(1), Note::AddPunch(None, "a punch item".into())],
        );
        let (same, lost) = sound(&plan, plan.record.clone());
        assert_eq!((same, lost), (plan.record.clone(), 0));
        let mut foul = plan.record.clone();
        foul.cables
            .insert(CableId(77), foul.cables[&CableId(1)].clone());
        foul.punch.push(foul.punch[0].clone());
        assert_eq!(sound(&plan, foul), (plan.record.clone(), 2));
    }
}
