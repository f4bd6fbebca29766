//! Tells of a change of the table in the moment it is made. Drawing it takes longer, and is put off while the
//! browser has other work; a change that was made is to be kept whether or not it was drawn.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use wasm_bindgen_futures::spawn_local;

thread_local! {
    static TOLD: RefCell<Option<Rc<dyn Fn()>>> = const { RefCell::new(None) };
    static IS_TOLD: Cell<bool> = const { Cell::new(false) };
}

/// Who is told, at the end of the task in which the table changed and before it is drawn.
pub fn on_change(told: impl Fn() + 'static) {
    TOLD.set(Some(Rc::new(told)));
}

/// The table is about to be another one.
pub(super) fn changed() {
    let Some(told) = TOLD.with_borrow(Clone::clone) else {
        return;
    };
    if IS_TOLD.replace(true) {
        return;
    }
    spawn_local(async move {
        IS_TOLD.set(false);
        told();
    });
}
