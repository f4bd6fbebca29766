//! Opens what a person hands over: a drawing goes under the level, a saved plan becomes another job.

use std::sync::Arc;

use borewright_core::desk::{Intent, Notice, Step};
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{LevelId, Placing};
use gloo::events::EventListener;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;
use web_sys::{ClipboardEvent, File};
use yew::prelude::*;

use super::start::{laid_out, say_losses};
use super::{use_desk, use_dispatcher};
use crate::browser::{files, picture};
use crate::state::{Act, Begun, Dispatcher, Wait};
use crate::worker;

/// A first guess at the scale of a drawing that has none yet: its longer side is 60 ft.
const LONGER_SIDE: f64 = 60.0 * 304.8;

/// A callback that opens a file, whatever of ours it is.
#[hook]
pub fn use_opening() -> Callback<File> {
    let (desk, dispatcher) = (use_desk(), use_dispatcher());
    let level = desk.session.level;
    Callback::from(move |file: File| {
        let dispatcher = dispatcher.clone();
        spawn_local(async move { open(file, level, dispatcher).await });
    })
}

/// Opens what is pasted anywhere on the page.
#[hook]
pub fn use_paste() {
    let onfile = use_opening();
    use_effect_with(onfile, |onfile| {
        let onfile = onfile.clone();
        let listener = EventListener::new(&gloo::utils::document(), "paste", move |event| {
            let event = event.dyn_ref::<ClipboardEvent>();
            let file = event.and_then(|event| files::handed_over(event.clipboard_data()));
            file.into_iter().for_each(|file| onfile.emit(file));
        });
        move || drop(listener)
    });
}

async fn open(file: File, level: LevelId, dispatcher: Dispatcher) {
    let wait = |words: &str| {
        Act::Wait(Some(Wait {
            words: words.into(),
            done: None,
        }))
    };
    dispatcher.dispatch(wait("Reading the file"));
    let done = match files::read(&file).await {
        Ok(bytes) if picture::is_picture(&bytes) => {
            dispatcher.dispatch(wait("Unrolling the drawing"));
            put_drawing(bytes, level, &dispatcher).await
        }
        Ok(bytes) => put_plan(bytes, &file.name(), &dispatcher).await,
        Err(sentence) => Err(sentence),
    };
    if let Err(sentence) = done {
        dispatcher.dispatch(Act::Say(Notice::refused(sentence, None)));
    }
    dispatcher.dispatch(Act::Wait(None));
}

async fn put_drawing(
    bytes: Vec<u8>,
    level: LevelId,
    dispatcher: &Dispatcher,
) -> Result<(), String> {
    let scan = picture::scan(bytes).await?;
    let longer = f64::from(scan.width.max(scan.height));
    let placing = Placing {
        scale: LONGER_SIDE / longer,
        ..Placing::default()
    };
    let edit = Edit::PutScan(level, Arc::new(scan), placing, Vec::new());
    dispatcher.dispatch(Act::Jobs(false));
    dispatcher.dispatch(Act::Want(Intent::GoTo(Step::Drawing)));
    dispatcher.dispatch(Act::Want(Intent::Edit(edit)));
    dispatcher.dispatch(Act::ShowAll);
    Ok(())
}

async fn put_plan(bytes: Vec<u8>, name: &str, dispatcher: &Dispatcher) -> Result<(), String> {
    // What is neither a picture nor looks like text of ours was meant as a drawing.
    let meant_as_plan = name.ends_with(".json") || bytes.trim_ascii_start().starts_with(b"{");
    if !meant_as_plan {
        return Err(String::from(
            "This file is neither a drawing nor a saved plan. Choose a PNG, JPEG or WebP picture, or a plan saved here.",
        ));
    }
    let opened = worker::read(bytes).await?;
    let begun = Begun::another(laid_out(opened.plan).await);
    dispatcher.dispatch(Act::Begin(Box::new(begun)));
    say_losses(dispatcher, &opened.losses);
    Ok(())
}
