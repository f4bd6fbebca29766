//! The running program itself: where it came from, and whether it runs beside the page.

use wasm_bindgen::prelude::*;

#[wasm_bindgen]
extern "C" {
    /// The address of the JavaScript module that this program belongs to.
    #[wasm_bindgen(thread_local_v2, js_namespace = ["import", "meta"], js_name = url)]
    static MODULE: String;
}

/// The script of `static/` that starts this program once more, in a worker.
const STARTER: &str = "./improve.js";

/// Whether this is a worker, and not the page.
pub fn is_worker() -> bool {
    web_sys::window().is_none()
}

/// The address that starts this program once more, in a worker.
pub fn worker_address() -> String {
    let module = MODULE.with(String::clone);
    let name = module.rsplit('/').next().unwrap_or_default();
    format!("{STARTER}?{name}")
}
