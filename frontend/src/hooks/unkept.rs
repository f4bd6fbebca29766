//! A window with something in it that is nowhere else asks before it is closed.

use std::rc::Rc;

use gloo::events::{EventListener, EventListenerOptions};
use wasm_bindgen::JsCast;
use web_sys::BeforeUnloadEvent;
use yew::prelude::*;

use crate::state::{Desk, Keeping};

/// Asks, in the browser's own words, as long as the last change cannot be put on the device. What is being
/// written goes on being written when the window is closed.
#[hook]
pub fn use_unkept(desk: &Rc<Desk>) {
    let unkept = matches!(desk.keeping, Keeping::Failed(_)) && desk.is_to_be_kept();
    use_effect_with(unkept, |unkept| {
        let listener = unkept.then(|| {
            let options = EventListenerOptions::enable_prevent_default();
            let window = gloo::utils::window();
            EventListener::new_with_options(&window, "beforeunload", options, |event| {
                event.prevent_default();
                // Older browsers ask only where there is something to return.
                if let Some(event) = event.dyn_ref::<BeforeUnloadEvent>() {
                    event.set_return_value("unkept");
                }
            })
        });
        move || drop(listener)
    });
}
