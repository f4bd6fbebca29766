//! A job as a device keeps it: its journal, its drawings apart, and its line on the list of jobs.
//!
//! The *text* of a job is its plan in the saved form of [`file`](crate::file), with the SHA-256 digest
//! of each drawing in the drawing's place; the drawings lie beside it under their digests, so that a
//! tick of a pen does not write four megabytes again. A *journal* is a row of records:
//!
//! | bytes | what |
//! |---|---|
//! | 0 | the letter `J` |
//! | 1 | version of this format, 1 |
//! | 2 | kind: 1 whole, 2 did, 3 undid, 4 did again |
//! | 3 | 0 |
//! | 4 to 7 | number of the record, counted up by one |
//! | 8 to 11 | bytes of what follows the head |
//! | 12 to 15 | CRC-32 of bytes 0 to 11 and of what follows the head |
//! | 16 and on | whole: the text, deflated. Else: two bytes of length and the words of the change, CRC-32 of the text before, CRC-32 of the text after, and what is another in it (`delta`) |
//!
//! Numbers are little-endian. A journal is begun by a whole text, and another one is put in every
//! hundred records, so that its oldest part can be left out. Reading is total: a record that is torn,
//! changed or missing costs the steps up to the next whole text and nothing else.
//!
//! A named *point* of a job is its text at one moment (`point`), and all jobs go into one *archive*.
//!
//! Nothing here stores anything: the page does, and asks here what to store.

mod archive;
mod delta;
mod drawings;
mod entry;
mod history;
mod journal;
mod moment;
mod point;
mod record;
mod replay;
mod sketch;

pub use archive::Archive;
pub use drawings::{Digest, Drawings};
pub use entry::{DAYS_TO_UNDO, Entry, Standing, in_order};
pub use history::History;
pub use journal::{Journal, Written};
pub use moment::Moment;
pub use point::Point;
pub use sketch::sketch;

use std::rc::Rc;

use super::FileError;
use crate::plan::Plan;

/// A job as it was opened or begun.
#[derive(Clone, Debug)]
pub struct Job {
    /// The plan as it stands.
    pub plan: Rc<Plan>,
    /// What can be undone and redone in it.
    pub history: Rc<History<Moment>>,
    /// What the device has of it.
    pub journal: Journal,
    /// What could not be kept, one sentence each.
    pub losses: Vec<String>,
}

impl Job {
    /// A job that no device has anything of yet.
    pub fn begun(plan: Rc<Plan>) -> Self {
        Self {
            plan,
            history: Rc::default(),
            journal: Journal::default(),
            losses: Vec::new(),
        }
    }

    /// The job as it was before its last change, which can be made again; as it is where there was none.
    pub fn stepped_back(self) -> Self {
        let mut history = (*self.history).clone();
        let undone = history.undo(Moment::Here(Rc::clone(&self.plan)));
        match undone.and_then(|(moment, _)| moment.plan()) {
            Some(plan) => Self {
                plan,
                history: Rc::new(history),
                ..self
            },
            None => self,
        }
    }

    /// A job from its records, in the order of their numbers, and its drawings.
    ///
    /// # Errors
    /// [`FileError`] where no record holds a text that can be read.
    pub fn read(records: &[Vec<u8>], drawings: Drawings) -> Result<Self, FileError> {
        let replayed = replay::replay(records).ok_or(FileError::Damaged)?;
        let opened = drawings.joined(&replayed.present)?;
        let mut losses = opened.losses;
        if replayed.lost > 0 {
            losses.push(String::from(
                "A part of this job's journal is damaged. It was opened as it last stood whole.",
            ));
        }
        let beside = Rc::new(drawings.clone());
        let moment = |(text, words): (Vec<u8>, String)| {
            let moment = Moment::Kept(Rc::new(text), Rc::clone(&beside));
            (moment, words)
        };
        let past = replayed.past.into_iter().map(moment).collect();
        let future = replayed.future.into_iter().map(moment).collect();
        let history = Rc::new(History::of(past, future));
        let journal = Journal::of(replayed.present, replayed.numbers, &history, drawings);
        Ok(Self {
            plan: Rc::new(opened.plan),
            history,
            journal: match replayed.lost {
                0 => journal,
                _ => journal.behind(),
            },
            losses,
        })
    }
}
