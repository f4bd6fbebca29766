//! Keeps the plan on this device: a moment after every change, and at once when the page is left.

use std::rc::Rc;

use borewright_core::file;
use borewright_core::plan::Plan;
use gloo::events::EventListener;
use gloo::timers::callback::Timeout;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use crate::browser::storage::{self, Slot};
use crate::state::{Act, Desk, Dispatcher, Keeping};

/// Between a change and its keeping, milliseconds.
const MOMENT: u32 = 300;

/// What waits to be kept.
#[derive(Clone)]
struct Waiting {
    plan: Rc<Plan>,
    over_another: bool,
}

/// Keeps the plan whenever it differs from what was kept last. A plan that came by link is not kept
/// before it is taken over, and one that nobody changed is not kept either.
#[hook]
pub fn use_keeping(desk: &Desk, dispatcher: &Dispatcher) {
    let waiting = use_mut_ref(|| None::<Waiting>);
    let plan = desk.session.plan.clone();
    let is_new = !desk.session.read_only && !Rc::ptr_eq(&plan, &desk.kept);
    let over_another = desk.over_another;
    {
        let (waiting, dispatcher) = (waiting.clone(), dispatcher.clone());
        use_effect_with((Rc::as_ptr(&plan), is_new), move |_| {
            *waiting.borrow_mut() = is_new.then_some(Waiting { plan, over_another });
            let timer = is_new.then(|| {
                dispatcher.dispatch(Act::Keep(Keeping::Waiting));
                Timeout::new(MOMENT, move || keep(waiting.take(), dispatcher))
            });
            move || drop(timer)
        });
    }
    let dispatcher = dispatcher.clone();
    use_effect_with((), move |()| {
        let leave = move |_: &web_sys::Event| keep(waiting.take(), dispatcher.clone());
        let leave = Rc::new(leave);
        let listen = |name: &'static str, leave: Rc<dyn Fn(&web_sys::Event)>| {
            EventListener::new(&gloo::utils::window(), name, move |event| leave(event))
        };
        let hidden = listen("visibilitychange", leave.clone());
        let left = listen("pagehide", leave);
        move || drop((hidden, left))
    });
}

/// Starts the writing; it goes on while the page is being left.
fn keep(waiting: Option<Waiting>, dispatcher: Dispatcher) {
    let Some(Waiting { plan, over_another }) = waiting else {
        return;
    };
    spawn_local(async move {
        let bytes = file::write(&plan);
        let done = match over_another {
            true => storage::write_over(&bytes).await,
            false => storage::write(Slot::Now, &bytes).await,
        };
        dispatcher.dispatch(match done {
            Ok(()) => Act::Kept(plan),
            Err(sentence) => Act::Keep(Keeping::Failed(sentence)),
        });
    });
}
