//! Every effect of the page: what happens because something changed, and not because it is drawn.

mod awaited;
mod beside;
mod current;
mod difference;
mod drawn;
mod example;
mod improving;
pub mod jobs;
mod keeping;
mod keys;
mod opening;
mod paper;
mod rehearsal;
mod settled;
mod size;
mod squaring;
mod standby;
mod standings;
mod start;
mod typed;
mod unkept;
mod ways;
mod windows;

pub use awaited::{use_awaited, use_awaited_while};
pub use beside::use_beside;
pub use current::use_current_in_sight;
pub use difference::use_before;
pub use drawn::use_drawn;
pub use example::use_example;
pub use improving::use_improving;
pub use keeping::use_keeping;
pub use keys::use_keys;
pub use opening::{use_opening, use_paste};
pub use paper::use_paper;
pub use rehearsal::use_rehearsal;
pub use settled::use_settled;
pub use size::use_size;
pub use squaring::use_squaring;
pub use standby::stand_by;
pub use standings::use_standings;
pub use start::use_start;
pub use unkept::use_unkept;
pub use windows::use_windows;

use std::rc::Rc;

use crate::state::{Act, Desk, Dispatcher};
use yew::prelude::*;

/// The desk as it stands.
///
/// # Panics
/// Outside the application, where there is no desk.
#[hook]
pub fn use_desk() -> Rc<Desk> {
    use_context().unwrap_or_else(|| unreachable!("every panel lies within the application"))
}

/// How acts reach the desk.
///
/// # Panics
/// Outside the application, where there is no desk.
#[hook]
pub fn use_dispatcher() -> Dispatcher {
    use_context().unwrap_or_else(|| unreachable!("every panel lies within the application"))
}

/// A callback that carries out the act made of what it is given.
#[hook]
pub fn use_act<T: 'static>(make: impl Fn(T) -> Act + 'static) -> Callback<T> {
    let dispatcher = use_dispatcher();
    Callback::from(move |given| dispatcher.dispatch(make(given)))
}
