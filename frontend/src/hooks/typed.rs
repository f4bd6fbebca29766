//! What was typed into a field and not confirmed yet counts when the page is left or put away.

use gloo::events::EventListener;
use wasm_bindgen::JsCast;
use web_sys::{HtmlInputElement, HtmlTextAreaElement};
use yew::prelude::*;

/// Confirms what stands in the field one types in, as leaving it would, and leaves it to be typed on.
#[hook]
pub fn use_typed() {
    use_effect_with((), |()| {
        let (window, document) = (gloo::utils::window(), gloo::utils::document());
        let left = EventListener::new(&window, "pagehide", |_| confirm());
        // A phone that ends a page out of sight tells it nothing more.
        let hidden = EventListener::new(&document, "visibilitychange", |_| {
            if gloo::utils::document().hidden() {
                confirm();
            }
        });
        move || drop((left, hidden))
    });
}

fn confirm() {
    let document = gloo::utils::document();
    let Some(field) = document.active_element() else {
        return;
    };
    let is_typed = field
        .dyn_ref::<HtmlInputElement>()
        .is_some_and(|input| input.type_() == "text")
        || field.dyn_ref::<HtmlTextAreaElement>().is_some();
    if !is_typed {
        return;
    }
    if let Ok(changed) = document.create_event("Event") {
        changed.init_event_with_bubbles("change", true);
        // An event that nobody can be told of changes nothing.
        let _ = field.dispatch_event(&changed);
    }
}
