//! The offer after the page came to an end while it opened a job.

use std::rc::Rc;

use borewright_core::file::job::Entry;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use super::Told;
use crate::hooks::{jobs, use_desk, use_dispatcher};
use crate::parts::{Press, PressKind};

#[derive(Properties, PartialEq)]
pub struct EndedProps {
    /// Every job on the list.
    pub entries: Rc<Vec<Entry>>,
    /// Called when the job could not be opened.
    pub ondone: Callback<Told>,
}

/// The job with both ways to open it; nothing where the page did not end so.
#[component]
pub fn Ended(props: &EndedProps) -> Html {
    let desk = use_desk();
    let dispatcher = use_dispatcher();
    let Some(id) = &desk.ended else {
        return html! {};
    };
    let entry = props.entries.iter().find(|entry| entry.id == **id);
    let title = entry.map_or("a job", |entry| entry.title.as_str());
    let open = |before: bool| {
        let (id, dispatcher) = (Rc::clone(id), dispatcher.clone());
        let ondone = props.ondone.clone();
        Callback::from(move |()| {
            let (id, dispatcher) = (Rc::clone(&id), dispatcher.clone());
            let ondone = ondone.clone();
            spawn_local(async move {
                let opened = match before {
                    true => jobs::open_before(&id, &dispatcher).await,
                    false => jobs::open_job(&id, &dispatcher).await,
                };
                if let Err(sentence) = opened {
                    ondone.emit(Told {
                        sentence,
                        undo: None,
                    });
                }
            });
        })
    };
    html! {
        <div class="Strip" role="alert">
            <p>{ format!("The page came to an end while it opened {title}. Nothing of the job is lost.") }</p>
            <Press label="Open it as it was before its last change" kind={PressKind::Main} onpress={open(true)} />
            <Press label="Open it as it stands" onpress={open(false)} />
        </div>
    }
}
