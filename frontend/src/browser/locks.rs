//! One window at a time: a name that is held until it is let go of, or its window is closed or dies (Web
//! Locks, W3C). A browser without them holds every name for whoever asks.

use std::cell::{Cell, RefCell};
use std::rc::{Rc, Weak};

use gloo::timers::future::TimeoutFuture;
use js_sys::{Function, Object, Promise, Reflect};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;

/// A name is asked for again so often, with so many milliseconds between.
const TRIES: usize = 3;
const PAUSE: u32 = 40;

#[wasm_bindgen]
extern "C" {
    type LockManager;

    #[wasm_bindgen(method, catch)]
    fn request(
        this: &LockManager,
        name: &str,
        options: &JsValue,
        granted: &JsValue,
    ) -> Result<Promise, JsValue>;
}

/// A name that this window holds until this is dropped or let go of.
#[derive(Debug, Default)]
pub struct Lock {
    let_go: RefCell<Option<Function>>,
    gone: Cell<bool>,
}

impl Lock {
    /// Lets go of the name; another window can hold it from now on.
    pub fn let_go(&self) {
        self.gone.set(true);
        if let Some(let_go) = self.let_go.take() {
            // Nobody is left to be told when this fails.
            let _ = let_go.call0(&JsValue::NULL);
        }
    }
}

impl Drop for Lock {
    fn drop(&mut self) {
        self.let_go();
    }
}

thread_local! {
    /// What this window holds already: to the browser it would be a stranger to itself.
    static HELD: RefCell<Vec<(String, Weak<Lock>)>> = const { RefCell::new(Vec::new()) };
}

/// Holds a name; `None` where another window holds it. One that was just let go of, here or elsewhere, is
/// asked for again until the browser knows.
pub async fn hold(name: &str) -> Option<Rc<Lock>> {
    for _ in 0..TRIES {
        if let Some(lock) = ask(name).await {
            return Some(lock);
        }
        TimeoutFuture::new(PAUSE).await;
    }
    ask(name).await
}

/// Whether this window holds a name.
pub fn is_held(name: &str) -> bool {
    ours(name).is_some()
}

async fn ask(name: &str) -> Option<Rc<Lock>> {
    if let Some(ours) = ours(name) {
        return Some(ours);
    }
    let Some(manager) = manager() else {
        return Some(noted(name, Lock::default()));
    };
    let lock = Rc::new(RefCell::new(None));
    let told = Promise::new(&mut |tell, _| {
        let lock = Rc::clone(&lock);
        let said = tell.clone();
        let granted = granted(move |free| {
            let _ = said.call1(&JsValue::NULL, &free.is_some().into());
            *lock.borrow_mut() = free;
        });
        let options = Object::new();
        let set = Reflect::set(&options, &"ifAvailable".into(), &JsValue::TRUE);
        if set.is_err() || manager.request(name, &options, &granted).is_err() {
            let _ = tell.call1(&JsValue::NULL, &JsValue::FALSE);
        }
    });
    JsFuture::from(told).await.ok()?;
    lock.take().map(|lock| noted(name, lock))
}

/// Waits for a name in the background for as long as this is kept.
pub struct Waiting(Rc<Cell<bool>>);

impl Drop for Waiting {
    fn drop(&mut self) {
        self.0.set(true);
    }
}

/// Waits until a name is free, and holds it then.
pub fn wait(name: &str, onheld: impl FnOnce(Rc<Lock>) + 'static) -> Waiting {
    let given_up = Rc::new(Cell::new(false));
    let (is_over, held) = (Rc::clone(&given_up), name.to_string());
    let granted = granted(move |lock| {
        if let Some(lock) = lock.filter(|_| !is_over.get()) {
            onheld(noted(&held, lock));
        }
    });
    if let Some(manager) = manager() {
        // A name that cannot be asked for stays with the other window.
        let _ = manager.request(name, &Object::new(), &granted);
    }
    Waiting(given_up)
}

fn ours(name: &str) -> Option<Rc<Lock>> {
    HELD.with_borrow_mut(|held| {
        held.retain(|(_, lock)| lock.upgrade().is_some_and(|lock| !lock.gone.get()));
        let known = held.iter().find(|(known, _)| known == name);
        known.and_then(|(_, lock)| lock.upgrade())
    })
}

fn noted(name: &str, lock: Lock) -> Rc<Lock> {
    let lock = Rc::new(lock);
    HELD.with_borrow_mut(|held| held.push((name.to_string(), Rc::downgrade(&lock))));
    lock
}

/// What the browser calls with the lock, or with nothing: the lock is held until what is given back is
/// settled, which is when it is let go of.
fn granted(tell: impl FnOnce(Option<Lock>) + 'static) -> JsValue {
    Closure::once_into_js(move |lock: JsValue| -> JsValue {
        if lock.is_null() {
            tell(None);
            return JsValue::UNDEFINED;
        }
        let lock = Lock::default();
        let held = Promise::new(&mut |settle, _| {
            lock.let_go.replace(Some(settle));
        });
        tell(Some(lock));
        held.into()
    })
}

fn manager() -> Option<LockManager> {
    let navigator = gloo::utils::window().navigator();
    let locks = Reflect::get(&navigator, &"locks".into()).ok()?;
    locks.is_object().then(|| locks.unchecked_into())
}
