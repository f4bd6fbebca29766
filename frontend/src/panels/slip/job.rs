//! The job: the other jobs of this device, new, open, save, share, settings.

use std::rc::Rc;

use borewright_core::desk::Notice;
use borewright_core::file::{self, page};
use borewright_core::plan::Plan;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use super::Head;
use super::points::Points;
use crate::browser::{assets, files};
use crate::hooks::{jobs, use_act, use_desk, use_dispatcher, use_opening, use_paper};
use crate::panels::examples::Examples;
use crate::panels::icons;
use crate::parts::{FilePress, Press};
use crate::state::{Act, Desk, Dispatcher, Keeping, Leaf, Place, Wait};

/// The slip of the job.
#[component]
pub fn JobSlip() -> Html {
    let desk = use_desk();
    let lay = use_act(|leaf| Act::Lay(Some(leaf)));
    let onfile = use_opening();
    let close = use_act(|()| Act::Lay(None));
    let list = use_act(|()| Act::Jobs(true));
    let paper = use_paper();
    let save = {
        let desk = desk.clone();
        Callback::from(move |()| save(&desk))
    };
    let save_page = {
        let (desk, dispatcher) = (desk.clone(), use_dispatcher());
        Callback::from(move |()| {
            spawn_local(save_page(desk.handed_on().plan, dispatcher.clone()));
        })
    };
    html! {
        <>
            <Head title={desk.session.plan.title.clone()} line={keeping(&desk)} />
            if let Some(sentence) = paper { <p role="status"><b>{ sentence }</b></p> }
            <div class="SlipMenu">
                <Press label="Jobs on this device" icon={icons::JOBS} onpress={list} />
                <NewJob />
                <FilePress label="Open a file" icon={icons::OPEN} onfile={onfile}
                    accept=".json,.borewright,application/json,image/png,image/jpeg,image/webp" />
                <Press label="Save to a file" icon={icons::SAVE} onpress={save} />
                <Press label="Save as a page that opens anywhere" icon={icons::PAGE} onpress={save_page} />
                <Press label="Share" icon={icons::LINK} onpress={lay.reform(|()| Leaf::Share)} />
                <Press label="Agreements" icon={icons::LISTS} onpress={lay.reform(|()| Leaf::Agreements)} />
                <Press label="Change order" icon={icons::LISTS} onpress={lay.reform(|()| Leaf::Change)} />
                <Press label="Settings" icon={icons::SETTINGS} onpress={lay.reform(|()| Leaf::Settings)} />
                <Examples onasked={close} />
            </div>
            <Points />
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
            dispatcher.dispatch(Act::Point("Shared"));
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
        _ if matches!(desk.place, Place::Elsewhere(_)) => String::from(
            "Open in another window. Close it there to change it here, or take it over as a copy.",
        ),
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

/// Begins a new job.
#[component]
fn NewJob() -> Html {
    let desk = use_desk();
    let (units, dispatcher) = (desk.session.plan.units, use_dispatcher());
    let onpress = Callback::from(move |()| jobs::begin_new(units, &dispatcher));
    html! { <Press label="New job" icon={icons::BLANK} {onpress} /> }
}
