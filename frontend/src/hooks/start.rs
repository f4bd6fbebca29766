//! What the page begins with: the plan of a link, then the plan kept on this device, then the demo.

use std::rc::Rc;

use borewright_core::desk::{Choice, Notice, Session};
use borewright_core::file::link::{LinkError, Spot};
use borewright_core::file::{self, Opened, link};
use borewright_core::plan::{Plan, Reply};
use gloo::events::EventListener;
use gloo::timers::future::TimeoutFuture;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use super::jobs::{Age, open_answered, open_last, open_spot};
use super::ways;
use crate::browser::{address, assets, clock, jobs, screen, storage};
use crate::demo::Example;
use crate::state::{Act, Begun, Desk, Dispatcher, Keeping, Visit};

/// Begins once, when the page is mounted.
#[hook]
pub fn use_start(desk: &Rc<Desk>, dispatcher: &Dispatcher) {
    let dispatcher = dispatcher.clone();
    let table = use_mut_ref(|| Rc::clone(&desk.session.plan));
    *table.borrow_mut() = Rc::clone(&desk.session.plan);
    use_effect_with((), move |()| {
        let again = dispatcher.clone();
        let window = gloo::utils::window();
        let listener = EventListener::new(&window, "hashchange", move |_| {
            if !address::fragment().is_empty() {
                let plan = Rc::clone(&table.borrow());
                spawn_local(go_to(plan, again.clone()));
            }
        });
        // A page that is left in the middle of opening a job did not end by itself.
        let left = EventListener::new(&window, "pagehide", |_| jobs::note_opening(None));
        spawn_local(begin(dispatcher));
        move || drop((listener, left))
    });
}

async fn begin(dispatcher: Dispatcher) {
    if let Some(bytes) = assets::plan() {
        return with_held(&dispatcher, &bytes).await;
    }
    let text = address::fragment();
    if let Some(spot) = Spot::read(&text) {
        let known = at_spot(&dispatcher, &spot).await;
        if known != Ok(true) {
            without_example(&dispatcher).await;
            say_no_spot(&dispatcher, &spot, known);
        }
        return;
    }
    match (!text.is_empty()).then(|| Linked::read(&text)) {
        None => without_link(&dispatcher).await,
        Some(Ok(Linked::Plan(opened))) => with_shared(&dispatcher, *opened).await,
        Some(Ok(Linked::Reply(reply))) => {
            with_answered(&dispatcher, &reply).await;
            dispatcher.dispatch(Act::Replied(Some(reply)));
        }
        Some(Err(error)) => {
            without_example(&dispatcher).await;
            say_harm(&dispatcher, error);
        }
    }
}

/// Goes on with another address: a wall of a code on paper is shown, a reply comes to the job that it
/// answers, a plan is laid on the table to look at, and one that cannot be read changes nothing.
async fn go_to(table: Rc<Plan>, dispatcher: Dispatcher) {
    if let Some(spot) = Spot::read(&address::fragment()) {
        let known = at_spot(&dispatcher, &spot).await;
        if known != Ok(true) {
            say_no_spot(&dispatcher, &spot, known);
        }
        return;
    }
    match Linked::read(&address::fragment()) {
        Ok(Linked::Reply(reply)) => {
            let opened = open_answered(&reply, Some(&table), &dispatcher).await;
            dispatcher.dispatch(Act::Replied(Some(reply)));
            if let Err(sentence) = opened {
                dispatcher.dispatch(Act::Say(Notice::refused(sentence, None)));
            }
        }
        Ok(Linked::Plan(opened)) => with_shared(&dispatcher, *opened).await,
        Err(error) => say_harm(&dispatcher, error),
    }
}

/// Opens the wall of a code on paper where this device has its job; whether it has. The address is cleared: it
/// is the job that is on the table from now on.
async fn at_spot(dispatcher: &Dispatcher, spot: &Spot) -> Result<bool, String> {
    let Some((age, plan)) = open_spot(spot, dispatcher).await? else {
        return Ok(false);
    };
    address::clear_fragment();
    dispatcher.dispatch(Act::Read(false));
    let Some((level, wall)) = plan.wall(spot.wall) else {
        let text = format!("W{} of this paper is no longer in the job.", spot.wall.0);
        dispatcher.dispatch(Act::Say(Notice::refused(text, None)));
        return Ok(true);
    };
    let middle = (wall.from.pos() + wall.to.pos()) * 0.5;
    dispatcher.dispatch(Act::Visit(Visit {
        at: Some((level.id, middle)),
        choice: Some(Choice::Wall(spot.wall)),
        leaf: None,
    }));
    if age == Age::Changed {
        let text = "This job was changed since the paper was printed. What the paper says of holes may be another thing here.";
        dispatcher.dispatch(Act::Say(Notice::done(text)));
    }
    Ok(true)
}

/// Says that the job of a code on paper is not here, and what to do.
fn say_no_spot(dispatcher: &Dispatcher, spot: &Spot, known: Result<bool, String>) {
    let text = known.err().unwrap_or_else(|| {
        format!(
            "The job of this paper, version {}, is not on this device: open its plan by the large code on the sheets, take it over as a copy, and scan the wall again.",
            spot.version
        )
    });
    dispatcher.dispatch(Act::Say(Notice::refused(text, None)));
}

/// What an address carries.
enum Linked {
    Plan(Box<Opened>),
    Reply(Rc<Reply>),
}

impl Linked {
    fn read(text: &str) -> Result<Self, LinkError> {
        let bytes = link::decode_text(text)?;
        match link::is_reply(&bytes) {
            true => link::read_reply(&bytes).map(|reply| Self::Reply(Rc::new(reply))),
            false => link::read(&bytes).map(|opened| Self::Plan(Box::new(opened))),
        }
    }
}

/// Begins with a plan to look at: laid out to read where the screen is narrow.
async fn with_shared(dispatcher: &Dispatcher, opened: Opened) {
    let begun = Begun::loose(laid_out(opened.plan).await.to_look_at());
    dispatcher.dispatch(Act::Begin(Box::new(begun)));
    dispatcher.dispatch(Act::Read(screen::is_narrow()));
    say_losses(dispatcher, &opened.losses);
}

fn say_harm(dispatcher: &Dispatcher, error: LinkError) {
    let text = format!("{error} The address still holds all of it.");
    dispatcher.dispatch(Act::Say(Notice::refused(text, None)));
}

/// Begins with the plan of a page that is a file of its own: to look at, as one from a link.
async fn with_held(dispatcher: &Dispatcher, bytes: &[u8]) {
    match file::read(bytes) {
        Ok(opened) => with_shared(dispatcher, opened).await,
        Err(error) => {
            without_link(dispatcher).await;
            let text = format!("The plan in this page could not be read. {error}");
            dispatcher.dispatch(Act::Say(Notice::refused(text, None)));
        }
    }
}

/// Begins with the job that a reply answers.
async fn with_answered(dispatcher: &Dispatcher, reply: &Reply) {
    if open_answered(reply, None, dispatcher).await != Ok(true) {
        without_example(dispatcher).await;
    }
}

/// Begins with a job of this device, or with an empty sheet: whoever followed a link that cannot be read
/// must not take the example for what was sent.
async fn without_example(dispatcher: &Dispatcher) {
    let opened = open_last(dispatcher).await;
    if opened != Ok(true) {
        begin_loose(dispatcher, Plan::new()).await;
    }
    say_trouble(dispatcher, opened);
}

/// Begins with a job of this device, or with the demo.
async fn without_link(dispatcher: &Dispatcher) {
    let opened = open_last(dispatcher).await;
    if opened != Ok(true) {
        let plan = Example::OneStorey.plan().await;
        begin_loose(dispatcher, plan.unwrap_or_else(Plan::new)).await;
    }
    say_trouble(dispatcher, opened);
}

/// What kept the jobs of this device from being opened is told in its place: storage that keeps nothing where the
/// plan can be saved to a file, a job that cannot be read as what it is.
fn say_trouble(dispatcher: &Dispatcher, opened: Result<bool, String>) {
    if let Err(sentence) = opened {
        dispatcher.dispatch(match storage::is_sentence(&sentence) {
            true => Act::Keep(Keeping::Failed(sentence)),
            false => Act::Say(Notice::refused(sentence, None)),
        });
    }
}

async fn begin_loose(dispatcher: &Dispatcher, plan: Plan) {
    let begun = Begun::loose(laid_out(plan).await);
    dispatcher.dispatch(Act::Begin(Box::new(begun)));
}

/// A desk with a plan on it, as it was settled before; where this device keeps nothing of that,
/// how long all that follows from the plan takes is measured.
pub async fn laid_out(plan: impl Into<Rc<Plan>>) -> Session {
    let plan = plan.into();
    match ways::known(&plan).await {
        Some(design) => Session::settled(plan, design),
        None => {
            let session = clock::measured("design", || Session::of(plan));
            // What is drawn of a large plan takes a moment of its own.
            TimeoutFuture::new(0).await;
            session
        }
    }
}

/// Says what a file lost, if it lost anything.
pub fn say_losses(dispatcher: &Dispatcher, losses: &[String]) {
    if let Some(first) = losses.first() {
        let more = match losses.len() {
            1 => String::new(),
            count => format!(" And {} more like it.", count - 1),
        };
        dispatcher.dispatch(Act::Say(Notice::refused(format!("{first}{more}"), None)));
    }
}
