//! Windows on one job: one writes, the others follow it and only look on, until the first lets go.

use std::rc::Rc;

use borewright_core::desk::Notice;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use super::jobs::lock_name;
use super::start::laid_out;
use crate::browser::channel::{self, News};
use crate::browser::{jobs, locks};
use crate::state::{Act, Begun, Desk, Dispatcher, Place};

/// What is said when a job that was only looked at can be changed here.
const OURS: &str = "This job can be changed in this window now.";

/// Follows the window that writes the job on the table; and where this one writes it, hands it on when
/// another asks.
#[hook]
pub fn use_windows(desk: &Desk, dispatcher: &Dispatcher) {
    let dispatcher = dispatcher.clone();
    let watched = matches!(desk.place, Place::Elsewhere(_));
    let id = desk.place.id().cloned();
    use_effect_with((id, watched), move |(id, watched)| {
        let kept = id.clone().map(|id| match watched {
            true => look_on(id, dispatcher),
            false => hand_on(id, dispatcher),
        });
        move || drop(kept)
    });
}

type Ears = (Option<locks::Waiting>, Option<gloo::events::EventListener>);

/// Shows what the other window writes, and goes on from there once it lets go.
fn look_on(id: Rc<str>, dispatcher: Dispatcher) -> Ears {
    let waiting = {
        let (id, dispatcher) = (Rc::clone(&id), dispatcher.clone());
        locks::wait(&lock_name(&id.clone()), move |lock| {
            let place = Place::Job(Rc::clone(&id), lock);
            spawn_local(async move {
                follow(&id, place, &dispatcher).await;
                dispatcher.dispatch(Act::Say(Notice::done(OURS)));
            });
        })
    };
    let heard = channel::hear(move |news| {
        if news == News::Written(id.to_string()) {
            let (id, dispatcher) = (Rc::clone(&id), dispatcher.clone());
            let place = Place::Elsewhere(Rc::clone(&id));
            spawn_local(async move { follow(&id, place, &dispatcher).await });
        }
    });
    (Some(waiting), heard)
}

/// Hands the job on to the window that asks for it; this one follows it then.
fn hand_on(id: Rc<str>, dispatcher: Dispatcher) -> Ears {
    let heard = channel::hear(move |news| {
        if news == News::Asked(id.to_string()) {
            dispatcher.dispatch(Act::HandOn);
        }
    });
    (None, heard)
}

/// Shows the job as it is on the device now, where it is looked at.
async fn follow(id: &str, place: Place, dispatcher: &Dispatcher) {
    dispatcher.dispatch(match jobs::open(id).await {
        Ok(job) => {
            let session = laid_out(job.plan.clone()).await;
            Act::Follow(Box::new(Begun::job(job, session, place)))
        }
        Err(sentence) => Act::Say(Notice::refused(sentence, None)),
    });
}
