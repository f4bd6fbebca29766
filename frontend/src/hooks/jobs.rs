//! What is done with the jobs on this device: open, begin, copy, rename, set aside, delete.

use std::rc::Rc;

use borewright_core::agreement::{answers_as_it_stands, answers_by_name};
use borewright_core::desk::{Intent, Notice, Session};
use borewright_core::file::job::{Entry, Job, Standing};
use borewright_core::file::link::{self, Spot};
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{Plan, Reply};
use borewright_core::units::Units;
use gloo::timers::callback::Timeout;
use gloo::timers::future::TimeoutFuture;
use wasm_bindgen_futures::spawn_local;

use super::start::{laid_out, say_losses};
use crate::browser::channel::{self, News};
use crate::browser::{clock, jobs, locks, scope, storage};
use crate::state::{Act, Begun, Dispatcher, Place};

/// What is said when a job that is to be changed on the list is open in another window.
const ELSEWHERE: &str =
    "This job is open in another window. Change it there, or close it there first.";

/// A job that has lain on the table for so long did not end the page, milliseconds.
const DRAWN: u32 = 500;

/// A job is asked for after so many milliseconds, each after the one before.
const ASKED_AFTER: [u32; 5] = [0, 300, 700, 1000, 2000];

/// The name that a window holds while it may change a job.
pub fn lock_name(id: &str) -> String {
    scope::own(&format!("borewright job {id}"))
}

/// Opens a job: to be changed here, or to be looked at where another window has it.
///
/// # Errors
/// One sentence when it cannot be read; the table stays as it is.
pub async fn open_job(id: &str, dispatcher: &Dispatcher) -> Result<(), String> {
    open_as(id, dispatcher, |job| job).await
}

/// Opens a job as it was before its last change, which can be made again by redo.
///
/// # Errors
/// One sentence when it cannot be read; the table stays as it is.
pub async fn open_before(id: &str, dispatcher: &Dispatcher) -> Result<(), String> {
    open_as(id, dispatcher, Job::stepped_back).await
}

async fn open_as(
    id: &str,
    dispatcher: &Dispatcher,
    change: impl FnOnce(Job) -> Job,
) -> Result<(), String> {
    let lock = locks::hold(&lock_name(id)).await;
    jobs::note_opening(Some(id));
    let opened = jobs::open(id).await;
    if opened.is_err() {
        jobs::note_opening(None);
    }
    let job = change(opened?);
    let losses = job.losses.clone();
    let place = match lock {
        Some(lock) => Place::Job(id.into(), lock),
        None => Place::Elsewhere(id.into()),
    };
    jobs::note_last(id);
    let session = laid_out(job.plan.clone()).await;
    let begun = Begun::job(job, session, place);
    dispatcher.dispatch(Act::Begin(Box::new(begun)));
    say_losses(dispatcher, &losses);
    // By then it has been drawn.
    Timeout::new(DRAWN, || jobs::note_opening(None)).forget();
    Ok(())
}

/// Opens the job that lay on the table last, or else the one changed last; false when there is none.
/// A job that cannot be read is told of, and the next one is opened.
///
/// # Errors
/// One sentence when the storage cannot be read or written.
pub async fn open_last(dispatcher: &Dispatcher) -> Result<bool, String> {
    jobs::take_over().await?;
    let entries = jobs::entries().await?;
    let at_hand = |entry: &&Entry| entry.standing == Standing::AtHand;
    let at_hand: Vec<&str> = entries
        .iter()
        .filter(at_hand)
        .map(|e| e.id.as_str())
        .collect();
    let last = jobs::last();
    let last = last
        .iter()
        .map(String::as_str)
        .filter(|id| at_hand.contains(id));
    open_first(last.chain(at_hand.iter().copied()), dispatcher).await
}

async fn open_first<'a>(
    ids: impl Iterator<Item = &'a str>,
    dispatcher: &Dispatcher,
) -> Result<bool, String> {
    let mut trouble = None;
    let left = jobs::left_opening();
    for id in ids {
        if left.as_deref() == Some(id) {
            begin_new(Units::Imperial, dispatcher);
            dispatcher.dispatch(Act::Ended(Some(id.into())));
            return Ok(true);
        }
        match open_job(id, dispatcher).await {
            Ok(()) => {
                if let Some(sentence) = trouble {
                    dispatcher.dispatch(Act::Say(Notice::refused(sentence, None)));
                }
                return Ok(true);
            }
            Err(sentence) => trouble = Some(sentence),
        }
    }
    trouble.map_or(Ok(false), Err)
}

/// Lays the job on the table that a reply answers: as it stands, or else by its name. What lies there stays
/// where that is the one. False when none is.
///
/// # Errors
/// One sentence when the storage cannot be read or written.
pub async fn open_answered(
    reply: &Reply,
    table: Option<&Plan>,
    dispatcher: &Dispatcher,
) -> Result<bool, String> {
    if table.is_some_and(|plan| answers_as_it_stands(plan, reply)) {
        return Ok(true);
    }
    let entries = searched().await?;
    let as_it_stands = |plan: &Plan| answers_as_it_stands(plan, reply);
    let found = match one_that(&entries, as_it_stands).await {
        None if table.is_some_and(|plan| answers_by_name(&plan.title, reply)) => return Ok(true),
        None => entries.iter().find(|e| answers_by_name(&e.title, reply)),
        Some((entry, _)) => Some(entry),
    };
    let Some(entry) = found else {
        return Ok(false);
    };
    open_job(&entry.id, dispatcher).await?;
    ask_for(entry.id.clone());
    Ok(true)
}

/// The jobs among which one is sought: none that was deleted, and those first that lay on the table last.
async fn searched() -> Result<Vec<Entry>, String> {
    jobs::take_over().await?;
    let mut entries = jobs::entries().await?;
    entries.retain(|entry| !matches!(entry.standing, Standing::Deleted(_)));
    let last = jobs::last();
    entries.sort_by_key(|entry| !last.contains(&entry.id));
    Ok(entries)
}

/// The first job whose plan is as asked for. What cannot be read is not.
async fn one_that(entries: &[Entry], is: impl Fn(&Plan) -> bool) -> Option<(&Entry, Rc<Plan>)> {
    for entry in entries {
        let job = jobs::open(&entry.id).await.ok();
        if let Some(job) = job.filter(|job| is(&job.plan)) {
            return Some((entry, job.plan));
        }
    }
    None
}

/// Asks for a job that another window changes, to change it here. It is asked again, for what handed it on
/// may have been first to wait for it.
pub fn ask_for(id: String) {
    spawn_local(async move {
        for pause in ASKED_AFTER {
            TimeoutFuture::new(pause).await;
            if locks::is_held(&lock_name(&id)) {
                return;
            }
            channel::tell(&News::Asked(id.clone()));
        }
    });
}

/// Opens the job that a sheet of paper is of, at a wall: one that stands as it stood on the sheet, else one
/// of which a named point does. Which of the two, and its plan as it stands now; `None` where this device has neither.
///
/// # Errors
/// One sentence when the storage cannot be read or written.
pub async fn open_spot(
    spot: &Spot,
    dispatcher: &Dispatcher,
) -> Result<Option<(Age, Rc<Plan>)>, String> {
    let entries = searched().await?;
    if let Some((entry, plan)) = one_that(&entries, |plan| is_of(plan, spot)).await {
        open_job(&entry.id, dispatcher).await?;
        return Ok(Some((Age::AsPrinted, plan)));
    }
    for entry in &entries {
        if was_of(&entry.id, spot).await
            && let Ok(job) = jobs::open(&entry.id).await
        {
            open_job(&entry.id, dispatcher).await?;
            return Ok(Some((Age::Changed, job.plan)));
        }
    }
    Ok(None)
}

/// How a job stands against a sheet of paper.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Age {
    /// As it did when the sheet was printed.
    AsPrinted,
    /// It was changed since.
    Changed,
}

fn is_of(plan: &Plan, spot: &Spot) -> bool {
    link::version(plan).code().as_deref() == Some(spot.version.as_str())
}

/// Whether a named point of a job is what a sheet was printed from. What cannot be read is not.
async fn was_of(id: &str, spot: &Spot) -> bool {
    let (Ok(points), Ok(drawings)) = (jobs::points(id).await, jobs::drawings(id).await) else {
        return false;
    };
    let mut plans = points.iter().filter_map(|point| point.plan(&drawings).ok());
    plans.any(|opened| is_of(&opened.plan, spot))
}

/// Begins a new job on an empty sheet. It is kept from the first change on.
pub fn begin_new(units: Units, dispatcher: &Dispatcher) {
    let plan = Plan::new()
        .apply(&Edit::SetUnits(units))
        .unwrap_or_default();
    let begun = Begun::loose(Session::of(plan));
    dispatcher.dispatch(Act::Begin(Box::new(begun)));
}

/// Puts a copy of a job beside it, with a history of its own.
///
/// # Errors
/// One sentence when it cannot be read or the copy is not kept.
pub async fn duplicate(entry: &Entry) -> Result<(), String> {
    let plan = jobs::open(&entry.id).await?.plan;
    let title = Edit::SetTitle(format!("Copy of {}", plan.title));
    let plan = plan.apply(&title).unwrap_or_else(|_| (*plan).clone());
    let (copy, mut orders) = jobs::begun(plan, clock::moment());
    let copy = Entry {
        next: entry.next.clone(),
        ..copy
    };
    orders.push(jobs::line(&copy));
    storage::write(&orders).await
}

/// Gives a job that lies on no table another name, as one step of its history.
///
/// # Errors
/// One sentence when the name is refused, when another window has the job, or when it is not kept.
pub async fn rename(entry: &Entry, title: String) -> Result<(), String> {
    let Some(_lock) = locks::hold(&lock_name(&entry.id)).await else {
        return Err(String::from(ELSEWHERE));
    };
    let job = jobs::open(&entry.id).await?;
    let mut session = Session::of(job.plan);
    session.history = job.history;
    let edit = Edit::SetTitle(title);
    session
        .plan
        .apply(&edit)
        .map_err(|refusal| refusal.sentence)?;
    let session = session.after(&Intent::Edit(edit));
    let mut journal = job.journal;
    let written = journal.follow(&session.history, &session.plan);
    let entry = Entry {
        title: session.plan.title.clone(),
        changed: clock::moment(),
        ..entry.clone()
    };
    storage::write(&jobs::orders(&entry, written)).await
}

/// Puts a job somewhere else on the list.
///
/// # Errors
/// One sentence when another window has it, or when it is not kept.
pub async fn stand(entry: &Entry, standing: Standing) -> Result<(), String> {
    let Some(_lock) = locks::hold(&lock_name(&entry.id)).await else {
        return Err(String::from(ELSEWHERE));
    };
    let moved = Entry {
        standing,
        ..entry.clone()
    };
    storage::write(&[jobs::line(&moved)]).await
}
