//! Lays a sentence beside the place it is about.

use web_sys::HtmlElement;
use yew::prelude::*;

/// A place on the page, in pixels from the corner of what the sentence lies on.
pub type Beside = Option<(i32, i32)>;

/// Tells the style sheet where the element is to lie, or that it has no place of its own.
#[hook]
pub fn use_beside(node: &NodeRef, place: Beside) {
    let node = node.clone();
    use_effect_with(place, move |place| {
        let Some(element) = node.cast::<HtmlElement>() else {
            return;
        };
        let style = element.style();
        // A browser that refuses leaves the sentence at the foot of the page.
        let _ = match place {
            Some((x, y)) => style
                .set_property("--beside-x", &format!("{x}px"))
                .and_then(|()| style.set_property("--beside-y", &format!("{y}px")))
                .and_then(|()| element.set_attribute("data-beside", "true")),
            None => element.remove_attribute("data-beside"),
        };
    });
}
