//! The job: new, open, save, share, settings, and what else is kept on this device.

use std::rc::Rc;

use borewright_core::desk::{Intent, Notice};
use borewright_core::file::{self, page};
use borewright_core::plan::Plan;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use super::Head;
use crate::browser::storage::{self, Slot};
use crate::browser::{assets, files};
use crate::hooks::{use_act, use_desk, use_dispatcher, use_opening, use_slots};
use crate::panels::examples::Examples;
use crate::panels::icons;
use crate::parts::{FilePress, Press, PressKind};
use crate::state::{Act, Desk, Dispatcher, Keeping, Leaf, Wait};

/// The slip of the job.
#[component]
pub fn JobSlip() -> Html {
    let desk = use_desk();
    let lay = use_act(|leaf| Act::Lay(Some(leaf)));
    let onfile = use_opening();
    let close = use_act(|()| Act::Lay(None));
    let save = {
        let desk = desk.clone();
        Callback::from(move |()| save(&desk))
    };
    let save_page = {
        let (plan, dispatcher) = (desk.session.plan.clone(), use_dispatcher());
        Callback::from(move |()| spawn_local(save_page(plan.clone(), dispatcher.clone())))
    };
    html! {
        <>
            <Head title={desk.session.plan.title.clone()} line={keeping(&desk)} />
            <div class="SlipMenu">
                <NewPlan />
                <FilePress label="Open a file" icon={icons::OPEN} onfile={onfile}
                    accept=".json,.borewright,application/json,image/png,image/jpeg,image/webp" />
                <Press label="Save to a file" icon={icons::SAVE} onpress={save} />
                <Press label="Save as a page that opens anywhere" icon={icons::PAGE} onpress={save_page} />
                <Press label="Share" icon={icons::LINK} onpress={lay.reform(|()| Leaf::Share)} />
                <Press label="Agreements" icon={icons::LISTS} onpress={lay.reform(|()| Leaf::Agreements)} />
                <Press label="Change order" icon={icons::LISTS} onpress={lay.reform(|()| Leaf::Change)} />
                <Press label="Settings" icon={icons::SETTINGS} onpress={lay.reform(|()| Leaf::Settings)} />
                <OtherPlans />
                <Examples onasked={close} />
            </div>
            <p class="Quiet">
                { "This page talks to no server and gathers nothing. A plan leaves this device only as a file, a link or paper that you hand on." }
            </p>
        </>
    }
}

/// Saves the plan with its drawings as a file.
pub fn save(desk: &Desk) {
    let plan = &desk.session.plan;
    let name = files::name_of(&plan.title, "borewright.json");
    files::save(&name, "application/json", &file::write(plan));
}

/// Saves one page with this program, the plan and its drawings in it: for e-mail, or any host.
async fn save_page(plan: Rc<Plan>, dispatcher: Dispatcher) {
    let words = String::from("Putting the page together");
    dispatcher.dispatch(Act::Wait(Some(Wait { words, done: None })));
    match assets::parts().await {
        Some(parts) => {
            let text = page::page(&parts, &plan);
            files::save(
                &files::name_of(&plan.title, "html"),
                "text/html",
                text.as_bytes(),
            );
        }
        None => {
            let text =
                "A part of this page could not be fetched. Load the page again, or save to a file.";
            dispatcher.dispatch(Act::Say(Notice::refused(text, None)));
        }
    }
    dispatcher.dispatch(Act::Wait(None));
}

fn keeping(desk: &Desk) -> String {
    match &desk.keeping {
        _ if desk.session.read_only => {
            format!(
                "From {}, to look at. Take it over to change it.",
                assets::origin()
            )
        }
        Keeping::Nothing => String::from("Nothing changed yet."),
        Keeping::Waiting => String::from("Being kept on this device."),
        Keeping::Kept => String::from("Kept on this device."),
        Keeping::Failed(sentence) => sentence.clone(),
    }
}

/// Starts a new plan; asks first, in place, when the one on the table was changed.
#[component]
fn NewPlan() -> Html {
    let desk = use_desk();
    let asking = use_state(|| false);
    let start = use_act(|()| Act::Want(Intent::NewPlan));
    let lay = use_act(|()| Act::Lay(None));
    let at_stake = !desk.session.history.is_empty() || desk.keeping == Keeping::Kept;
    let begin = Callback::from(move |()| {
        start.emit(());
        lay.emit(());
    });
    let onpress = {
        let (asking, begin) = (asking.clone(), begin.clone());
        Callback::from(move |()| {
            if at_stake {
                asking.set(true)
            } else {
                begin.emit(())
            }
        })
    };
    let onsave = {
        let desk = desk.clone();
        Callback::from(move |()| save(&desk))
    };
    let onstay = {
        let asking = asking.clone();
        Callback::from(move |()| asking.set(false))
    };
    html! {
        <>
            <Press label="New plan" icon={icons::BLANK} {onpress} />
            if *asking {
                <div class="Strip" role="alert">
                    <p>{ "The plan on the table makes room. It stays on this device as the plan before." }</p>
                    <Press label="Start the new plan" kind={PressKind::Main} onpress={begin} />
                    <Press label="Save this one to a file first" onpress={onsave} />
                    <Press label="Stay with this one" kind={PressKind::Quiet} onpress={onstay} />
                </div>
            }
        </>
    }
}

/// The plan before this one, and bytes that could not be read, if this device has them.
#[component]
fn OtherPlans() -> Html {
    let dispatcher = use_dispatcher();
    let slots = use_slots();
    let back = {
        let dispatcher = dispatcher.clone();
        Callback::from(move |()| bring_back(dispatcher.clone()))
    };
    let unread = Callback::from(|()| {
        spawn_local(async {
            if let Ok(Some(bytes)) = storage::read(Slot::Unread).await {
                files::save("unread.borewright.json", "application/octet-stream", &bytes);
            }
        })
    });
    html! {
        <>
            if slots.before { <Press label="Bring back the plan before" icon={icons::UNDO} onpress={back} /> }
            if slots.unread { <Press label="Save the unread plan as it is" icon={icons::SAVE} onpress={unread} /> }
        </>
    }
}

fn bring_back(dispatcher: Dispatcher) {
    spawn_local(async move {
        let bytes = storage::read(Slot::Before)
            .await
            .ok()
            .flatten()
            .unwrap_or_default();
        dispatcher.dispatch(match file::read(&bytes) {
            Ok(opened) => Act::Want(Intent::Open(Rc::new(opened.plan))),
            Err(error) => Act::Say(Notice::refused(error.to_string(), None)),
        });
    });
}
