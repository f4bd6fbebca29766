//! How large an element is on the screen.

use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, ResizeObserver};
use yew::prelude::*;

/// Calls back with width and height in pixels, at first and after every change.
#[hook]
pub fn use_size(node: &NodeRef, onsize: Callback<(f64, f64)>) {
    let node = node.clone();
    use_effect_with((), move |()| {
        let watch = node
            .cast::<Element>()
            .and_then(|element| Watch::of(element, onsize));
        move || drop(watch)
    });
}

/// An observer that stops with its value.
struct Watch {
    observer: ResizeObserver,
    _callback: Closure<dyn Fn()>,
}

impl Watch {
    fn of(element: Element, onsize: Callback<(f64, f64)>) -> Option<Self> {
        let watched = element.clone();
        let callback = Closure::<dyn Fn()>::new(move || {
            let bounds = watched.get_bounding_client_rect();
            onsize.emit((bounds.width(), bounds.height()));
        });
        let observer = ResizeObserver::new(callback.as_ref().unchecked_ref()).ok()?;
        observer.observe(&element);
        Some(Self {
            observer,
            _callback: callback,
        })
    }
}

impl Drop for Watch {
    fn drop(&mut self) {
        self.observer.disconnect();
    }
}
