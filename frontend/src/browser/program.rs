//! The running program itself: where it came from, and whether it runs beside the page.

use wasm_bindgen::prelude::*;

use super::{assets, files};

#[wasm_bindgen]
extern "C" {
    /// The address of the JavaScript module that this program belongs to.
    #[wasm_bindgen(thread_local_v2, js_namespace = ["import", "meta"], js_name = url)]
    static MODULE: String;
}

/// The script of `static/` that starts this program once more, in a worker.
const STARTER: &str = "./improve.js";

/// As in that script: a fault that nobody waits for is told to the page like any other.
const TELL_FAULTS: &str =
    "addEventListener('unhandledrejection', (event) => reportError(event.reason));";

/// Whether this is a worker, and not the page.
pub fn is_worker() -> bool {
    web_sys::window().is_none()
}

/// What this program goes by: in a release its file carries a digest of all of it.
pub fn name() -> String {
    let module = MODULE.with(String::clone);
    let file = module.rsplit('/').next().unwrap_or_default();
    file.to_string()
}

/// The address that starts this program once more, in a worker. A page that is a file of its own has
/// nothing beside it: there the program is handed over as it lies in the page.
pub fn worker_address() -> String {
    if let Some((script, packed)) = assets::program() {
        // A file may import nothing, so the module runs as a plain script.
        let script = script.replace("import.meta.url", "location.href");
        let held = packed.trim();
        let source = format!(
            "{TELL_FAULTS} globalThis.borewrightHeld = '{held}'; (async () => {{ {script} }})();"
        );
        let address = files::address("text/javascript", source.as_bytes());
        let text = address.to_string();
        // The worker may be started again, so its source stays for as long as the page.
        std::mem::forget(address);
        return text;
    }
    format!("{STARTER}?{}", name())
}
