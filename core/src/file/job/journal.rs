//! What a device has of a job, and what it is still to be told.

use super::delta;
use super::record::{Record, Step, Way};
use super::replay::Numbers;
use super::{Digest, Drawings, History, Moment, Point};
use crate::plan::Plan;

/// So many records between two whole texts.
const FOLDED: u32 = 100;

/// So many steps are told again to a device that missed something.
const TOLD_AGAIN: usize = 20;

/// So many whole texts stay: the oldest is further back than undo goes.
const WHOLES: usize = 4;

/// The end of a journal: what its records come to.
#[derive(Clone, Debug, Default)]
pub struct Journal {
    text: Vec<u8>,
    numbers: Numbers,
    /// Numbers of the changes that were written, as the history has them.
    past: Vec<u64>,
    future: Vec<u64>,
    drawings: Drawings,
    /// The device has all of it.
    sound: bool,
}

/// What a device is to write, all of it or nothing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Written {
    /// Records, each under its number.
    pub records: Vec<(u32, Vec<u8>)>,
    /// They say nothing without the record under this number; `None` where they begin with a whole text.
    pub rests_on: Option<u32>,
    /// Records under smaller numbers can go.
    pub from: Option<u32>,
    /// Drawings, each under its digest.
    pub drawings: Vec<(Digest, Vec<u8>)>,
}

impl Journal {
    pub(super) fn of(
        text: Vec<u8>,
        numbers: Numbers,
        history: &History<Moment>,
        drawings: Drawings,
    ) -> Self {
        let (past, future) = history.numbers();
        Self {
            text,
            numbers,
            past,
            future,
            drawings,
            sound: true,
        }
    }

    /// The same journal when the device may not have all of it: it is told the whole again.
    pub fn behind(mut self) -> Self {
        self.sound = false;
        self.drawings.forget_stored();
        self
    }

    /// A point at the moment the journal ends with.
    pub fn point(&self, name: String, moment: u64) -> Point {
        Point {
            name,
            moment,
            text: self.text.clone(),
        }
    }

    /// What the device is to write now that the job stands so. A journal counts as written from then
    /// on; where writing fails, go on with [`Journal::behind`].
    pub fn follow(&mut self, history: &History<Moment>, plan: &Plan) -> Written {
        let mut records = Vec::new();
        let rests_on = self.sound.then_some(self.numbers.last);
        if self.sound {
            self.steps(history, plan, &mut records);
        } else {
            self.anew(history, plan, &mut records);
        }
        (self.past, self.future) = history.numbers();
        self.sound = true;
        let last = self.numbers.wholes.last().copied().unwrap_or_default();
        if self.numbers.last >= last + FOLDED {
            self.whole(&mut records);
        }
        Written {
            records,
            rests_on,
            from: self.folded(),
            drawings: self.drawings.fresh(),
        }
    }

    /// The whole job with its last steps, for a device that may have nothing of it.
    fn anew(&mut self, history: &History<Moment>, plan: &Plan, records: &mut Records) {
        let (past, _) = history.numbers();
        let first = past.len().saturating_sub(TOLD_AGAIN);
        let begun = past.get(first).and_then(|number| history.before(*number));
        self.text = self.text_of(begun, plan);
        self.whole(records);
        self.past = past.get(..first).unwrap_or_default().to_vec();
        self.future.clear();
        self.steps(history, plan, records);
    }

    /// The steps from what is written to what stands.
    fn steps(&mut self, history: &History<Moment>, plan: &Plan, records: &mut Records) {
        let (past, _) = history.numbers();
        if let Some(oldest) = past.first() {
            self.past.retain(|number| number >= oldest);
        }
        let same = self.past.iter().zip(&past).take_while(|(a, b)| a == b);
        let same = same.count();
        let undone = self.past.split_off(same);
        for (place, number) in undone.iter().enumerate().rev() {
            let earlier = place.checked_sub(1).and_then(|place| undone.get(place));
            let between = earlier.and_then(|number| history.after(*number));
            // The last of them leads to where both part.
            let after = between.or_else(|| history.before(*past.get(same)?));
            let after = self.text_of(after, plan);
            self.step(Way::Undid, history.words(*number), after, records);
            self.future.push(*number);
        }
        for (place, number) in past.iter().enumerate().skip(same) {
            let way = match self.future.pop() {
                Some(next) if next == *number => Way::Redid,
                _ => Way::Did,
            };
            if way == Way::Did {
                self.future.clear();
            }
            let after = past.get(place + 1).and_then(|next| history.before(*next));
            let after = self.text_of(after, plan);
            self.step(way, history.words(*number), after, records);
        }
    }

    /// The text of a moment, or of the plan as it stands.
    fn text_of(&mut self, moment: Option<&Moment>, plan: &Plan) -> Vec<u8> {
        match moment {
            Some(moment) => moment.text(&mut self.drawings).into_owned(),
            None => self.drawings.text_of(plan),
        }
    }

    fn step(&mut self, way: Way, words: &str, after: Vec<u8>, records: &mut Records) {
        let step = Step {
            way,
            words: words.to_string(),
            sums: (crc32fast::hash(&self.text), crc32fast::hash(&after)),
            delta: delta::between(&self.text, &after),
        };
        self.text = after;
        self.put(&Record::Step(step), records);
    }

    fn whole(&mut self, records: &mut Records) {
        self.put(&Record::Whole(self.text.clone()), records);
        self.numbers.wholes.push(self.numbers.last);
    }

    fn put(&mut self, record: &Record, records: &mut Records) {
        self.numbers.last = self.numbers.last.saturating_add(1);
        let number = self.numbers.last;
        records.push((number, record.encoded(number)));
    }

    /// The number from which on the journal reaches back far enough, where older records are there.
    fn folded(&mut self) -> Option<u32> {
        let wholes = &mut self.numbers.wholes;
        let spare = wholes
            .len()
            .checked_sub(WHOLES)
            .filter(|spare| *spare > 0)?;
        wholes.drain(..spare);
        wholes.first().copied()
    }
}

/// Records, each under its number.
type Records = Vec<(u32, Vec<u8>)>;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{Intent, Session};
    use crate::file::job::Job;
    use crate::plan::edit::{Edit, sample};
    use crate::plan::{LevelId, Placing, Scan};
    use proptest::prelude::*;
    use std::collections::BTreeMap;
    use std::rc::Rc;
    use std::sync::Arc;

    /// A device that keeps one job.
    #[derive(Clone, Default)]
    struct Device {
        records: BTreeMap<u32, Vec<u8>>,
        drawings: BTreeMap<String, Vec<u8>>,
        /// Bytes written so far.
        bytes: usize,
    }

    impl Device {
        fn write(&mut self, written: Written) {
            let drawings = written.drawings.into_iter();
            let drawings: Vec<_> = drawings.map(|(d, bytes)| (d.to_string(), bytes)).collect();
            self.bytes += written.records.iter().map(|(_, r)| r.len()).sum::<usize>();
            self.bytes += drawings.iter().map(|(_, d)| d.len()).sum::<usize>();
            self.records.extend(written.records);
            self.drawings.extend(drawings);
            if let Some(from) = written.from {
                self.records.retain(|number, _| *number >= from);
            }
        }

        fn opened(&self) -> Job {
            let records: Vec<Vec<u8>> = self.records.values().cloned().collect();
            Job::read(&records, Drawings::read(self.drawings.clone())).unwrap()
        }
    }

    fn follow(journal: &mut Journal, session: &Session, device: &mut Device) {
        device.write(journal.follow(&session.history, &session.plan));
    }

    fn scan(seed: u8, bytes: usize) -> Arc<Scan> {
        Arc::new(Scan {
            media_type: String::from("image/png"),
            width: 4000,
            height: 3000,
            bytes: (0..bytes).map(|n| (n as u8).wrapping_mul(seed)).collect(),
        })
    }

    /// Intents by whoever works on a job.
    fn intent(choice: u8, seed: u64) -> Intent {
        let level = LevelId(1);
        match choice {
            0..=3 => Intent::Edit(Edit::SetTitle(format!("Plot {seed}"))),
            4 => Intent::Edit(Edit::SetNote(format!("For number {seed}"))),
            5 => Intent::Edit(Edit::NextRevision),
            6 => {
                let scan = scan((seed % 3) as u8 + 1, 5000);
                Intent::Edit(Edit::PutScan(level, scan, Placing::default(), Vec::new()))
            }
            7 => Intent::Edit(Edit::RemoveScan(level)),
            8..=10 => Intent::Undo,
            _ => Intent::Redo,
        }
    }

    fn session(job: Job) -> Session {
        let mut session = Session::of(job.plan);
        session.history = job.history;
        session
    }

    /// Undo all the way and redo all the way give the same plans and words in both.
    fn same_history(one: &Session, two: &Session) -> Result<(), TestCaseError> {
        let (mut one, mut two) = (one.clone(), two.clone());
        for way in [Intent::Undo, Intent::Redo] {
            loop {
                prop_assert_eq!(&*one.plan, &*two.plan);
                prop_assert_eq!(one.history.undo_words(), two.history.undo_words());
                prop_assert_eq!(one.history.redo_words(), two.history.redo_words());
                let before = one.history.numbers();
                (one, two) = (one.after(&way), two.after(&way));
                if one.history.numbers() == before {
                    break;
                }
            }
        }
        Ok(())
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]

        /// Whatever is done, in whatever bursts, a job opens as it was left, its history with it.
        #[test]
        fn a_job_opens_as_it_was_left(
            seed: u64,
            rows in prop::collection::vec((0_u8..12, any::<u64>(), any::<bool>(), 0_u8..30), 0..60),
        ) {
            let mut device = Device::default();
            let mut journal = Journal::default();
            let mut now = Session::of(sample::plan(seed, 20));
            follow(&mut journal, &now, &mut device);
            for (choice, seed, at_ease, reopens) in rows {
                now = now.after(&intent(choice, seed));
                if at_ease {
                    follow(&mut journal, &now, &mut device);
                    let opened = device.opened();
                    prop_assert_eq!(&opened.losses, &Vec::<String>::new());
                    prop_assert_eq!(&*opened.plan, &*now.plan);
                    if reopens == 0 {
                        journal = opened.journal.clone();
                        now = session(opened);
                    }
                }
            }
            follow(&mut journal, &now, &mut device);
            let opened = device.opened();
            prop_assert_eq!(&*opened.plan, &*now.plan);
        }

        /// As long as every change is followed, undo after opening is undo before.
        #[test]
        fn history_survives(seed: u64, rows in prop::collection::vec((0_u8..12, any::<u64>()), 0..40)) {
            let mut device = Device::default();
            let mut journal = Journal::default();
            let mut now = Session::of(sample::plan(seed, 20));
            follow(&mut journal, &now, &mut device);
            for (choice, seed) in rows {
                now = now.after(&intent(choice, seed));
                follow(&mut journal, &now, &mut device);
            }
            same_history(&now, &session(device.opened()))?;
        }

        /// Torn, changed and missing records, in any number, never keep a job from opening as it stood
        /// whole at some moment.
        #[test]
        fn damage_costs_steps_and_not_the_job(
            steps in 1_usize..230,
            harms in prop::collection::vec((any::<prop::sample::Index>(), any::<prop::sample::Index>(), 0_u8..3), 1..4),
        ) {
            let mut device = Device::default();
            let mut journal = Journal::default();
            let mut now = Session::of(Plan::new());
            let mut stood = vec![now.plan.title.clone()];
            follow(&mut journal, &now, &mut device);
            for step in 0..steps {
                now = now.after(&Intent::Edit(Edit::SetTitle(format!("Plot {step}"))));
                stood.push(now.plan.title.clone());
                follow(&mut journal, &now, &mut device);
            }
            // One whole text stays.
            let first = *device.records.keys().next().unwrap();
            for (record, place, harm) in harms {
                let place_of = record.index(device.records.len());
                let number = *device.records.keys().nth(place_of).unwrap();
                if number == first {
                    continue;
                }
                let bytes = device.records.get_mut(&number).unwrap();
                let at = place.index(bytes.len().max(1));
                match harm {
                    0 => bytes.truncate(at),
                    1 if !bytes.is_empty() => bytes[at] ^= 1,
                    _ => drop(device.records.remove(&number)),
                }
            }
            let opened = device.opened();
            prop_assert!(stood.contains(&opened.plan.title));
            // Whoever goes on from there loses nothing more.
            let mut journal = opened.journal.clone();
            let now = session(opened).after(&Intent::Edit(Edit::SetTitle("Mended".into())));
            follow(&mut journal, &now, &mut device);
            prop_assert_eq!(&device.opened().plan.title, "Mended");
        }
    }

    #[test]
    fn what_a_device_failed_to_write_is_written_whole() {
        let (mut device, mut journal) = (Device::default(), Journal::default());
        let put = intent(6, 1);
        let mut now = Session::of(Plan::new()).after(&put);
        journal.follow(&now.history, &now.plan);
        journal = journal.behind();
        now = now.after(&Intent::Edit(Edit::SetTitle("Later".into())));
        follow(&mut journal, &now, &mut device);
        assert_eq!(*device.opened().plan, *now.plan);
        assert_eq!(device.opened().losses, Vec::<String>::new());
        let undone = session(device.opened()).after(&Intent::Undo);
        assert_eq!(undone.plan.title, "New job");
    }

    #[test]
    fn the_change_that_makes_a_plan_a_job_can_be_undone_on_the_next_day() {
        let (mut device, mut journal) = (Device::default(), Journal::default());
        let first = Session::of(sample::plan(5, 40));
        let now = first.after(&Intent::Edit(Edit::SetTitle("Mine".into())));
        follow(&mut journal, &now, &mut device);
        let undone = session(device.opened()).after(&Intent::Undo);
        assert_eq!(*undone.plan, *first.plan);
        assert!(undone.history.is_empty());
    }

    #[test]
    fn a_long_journal_is_folded_and_keeps_every_step_of_undo() {
        let (mut device, mut journal) = (Device::default(), Journal::default());
        let mut now = Session::of(Plan::new());
        for step in 0..1000 {
            now = now.after(&Intent::Edit(Edit::SetTitle(format!("Plot {step}"))));
            follow(&mut journal, &now, &mut device);
        }
        assert!(device.records.len() < 410, "{}", device.records.len());
        assert_eq!(device.opened().history.len(), now.history.len());
        assert!(device.records.values().map(Vec::len).sum::<usize>() < 200_000);
    }

    #[test]
    fn a_tick_writes_no_drawing_again() {
        let (mut device, mut journal) = (Device::default(), Journal::default());
        let scan = scan(7, 4_000_000);
        let edit = Edit::PutScan(LevelId(1), scan, Placing::default(), Vec::new());
        let mut now = Session::of(sample::plan(1, 200)).after(&Intent::Edit(edit));
        follow(&mut journal, &now, &mut device);
        assert!(device.bytes > 4_000_000);
        let before = device.bytes;
        for step in 0..50 {
            now = now.after(&Intent::Edit(Edit::SetTitle(format!("Plot {step}"))));
            follow(&mut journal, &now, &mut device);
        }
        assert!(
            device.bytes - before < 50 * 200,
            "{}",
            device.bytes - before
        );
        let plan: Rc<Plan> = device.opened().plan;
        assert_eq!(*plan, *now.plan);
    }

    #[test]
    fn a_job_steps_back_before_its_last_change() {
        let (mut device, mut journal) = (Device::default(), Journal::default());
        let then = Session::of(sample::plan(3, 40));
        follow(&mut journal, &then, &mut device);
        let now = then.after(&Intent::Edit(Edit::SetTitle("Later".into())));
        follow(&mut journal, &now, &mut device);
        let mut back = device.opened().stepped_back();
        assert_eq!(*back.plan, *then.plan);
        device.write(back.journal.follow(&back.history, &back.plan));
        let opened = session(device.opened());
        assert_eq!(*opened.plan, *then.plan);
        assert_eq!(*opened.after(&Intent::Redo).plan, *now.plan);
        assert_eq!(
            *device.opened().stepped_back().plan,
            *then.plan,
            "nothing to undo"
        );
    }

    #[test]
    fn a_point_gives_the_plan_as_it_was() {
        let (mut device, mut journal) = (Device::default(), Journal::default());
        let then = Session::of(sample::plan(3, 100)).after(&intent(6, 1));
        follow(&mut journal, &then, &mut device);
        let point = journal.point("Printed".into(), 7).write();
        let now = then.after(&Intent::Edit(Edit::RemoveScan(LevelId(1))));
        follow(&mut journal, &now, &mut device);
        let point = Point::read(&point).unwrap();
        let drawings = Drawings::read(device.drawings.clone());
        assert_eq!(point.plan(&drawings).unwrap().plan, *then.plan);
    }

    #[test]
    fn a_drawing_that_is_gone_is_told() {
        let (mut device, mut journal) = (Device::default(), Journal::default());
        let now = Session::of(Plan::new()).after(&intent(6, 1));
        follow(&mut journal, &now, &mut device);
        device.drawings.clear();
        let opened = device.opened();
        let told = "The drawing under Ground is not on this device any more.";
        assert_eq!(opened.losses, [told]);
    }
}
