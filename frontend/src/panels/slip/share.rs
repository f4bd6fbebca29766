//! The link that carries the whole plan, without its drawings, to copy or to read off the screen.

use std::rc::Rc;

use borewright_core::desk::Notice;
use borewright_core::file::link::{self, LinkError, Modules, Privacy};
use borewright_core::plan::Plan;
use borewright_core::units::thousands;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use super::Head;
use crate::browser::{address, clipboard};
use crate::hooks::{use_desk, use_dispatcher};
use crate::panels::icons;
use crate::parts::{Press, PressKind, Tick};
use crate::print::code;
use crate::state::{Act, Dispatcher};

/// The slip for sharing.
#[component]
pub fn ShareSlip() -> Html {
    let desk = use_desk();
    let dispatcher = use_dispatcher();
    let names = use_state_eq(|| true);
    // What is copied is the plan with the numbers of holes that hold from then on.
    let handed = use_memo(
        (
            Rc::as_ptr(&desk.session.plan),
            Rc::as_ptr(&desk.session.design),
            desk.wants_better(),
        ),
        |_| desk.handed_on().plan,
    );
    let plan = &*handed;
    let spelled = use_memo((Rc::as_ptr(plan), *names), |(_, names)| spell(plan, *names));
    let version = use_memo((Rc::as_ptr(plan), *names), |(_, names)| {
        let version = match names {
            true => link::version(plan),
            false => link::version(&link::without_names(plan)),
        };
        format!(
            "Version {}. It stands on the page that the link opens and on every reply.",
            version.code().unwrap_or_default()
        )
    });
    let onset = {
        let names = names.clone();
        Callback::from(move |out: bool| names.set(!out))
    };
    let content = match &*spelled {
        Ok((link, code)) => shown(link, code.as_ref(), &dispatcher),
        Err(error) => html! { <p role="alert">{ error.to_string() }</p> },
    };
    html! {
        <>
            <Head title="Share" line="The link carries the whole plan, without the drawing under it and the record of the site. It opens read-only, on any device, with no account." />
            { content }
            <Tick label="Leave out names and notes" ticked={!*names} {onset} />
            <p class="Quiet">{ (*version).clone() }</p>
            <p class="Quiet">{ "Whoever has the link has the plan. Nothing is stored anywhere else." }</p>
        </>
    }
}

/// The address with the plan, and its printed code where one holds it.
fn spell(plan: &Plan, names: bool) -> Result<(String, Option<Modules>), LinkError> {
    let privacy = if names {
        Privacy::Everything
    } else {
        Privacy::WithoutNames
    };
    let bytes = link::write(plan, privacy)?;
    let code = link::qr(&code::spelled(&bytes)).ok();
    Ok((address::with_fragment(&link::encode_text(&bytes)), code))
}

fn shown(link: &str, code: Option<&Modules>, dispatcher: &Dispatcher) -> Html {
    let copied = (link.to_string(), dispatcher.clone());
    let copy = Callback::from(move |()| {
        let (link, dispatcher) = copied.clone();
        spawn_local(async move {
            let notice = match clipboard::copy(&link).await {
                true => Notice::done("The link is on the clipboard."),
                false => Notice::refused(
                    "The clipboard is closed here. Select the link and copy it.",
                    None,
                ),
            };
            dispatcher.dispatch(Act::Point("Shared"));
            dispatcher.dispatch(Act::Say(notice));
        });
    });
    html! {
        <>
            <Press label="Copy the link" icon={icons::LINK} kind={PressKind::Main} onpress={copy} />
            <label class="Field">
                <span class="FieldLabel">{ format!("Link, {} characters", thousands(link.len() as i64)) }</span>
                <textarea rows="3" readonly=true value={link.to_string()} />
            </label>
            if let Some(code) = code { { drawn(code) } }
        </>
    }
}

/// A printed code with its quiet border of four modules.
fn drawn(code: &Modules) -> Html {
    let side = code.size + 8;
    let dark = (0..code.size).flat_map(|row| (0..code.size).map(move |column| (column, row)));
    let squares: String = dark
        .filter(|(column, row)| code.is_dark(*column, *row))
        .map(|(column, row)| format!("M{} {}h1v1h-1z", column + 4, row + 4))
        .collect();
    html! {
        <svg class="PrintedCode" role="img" aria-label="The same link, to point a camera at"
            viewBox={format!("0 0 {side} {side}")}><path d={squares} /></svg>
    }
}
