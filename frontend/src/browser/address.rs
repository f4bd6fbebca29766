//! The address of the page, and what it carries after `#`.

/// What stands after `#`, without it; empty when nothing does.
pub fn fragment() -> String {
    let hash = gloo::utils::window().location().hash().unwrap_or_default();
    hash.trim_start_matches('#').to_string()
}

/// The address of this page with something after `#`.
pub fn with_fragment(fragment: &str) -> String {
    let address = gloo::utils::window().location().href().unwrap_or_default();
    let page = address.split('#').next().unwrap_or_default();
    format!("{page}#{fragment}")
}

/// Takes away what stands after `#`, without loading anything.
pub fn clear_fragment() {
    let history = gloo::utils::window().history();
    let page = with_fragment("");
    let page = page.trim_end_matches('#');
    if let Ok(history) = history {
        // Nothing is lost if the address keeps its tail.
        let _ = history.replace_state_with_url(&wasm_bindgen::JsValue::NULL, "", Some(page));
    }
}
