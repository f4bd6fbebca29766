//! A journal read from its first record to its last.

use super::delta;
use super::history::MOST_STEPS;
use super::record::{Record, Step, Way};

/// A text of the past or of what was undone, with the words of the change beside it.
type Told = (Vec<u8>, String);

/// What a journal tells.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Replayed {
    /// The text as it stands.
    pub present: Vec<u8>,
    /// What can be undone, from the oldest on.
    pub past: Vec<Told>,
    /// What can be made again; the next one last.
    pub future: Vec<Told>,
    /// Numbers of its records.
    pub numbers: Numbers,
    /// Records that were of no use.
    pub lost: usize,
}

/// Numbers of the records of a journal.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Numbers {
    /// The last one that is there; 0 for none.
    pub last: u32,
    /// Those that hold a whole text, from the oldest on.
    pub wholes: Vec<u32>,
}

/// Reads records in their order; `None` where none of them holds a whole text.
pub(super) fn replay(records: &[Vec<u8>]) -> Option<Replayed> {
    let mut told = Replayed::default();
    let mut whole = false;
    for bytes in records {
        let decoded = Record::decoded(bytes);
        let follows = decoded
            .as_ref()
            .is_some_and(|(n, _)| told.numbers.last.checked_add(1) == Some(*n));
        whole &= follows;
        let Some((number, record)) = decoded else {
            told.lost += 1;
            continue;
        };
        told.numbers.last = told.numbers.last.max(number);
        match record {
            Record::Whole(text) => {
                told.stand(text, whole);
                told.numbers.wholes.push(number);
                whole = true;
            }
            Record::Step(step) => {
                whole = whole && told.step(step).is_some();
                told.lost += usize::from(!whole);
            }
        }
    }
    (!told.numbers.wholes.is_empty()).then_some(told)
}

impl Replayed {
    /// A whole text: what stands already, or where to go on from after damage.
    fn stand(&mut self, text: Vec<u8>, whole: bool) {
        if whole && text == self.present {
            return;
        }
        self.present = text;
        self.past.clear();
        self.future.clear();
        self.lost = 0;
    }

    /// One step; `None` where it does not belong to what stands.
    fn step(&mut self, step: Step) -> Option<()> {
        (crc32fast::hash(&self.present) == step.sums.0).then_some(())?;
        let after = delta::applied(&self.present, &step.delta)?;
        (crc32fast::hash(&after) == step.sums.1).then_some(())?;
        let before = (std::mem::replace(&mut self.present, after), step.words);
        match step.way {
            Way::Did => {
                self.future.clear();
                self.past.push(before);
            }
            Way::Undid => {
                self.past.pop();
                self.future.push(before);
            }
            Way::Redid => {
                self.future.pop();
                self.past.push(before);
            }
        }
        if self.past.len() > MOST_STEPS {
            self.past.remove(0);
        }
        Some(())
    }
}
