//! Works out what follows from the plan whenever another plan is shown.

use std::rc::Rc;

use crate::state::{Act, Derived, Desk, Dispatcher};
use gloo::timers::callback::Timeout;
use yew::prelude::*;

/// Works it out between two frames, so that the hand is drawn first.
#[hook]
pub fn use_design(desk: &Desk, dispatcher: &Dispatcher) {
    let shown = desk.session.shown_plan().clone();
    let stale = !Rc::ptr_eq(&shown, &desk.derived.plan);
    let dispatcher = dispatcher.clone();
    use_effect_with((Rc::as_ptr(&shown), stale), move |_| {
        let work = move || dispatcher.dispatch(Act::Derived(Derived::of(&shown)));
        let timeout = stale.then(|| Timeout::new(0, work));
        move || drop(timeout)
    });
}
