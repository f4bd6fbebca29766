//! The clipboard.

use wasm_bindgen_futures::JsFuture;

/// Puts a text on the clipboard; whether it got there.
pub async fn copy(text: &str) -> bool {
    let navigator = gloo::utils::window().navigator();
    // Pages that are not served safely have no clipboard at all.
    let clipboard = js_sys::Reflect::get(&navigator, &"clipboard".into());
    if !clipboard.is_ok_and(|found| found.is_object()) {
        return false;
    }
    JsFuture::from(navigator.clipboard().write_text(text))
        .await
        .is_ok()
}
