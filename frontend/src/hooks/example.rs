//! Lays one of the invented houses on the table. It becomes a job once somebody changes it; what lay
//! there stays the job it is.

use borewright_core::desk::Notice;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use super::start::laid_out;
use super::use_dispatcher;
use crate::demo::Example;
use crate::state::{Act, Begun, Wait};

/// What is said when a house does not come.
const NOT_FETCHED: &str =
    "The example could not be fetched. Look whether there is a network, then ask again.";

/// A callback that fetches a house and opens it.
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
                Some(plan) => Act::Begin(Box::new(Begun::loose(laid_out(plan).await))),
                None => Act::Say(Notice::refused(NOT_FETCHED, None)),
            });
        });
    })
}
