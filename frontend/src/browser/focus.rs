//! Where on the page the hand is typing.

use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// The left end of the foot of the field in use, from the corner of the element that
/// `within` selects; `None`
/// where no field of a slip is in use.
pub fn foot_of_field(within: &str) -> Option<(f64, f64)> {
    let field = gloo::utils::document().active_element()?;
    let within = field.closest(within).ok()??;
    field.closest(".Slip").ok()??;
    let (field, page) = (
        field.get_bounding_client_rect(),
        within.get_bounding_client_rect(),
    );
    Some((field.left() - page.left(), field.bottom() - page.top()))
}

/// Puts the keyboard on the first element a selector finds; nothing where there is none.
pub fn go_to(selector: &str) {
    let found = gloo::utils::document().query_selector(selector).ok();
    let found = found.flatten().map(|element| element.unchecked_into());
    if let Some(element) = found {
        let element: HtmlElement = element;
        // What cannot take the keyboard leaves it where it is.
        let _ = element.focus();
    }
}

/// Scrolls what holds an element sideways until it is in sight.
pub fn bring_into_sight(selector: &str) {
    let document = gloo::utils::document();
    let Some(element) = document.query_selector(selector).ok().flatten() else {
        return;
    };
    let Some(holder) = element.closest(".Steps").ok().flatten() else {
        return;
    };
    let (inner, outer) = (
        element.get_bounding_client_rect(),
        holder.get_bounding_client_rect(),
    );
    let off = inner.left() + inner.width() / 2.0 - outer.left() - outer.width() / 2.0;
    if inner.left() < outer.left() || inner.right() > outer.right() {
        holder.set_scroll_left(holder.scroll_left() + off.round() as i32);
    }
}
