//! The same program beside the page, in a web worker: it works out one plan at a time and reports. It shows
//! nothing and keeps nothing.
//!
//! A plan goes over as it would be saved, without its drawings. All that follows from it comes back: of a plan
//! whose ways the page has, once they are at their best; of one that is too much for the page also as the
//! moment has it. Sheets, lists and large files are made and read here too.

mod bytes;
mod message;
mod queue;
mod serve;

use std::cell::Cell;
use std::future::poll_fn;
use std::rc::{Rc, Weak};
use std::sync::Arc;

use borewright_core::design::{Design, Effort};
use borewright_core::file::{self, Opened};
use borewright_core::plan::{Plan, Scan};
use borewright_core::report::csv::Table;
use futures_util::future::{Either, select};
use gloo::timers::callback::Timeout;
use gloo::timers::future::TimeoutFuture;

use crate::browser::beside::{Beside, Heard};
use crate::browser::program;
use bytes::Bytes;
pub use message::{LaidPage, News, Order, Told, Wanted};
use queue::Queue;
pub use serve::serve;

/// What follows from a plan is worked out within this time, or not at all: 10 s, in milliseconds.
pub const LONGEST: u32 = 10_000;

/// A worker that tells nothing for so long has failed, milliseconds.
pub const PATIENCE: u32 = 30_000;

/// What the page hears.
#[derive(Debug)]
pub enum Message {
    /// News of a job.
    News(News),
    /// It has come to an end.
    Ended(End),
}

/// Why a worker or its work has ended without an answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// A fault of the program, or no worker could be started.
    Fault,
    /// It asked for more memory than there is for it: 500 MB.
    Memory,
    /// It would have taken longer than 10 s.
    Time,
}

/// The program beside the page, until this is dropped; then nothing of it is heard any more.
pub struct Helper {
    beside: Beside,
    _onmessage: Rc<dyn Fn(Message)>,
}

impl Helper {
    /// Starts it; `None` where the browser starts none. What it tells is read when it comes and heard in a
    /// moment of its own, in the order in which it was told: reading all that follows from a large plan and
    /// drawing it would be too much for one.
    pub fn start(onmessage: impl Fn(Message) + 'static) -> Option<Self> {
        let onmessage: Rc<dyn Fn(Message)> = Rc::new(onmessage);
        let (listening, faulty) = (Rc::downgrade(&onmessage), Cell::new(false));
        let heard = move |heard| {
            let message = match heard {
                Heard::Said(bytes) => match postcard::from_bytes::<News>(&bytes) {
                    Ok(News {
                        told: Told::Fault, ..
                    }) => {
                        faulty.set(true);
                        Message::Ended(End::Fault)
                    }
                    Ok(news) => Message::News(news),
                    Err(_) => Message::Ended(End::Fault),
                },
                // A program that finds no memory any more stops where it stands and tells of no fault.
                Heard::Ended(words) if !faulty.get() && words.contains("unreachable") => {
                    Message::Ended(End::Memory)
                }
                Heard::Ended(_) => Message::Ended(End::Fault),
            };
            let listening = Weak::clone(&listening);
            let hear = move || {
                if let Some(onmessage) = listening.upgrade() {
                    onmessage(message);
                }
            };
            Timeout::new(0, hear).forget();
        };
        let beside = Beside::start(&program::worker_address(), heard)?;
        Some(Self {
            beside,
            _onmessage: onmessage,
        })
    }

    /// Gives it an order.
    pub fn order(&self, order: &Order) {
        // Numbers, bytes and one flag; nothing of it can be refused.
        self.beside
            .say(&postcard::to_allocvec(order).unwrap_or_default());
    }
}

/// The order to improve the ways of a plan, or to work out all of it.
pub fn order(job: u32, plan: &Plan, whole: bool) -> Order {
    Order::Work {
        job,
        whole,
        plan: Bytes(bare(plan)),
    }
}

/// A plan as it goes over: as it would be saved, without its drawings.
fn bare(plan: &Plan) -> Vec<u8> {
    let mut bare = plan.clone();
    for level in &mut bare.levels {
        // That there is a drawing counts, what is on it does not.
        let thin = |scan: Arc<Scan>| Scan {
            bytes: vec![0],
            media_type: scan.media_type.clone(),
            ..*scan
        };
        level.sheet.scan = level.sheet.scan.take().map(thin).map(Arc::new);
    }
    file::write(&bare)
}

/// What follows from a plan at its best, worked out beside the page; `report` is told how much is done, per
/// cent.
///
/// # Errors
/// Why it came to nothing.
pub async fn at_its_best(plan: &Plan, report: impl Fn(u8)) -> Result<Design, End> {
    asked(&order(1, plan, true), LONGEST, |told| match told {
        Told::Whole(design) if design.effort == Effort::Long => Some(*design),
        Told::Done(done) => {
            report(done);
            None
        }
        _ => None,
    })
    .await
}

/// Lays sheets out beside the page; `onpage` gets each of them.
///
/// # Errors
/// Why it came to nothing, or ended before the last page.
pub async fn sheets(
    plan: &Plan,
    design: &Design,
    wanted: Wanted,
    onpage: impl Fn(LaidPage),
) -> Result<(), End> {
    let order = order_sheets(plan, design, wanted, None);
    asked(&order, PATIENCE, |told| match told {
        Told::Page(page) => {
            onpage(page);
            None
        }
        Told::LastPage => Some(()),
        _ => None,
    })
    .await
}

/// Writes sheets as one file beside the page, without the pages that are left out.
///
/// # Errors
/// Why it came to nothing: of the worker, or in the words of whoever writes the file.
pub async fn sheets_file(
    plan: &Plan,
    design: &Design,
    wanted: Wanted,
    left_out: Vec<usize>,
    fonts: [Vec<u8>; 2],
) -> Result<Result<Vec<u8>, String>, End> {
    let order = order_sheets(plan, design, wanted, Some((left_out, fonts.map(Bytes))));
    asked(&order, PATIENCE, |told| match told {
        Told::File(bytes) => Some(bytes.map(|bytes| bytes.0)),
        _ => None,
    })
    .await
}

/// Writes a list beside the page: one table, or everything in one.
///
/// # Errors
/// One sentence.
pub async fn list(plan: &Plan, design: &Design, table: Option<Table>) -> Result<Vec<u8>, String> {
    let place = |table| Table::ALL.iter().position(|one| *one == table);
    let order = Order::List {
        job: 1,
        plan: Bytes(bare(plan)),
        design: Box::new(design.clone()),
        table: table.and_then(place),
    };
    let written = asked(&order, PATIENCE, |told| match told {
        Told::File(bytes) => Some(bytes),
        _ => None,
    });
    let written = written.await.map_err(|end| match end {
        End::Time => "Writing this list takes over 30 s and was stopped. Save the plan to a file instead.",
        End::Memory => "Writing this list takes over 500 MB of memory and was stopped. Save the plan to a file instead.",
        End::Fault => "A fault in this program ended the writing of this list. The plan is whole; load the page again to go on.",
    });
    Ok(written.map_err(String::from)??.0)
}

/// A larger file is read beside the page, bytes: 8 MB.
const LARGE: usize = 8 << 20;

/// Reads a saved plan: a large file beside the page.
///
/// # Errors
/// One sentence.
pub async fn read(bytes: Vec<u8>) -> Result<Opened, String> {
    if bytes.len() <= LARGE || bytes.len() > file::LARGEST {
        return file::read(&bytes).map_err(|error| error.to_string());
    }
    let order = Order::Read {
        job: 1,
        file: Bytes(bytes),
    };
    let read = asked(&order, LONGEST, |told| match told {
        Told::Opened(read) => Some(read),
        _ => None,
    });
    let apart = read.await.map_err(|end| String::from(unread(end)))??;
    let scan = |(media_type, (width, height), bytes): (String, (u32, u32), Bytes)| {
        Arc::new(Scan {
            media_type,
            width,
            height,
            bytes: bytes.0,
        })
    };
    let scans: Vec<_> = apart.scans.into_iter().map(scan).collect();
    let joined = file::joined(&apart.text.0, &scans).map_err(|error| error.to_string())?;
    Ok(Opened {
        losses: apart.losses,
        ..joined
    })
}

/// Why a file was not read to its end.
fn unread(end: End) -> &'static str {
    match end {
        End::Time => "Reading this file takes over 10 s and was stopped. Open another copy of it.",
        End::Memory => {
            "Reading this file takes over 500 MB of memory and was stopped. Open another copy of it."
        }
        End::Fault => {
            "A fault in this program ended the reading of this file. What lies on the table is whole; open another file."
        }
    }
}

fn order_sheets(
    plan: &Plan,
    design: &Design,
    wanted: Wanted,
    file: Option<(Vec<usize>, [Bytes; 2])>,
) -> Order {
    Order::Sheets {
        job: 1,
        plan: Bytes(bare(plan)),
        design: Box::new(design.clone()),
        wanted,
        file,
    }
}

/// Gives an order to a worker of its own and hears it until it gives what is asked for. The first word is
/// waited for so long, milliseconds.
async fn asked<T>(
    order: &Order,
    mut longest: u32,
    mut heed: impl FnMut(Told) -> Option<T>,
) -> Result<T, End> {
    let news = Queue::default();
    let heard = news.clone();
    let helper = Helper::start(move |message| heard.put(message)).ok_or(End::Fault)?;
    helper.order(order);
    loop {
        let next = poll_fn(|context| news.take(context));
        let told = match select(next, TimeoutFuture::new(longest)).await {
            Either::Left((Message::News(news), _)) => news.told,
            Either::Left((Message::Ended(end), _)) => return Err(end),
            Either::Right(_) => return Err(End::Time),
        };
        if let Some(found) = heed(told) {
            return Ok(found);
        }
        longest = PATIENCE;
    }
}
