//! What is fed: every door through which bytes or text of somebody else come in, and everything
//! that follows from a plan that was let in.

use crate::corpus::{Corpus, PLAN, REPLY, packed};
use crate::mutate::{Dice, harmed};
use borewright_core::design::Design;
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
pub const ALL: [Target; 9] = [
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

/// Everything that is made of a plan.
fn follows(plan: &Plan) -> bool {
    let design = Design::of(plan);
    let pages = Sheets::of(plan, &design, &Paper::of(Size::default()));
    let drawn: usize = pages.iter().map(|page| page.svg().len()).sum();
    let told = report(plan, &design).to_string().len();
    drawn > 0 && told > 0 && !file::write(plan).is_empty()
}
