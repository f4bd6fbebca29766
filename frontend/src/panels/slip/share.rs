//! The link that carries the whole plan, without its drawings.

use borewright_core::desk::Notice;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use super::Head;
use crate::browser::{address, clipboard};
use crate::hooks::{use_desk, use_dispatcher};
use crate::panels::icons;
use crate::parts::{Press, PressKind};
use crate::state::Act;

/// The slip for sharing.
#[component]
pub fn ShareSlip() -> Html {
    let desk = use_desk();
    let dispatcher = use_dispatcher();
    let plan = desk.session.plan.clone();
    let link = use_memo(std::rc::Rc::as_ptr(&plan), |_| address::of_plan(&plan));
    let copy = {
        let link = link.clone();
        Callback::from(move |()| {
            let (link, dispatcher) = (link.clone(), dispatcher.clone());
            spawn_local(async move {
                let notice = match clipboard::copy(&link).await {
                    true => Notice::done("The link is on the clipboard."),
                    false => Notice::refused(
                        "The clipboard is closed here. Select the link and copy it.",
                        None,
                    ),
                };
                dispatcher.dispatch(Act::Say(notice));
            });
        })
    };
    html! {
        <>
            <Head title="Share" line="The link carries the whole plan, without the drawing under it. It opens read-only, on any device, with no account." />
            <Press label="Copy the link" icon={icons::LINK} kind={PressKind::Main} onpress={copy} />
            <label class="Field">
                <span class="FieldLabel">{ format!("Link, {}", size(link.len())) }</span>
                <textarea rows="4" readonly=true value={link.to_string()} />
            </label>
            <p class="Quiet">{ "Whoever has the link has the plan. Nothing is stored anywhere else." }</p>
        </>
    }
}

/// "4,212 characters".
fn size(characters: usize) -> String {
    match characters {
        0..=999 => format!("{characters} characters"),
        _ => format!("{},{:03} characters", characters / 1000, characters % 1000),
    }
}
