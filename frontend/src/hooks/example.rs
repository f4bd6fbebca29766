//! Opens one of the invented houses in place of the plan on the table.

use std::rc::Rc;

use borewright_core::desk::{Intent, Notice};
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use super::use_dispatcher;
use crate::demo::Example;
use crate::state::{Act, Wait};

/// What is said when a house does not come.
const NOT_FETCHED: &str =
    "The example could not be fetched. Look whether there is a network, then ask again.";

/// A callback that fetches a house and opens it. Undo brings back the plan before.
#[hook]
pub fn use_example() -> Callback<Example> {
    let dispatcher = use_dispatcher();
    Callback::from(move |example: Example| {
        let dispatcher = dispatcher.clone();
        spawn_local(async move {
            dispatcher.dispatch(Act::Wait(Some(Wait {
                words: String::from("Fetching the example"),
                done: None,
            })));
            let plan = example.plan().await;
            dispatcher.dispatch(Act::Wait(None));
            dispatcher.dispatch(match plan {
                Some(plan) => Act::Want(Intent::Open(Rc::new(plan))),
                None => Act::Say(Notice::refused(NOT_FETCHED, None)),
            });
        });
    })
}
