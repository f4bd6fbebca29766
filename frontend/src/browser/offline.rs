//! The worker that keeps the page for times without a network, and newer releases that wait behind it.

use std::cell::Cell;
use std::rc::Rc;

use gloo::events::EventListener;
use js_sys::Promise;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{
    ServiceWorker, ServiceWorkerContainer, ServiceWorkerRegistration, ServiceWorkerState,
    VisibilityState,
};

/// What became of a newer release of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Newer {
    /// It is on this device, and waits until it is taken over.
    Waits,
    /// It was taken over in another window: this one still runs the one before.
    TookOver,
}

/// What the waiting worker is told; `static/sw.js` listens for it.
const TAKE_OVER: &str = "take over";

/// Registers the worker where there can be one: not for a page opened as a file, and not while
/// developing, when there is no such worker to fetch. Newer releases are told, now and later.
pub fn register(tell: impl Fn(Newer) + Clone + 'static) {
    let Some(container) = container() else {
        return;
    };
    spawn_local(async move {
        // Without it the page works all the same, with a network.
        if let Some(registration) = registration(container.register("./sw.js")).await {
            watch(&container, &registration, tell);
        }
    });
}

/// Has the release that waits take over; the window then loads it, and others are told.
pub fn take_over() {
    let Some(container) = container() else {
        return;
    };
    EventListener::once(&container, "controllerchange", move |_| reload()).forget();
    spawn_local(async move {
        let registration = registration(container.get_registration()).await;
        match registration.and_then(|registration| registration.waiting()) {
            Some(worker) => drop(worker.post_message(&JsValue::from_str(TAKE_OVER))),
            None => reload(),
        }
    });
}

/// Loads the page again, with the release that took over.
pub fn reload() {
    let _ = gloo::utils::window().location().reload();
}

/// What the browser promised; `None` where it breaks its word.
async fn registration(promised: Promise) -> Option<ServiceWorkerRegistration> {
    JsFuture::from(promised).await.ok()?.dyn_into().ok()
}

fn container() -> Option<ServiceWorkerContainer> {
    let window = gloo::utils::window();
    let scheme = window.location().protocol().ok()?;
    let navigator = window.navigator();
    let is_known = js_sys::Reflect::has(&navigator, &"serviceWorker".into()).ok()?;
    let is_kept = scheme.starts_with("http") && is_known && !cfg!(debug_assertions);
    is_kept.then(|| navigator.service_worker())
}

/// Listens for newer releases as long as the window is open. The first one ever is no newer one.
fn watch(
    container: &ServiceWorkerContainer,
    registration: &ServiceWorkerRegistration,
    tell: impl Fn(Newer) + Clone + 'static,
) {
    if container.controller().is_some() && registration.waiting().is_some() {
        tell(Newer::Waits);
    }
    let (page, told) = (container.clone(), tell.clone());
    EventListener::new(registration, "updatefound", move |event| {
        let found = event.target().map(JsCast::dyn_into);
        let Some(Ok::<ServiceWorkerRegistration, _>(registration)) = found else {
            return;
        };
        if let Some(worker) = registration.installing() {
            await_installed(&worker, &page, told.clone());
        }
    })
    .forget();
    let had_one = Rc::new(Cell::new(container.controller().is_some()));
    EventListener::new(container, "controllerchange", move |_| {
        if had_one.replace(true) {
            tell(Newer::TookOver);
        }
    })
    .forget();
    look_again_on_return(registration.clone());
}

fn await_installed(
    worker: &ServiceWorker,
    page: &ServiceWorkerContainer,
    tell: impl Fn(Newer) + 'static,
) {
    let (installed, page) = (worker.clone(), page.clone());
    EventListener::new(worker, "statechange", move |_| {
        if installed.state() == ServiceWorkerState::Installed && page.controller().is_some() {
            tell(Newer::Waits);
        }
    })
    .forget();
}

/// A page that stays open for weeks looks for a newer release whenever it is come back to.
fn look_again_on_return(registration: ServiceWorkerRegistration) {
    let document = gloo::utils::document();
    let shown = document.clone();
    EventListener::new(&document, "visibilitychange", move |_| {
        if shown.visibility_state() == VisibilityState::Visible {
            // Without a network there is nothing newer to find.
            let _ = registration.update();
        }
    })
    .forget();
}
