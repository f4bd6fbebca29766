//! A web worker and what goes to and fro (Web Workers, WHATWG HTML): bytes, of which nothing is known here.

use std::cell::RefCell;
use std::rc::Rc;

use gloo::events::EventListener;
use js_sys::{Array, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{DedicatedWorkerGlobalScope, ErrorEvent, Event, MessageEvent, Worker};

/// What the page hears of a worker.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Heard {
    /// It says something.
    Said(Vec<u8>),
    /// It has come to an end by a fault, in the browser's words; it says nothing any more.
    Ended(String),
}

/// A worker, until this is dropped. It ends in the middle of whatever it does.
pub struct Beside {
    worker: Worker,
    /// What is to be said once it hears; `None` from then on.
    waits: Rc<RefCell<Option<Vec<Uint8Array>>>>,
    _listeners: [EventListener; 2],
}

impl Drop for Beside {
    fn drop(&mut self) {
        self.worker.terminate();
    }
}

impl Beside {
    /// Starts the script at an address in a worker; `None` where the browser starts none.
    pub fn start(address: &str, onheard: impl Fn(Heard) + 'static) -> Option<Self> {
        let worker = Worker::new(address).ok()?;
        let waits = Rc::new(RefCell::new(Some(Vec::new())));
        let onheard = Rc::new(onheard);
        let (told, at_hand, waiting) = (onheard.clone(), worker.clone(), waits.clone());
        let said = EventListener::new(&worker, "message", move |event| match bytes_of(event) {
            // The first word is empty: from now on it hears.
            Some(bytes) if bytes.is_empty() => {
                let first = waiting.take().unwrap_or_default();
                first.iter().for_each(|bytes| post(&at_hand, bytes));
            }
            Some(bytes) => told(Heard::Said(bytes)),
            None => {}
        });
        let ended = EventListener::new(&worker, "error", move |event| {
            let error = event.dyn_ref::<ErrorEvent>();
            onheard(Heard::Ended(
                error.map(ErrorEvent::message).unwrap_or_default(),
            ));
        });
        Some(Self {
            worker,
            waits,
            _listeners: [said, ended],
        })
    }

    /// Says something to it.
    pub fn say(&self, bytes: &[u8]) {
        let bytes = Uint8Array::from(bytes);
        match &mut *self.waits.borrow_mut() {
            Some(waits) => waits.push(bytes),
            None => post(&self.worker, &bytes),
        }
    }
}

/// Bytes can always be cloned, so that nothing of this can be refused.
fn post(worker: &Worker, bytes: &Uint8Array) {
    let _ = worker.post_message(bytes);
}

fn bytes_of(event: &Event) -> Option<Vec<u8>> {
    let data = event.dyn_ref::<MessageEvent>()?.data();
    data.dyn_ref::<Uint8Array>().map(Uint8Array::to_vec)
}

/// In a worker: hears what the page says, from now on and as long as it runs.
pub fn hear(onsaid: impl Fn(Vec<u8>) + 'static) {
    let listener = EventListener::new(&scope(), "message", move |event| {
        bytes_of(event).into_iter().for_each(&onsaid);
    });
    listener.forget();
    tell(&[]);
}

/// In a worker: says something to the page.
pub fn tell(bytes: &[u8]) {
    let bytes = Uint8Array::from(bytes);
    let _ = scope().post_message_with_transfer(&bytes, &Array::of1(&bytes.buffer()));
}

fn scope() -> DedicatedWorkerGlobalScope {
    let global: JsValue = js_sys::global().into();
    global.unchecked_into()
}
