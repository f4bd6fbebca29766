//! What is fed: every door through which bytes or text of somebody else come in, and everything
//! that follows from a plan that was let in.

use crate::corpus::{Corpus, PLAN, REPLY, packed, records, summed};
use crate::mutate::{Dice, harmed};
use borewright_core::design::Design;
use borewright_core::desk::{Intent, Session};
use borewright_core::file::job::{Drawings, Job};
use borewright_core::file::{self, link};
use borewright_core::plan::Plan;
use borewright_core::report::report;
use borewright_core::scan::header;
use borewright_core::sheet::{Paper, Sheets, Size};
use borewright_core::units::{Units, read_length, read_size};

/// One door.
pub struct Target {
    /// What it is called.
    pub name: &'static str,
    /// Makes an input.
    pub make: fn(&Corpus, &mut Dice) -> Vec<u8>,
    /// Takes an input; whether it was let in.
    pub take: fn(&[u8]) -> bool,
}

/// Every door.
pub const ALL: [Target; 11] = [
    Target {
        name: "file",
        make: |corpus, dice| harmed(&corpus.files, 8, dice),
        take: |bytes| file::read(bytes).is_ok(),
    },
    Target {
        name: "link text",
        make: |corpus, dice| harmed(&corpus.links, 3, dice),
        take: |bytes| {
            let text = String::from_utf8_lossy(bytes);
            link::decode_text(&text).is_ok_and(|bytes| link::read(&bytes).is_ok())
        },
    },
    Target {
        name: "link contents",
        make: |corpus, dice| packed(PLAN, &harmed(&corpus.contents, 2, dice)),
        take: |bytes| link::read(bytes).is_ok(),
    },
    Target {
        name: "reply text",
        make: |corpus, dice| harmed(&corpus.replies, 3, dice),
        take: |bytes| {
            let text = String::from_utf8_lossy(bytes);
            link::decode_text(&text).is_ok_and(|bytes| link::read_reply(&bytes).is_ok())
        },
    },
    Target {
        name: "reply contents",
        make: |corpus, dice| packed(REPLY, &harmed(&corpus.reply_contents, 2, dice)),
        take: |bytes| link::read_reply(bytes).is_ok(),
    },
    Target {
        name: "picture",
        make: |corpus, dice| harmed(&corpus.pictures, 8, dice),
        take: |bytes| header(bytes).is_ok(),
    },
    Target {
        name: "length",
        make: |corpus, dice| harmed(&corpus.lengths, 3, dice),
        take: |bytes| {
            let text = String::from_utf8_lossy(bytes);
            let size = read_size(&text, Units::Metric).is_ok();
            read_length(&text, Units::Imperial).is_ok() || size
        },
    },
    Target {
        name: "journal",
        make: |corpus, dice| harmed(&corpus.journals, 6, dice),
        take: |bytes| opens(&records(bytes)),
    },
    Target {
        name: "records of a journal",
        make: |corpus, dice| harmed(&corpus.journals, 3, dice),
        take: |bytes| opens(&summed(bytes)),
    },
    Target {
        name: "plan of a file",
        make: |corpus, dice| harmed(&corpus.files, 8, dice),
        take: |bytes| file::read(bytes).is_ok_and(|opened| follows(&opened.plan)),
    },
    Target {
        name: "plan of a link",
        make: |corpus, dice| packed(PLAN, &harmed(&corpus.contents, 2, dice)),
        take: |bytes| link::read(bytes).is_ok_and(|opened| follows(&opened.plan)),
    },
];

/// A job of such records opens, every moment of it that can be read comes back, and it is written again.
fn opens(records: &[Vec<u8>]) -> bool {
    let Ok(job) = Job::read(records, Drawings::default()) else {
        return false;
    };
    let mut journal = job.journal.clone();
    let mut session = Session::settled(job.plan.clone(), Design::unsought(&job.plan));
    session.history = job.history.clone();
    for intent in [Intent::Undo, Intent::Undo, Intent::Redo] {
        session = session.after(&intent);
    }
    drop(journal.follow(&session.history, &session.plan));
    true
}

/// Everything that is made of a plan, as far as the page makes it in one go.
fn follows(plan: &Plan) -> bool {
    let design = Design::at_once(plan);
    let pages = Sheets::of(plan, &design, &Paper::of(Size::default()));
    let drawn: usize = pages.iter().map(|page| page.svg().len()).sum();
    let told = report(plan, &design).to_string().len();
    drawn > 0 && told > 0 && !file::write(plan).is_empty()
}
