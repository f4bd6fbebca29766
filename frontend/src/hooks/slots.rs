//! What else is kept on this device besides the plan on the table.

use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use crate::browser::storage::{self, Slot};

/// Which slots hold something.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Slots {
    /// The plan before this one.
    pub before: bool,
    /// Bytes that could not be read.
    pub unread: bool,
}

/// Looks once, when what asks for it is shown.
#[hook]
pub fn use_slots() -> Slots {
    let slots = use_state_eq(Slots::default);
    {
        let slots = slots.clone();
        use_effect_with((), move |()| {
            spawn_local(async move {
                let holds = async |slot| matches!(storage::read(slot).await, Ok(Some(_)));
                slots.set(Slots {
                    before: holds(Slot::Before).await,
                    unread: holds(Slot::Unread).await,
                });
            });
        });
    }
    *slots
}
