//! The worker that keeps the page for times without a network.

/// Registers it where there can be one: not for a page opened as a file, and not while developing,
/// when there is no such worker to fetch.
pub fn register() {
    let window = gloo::utils::window();
    let served = window
        .location()
        .protocol()
        .is_ok_and(|scheme| scheme.starts_with("http"));
    let navigator = window.navigator();
    let known = js_sys::Reflect::has(&navigator, &"serviceWorker".into()).unwrap_or(false);
    if served && known && !cfg!(debug_assertions) {
        // Without it the page works all the same, with a network.
        let _ = navigator.service_worker().register("./sw.js");
    }
}
