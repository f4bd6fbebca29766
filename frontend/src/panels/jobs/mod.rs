//! The jobs on this device: what there is, in place of the table, to open, to begin, to put in order.

mod archive;
mod card;
mod ended;
mod unread;

use std::rc::Rc;

use borewright_core::file::job::{DAYS_TO_UNDO, Entry, Standing};
use gloo::events::EventListener;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;
use web_sys::KeyboardEvent;
use yew::prelude::*;

use super::examples::Examples;
use super::icons;
use crate::browser::jobs;
use crate::hooks::jobs::begin_new;
use crate::hooks::{use_act, use_desk, use_dispatcher, use_opening};
use crate::parts::{FilePress, Press, PressKind, Search, Segments};
use crate::state::Act;
use archive::Archives;
use card::JobCard;
use ended::Ended;
use unread::Unread;

/// Which part of the list is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Side {
    #[default]
    AtHand,
    Aside,
    Deleted,
}

impl Side {
    const ALL: [Self; 3] = [Self::AtHand, Self::Aside, Self::Deleted];

    fn of(standing: Standing) -> Self {
        match standing {
            Standing::AtHand => Self::AtHand,
            Standing::Aside => Self::Aside,
            Standing::Deleted(_) => Self::Deleted,
        }
    }

    fn words(self) -> &'static str {
        match self {
            Self::AtHand => "At hand",
            Self::Aside => "Set aside",
            Self::Deleted => "Deleted",
        }
    }

    /// What is said where nothing is.
    fn empty(self) -> String {
        match self {
            Self::AtHand => String::from(
                "No job is on this device yet. A plan becomes one with its first change; it is kept here in the moment of every change after it.",
            ),
            Self::Aside => String::from(
                "Nothing is set aside. A job that rests can be put here, out of the way.",
            ),
            Self::Deleted => {
                format!("Nothing was deleted in the last {DAYS_TO_UNDO} days.")
            }
        }
    }
}

/// What was read of the list.
type Listed = Option<Result<Rc<Vec<Entry>>, String>>;

/// What was just done, and the job with where it stood, to undo it.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    sentence: String,
    undo: Option<Entry>,
}

/// The list, in place of the table.
#[component]
pub fn Jobs() -> Html {
    let listed = use_state(|| Listed::None);
    let told = use_state(|| None::<Told>);
    let side = use_state_eq(Side::default);
    let search = use_state_eq(String::new);
    let looked = use_state_eq(|| 0_u32);
    let close = use_act(|()| Act::Jobs(false));
    use_escape(close.clone());
    {
        let listed = listed.clone();
        use_effect_with(*looked, move |_| {
            spawn_local(async move {
                listed.set(Some(jobs::entries().await.map(Rc::new)));
            });
        });
    }
    let ondone = {
        let (looked, told) = (looked.clone(), told.clone());
        Callback::from(move |done: Told| {
            told.set(Some(done));
            looked.set(*looked + 1);
        })
    };
    let entries = match &*listed {
        Some(Ok(entries)) => Rc::clone(entries),
        _ => Rc::default(),
    };
    let onsearch = {
        let search = search.clone();
        Callback::from(move |text: String| search.set(text))
    };
    let onpick = {
        let side = side.clone();
        Callback::from(move |place: usize| side.set(Side::ALL[place.min(2)]))
    };
    html! {
        <main class="Jobs">
            <header class="JobsHead">
                <h1>{ "Jobs on this device" }</h1>
                <Press label="Back to the table" icon={icons::UNDO} onpress={close} />
            </header>
            <Ended entries={entries.clone()} ondone={ondone.clone()} />
            <Beginnings />
            <div class="JobsFind">
                <Search label="Find a job" {onsearch} />
                <Segments label="Which jobs" options={options(&entries)} {onpick}
                    chosen={Side::ALL.iter().position(|one| *one == *side)} />
            </div>
            if let Some(told) = &*told { <Done told={told.clone()} ondone={ondone.clone()} /> }
            { list(&listed, *side, &search, &ondone) }
            <Archives ondone={ondone.clone()} />
            <Unread />
            <p class="Quiet">
                { "Every job stays on this device, in this browser. It leaves it only as a file, a link or paper that you hand on; keep a file of what must outlive the device." }
            </p>
        </main>
    }
}

/// Each side with how many jobs it has.
fn options(entries: &[Entry]) -> Vec<AttrValue> {
    let option = |side: Side| {
        let here = entries.iter().filter(|e| Side::of(e.standing) == side);
        AttrValue::from(format!("{}, {}", side.words(), here.count()))
    };
    Side::ALL.into_iter().map(option).collect()
}

fn list(listed: &Listed, side: Side, search: &str, ondone: &Callback<Told>) -> Html {
    let entries = match listed {
        None => return html! { <p class="Quiet" role="status">{ "Looking for the jobs." }</p> },
        Some(Err(sentence)) => return html! { <p class="Strip" role="alert">{ sentence }</p> },
        Some(Ok(entries)) => entries,
    };
    let here: Vec<&Entry> = entries
        .iter()
        .filter(|entry| Side::of(entry.standing) == side)
        .collect();
    let found: Vec<&Entry> = here
        .iter()
        .copied()
        .filter(|entry| entry.answers(search))
        .collect();
    if found.is_empty() {
        let words = match here.is_empty() {
            true => side.empty(),
            false => format!(
                "No job here has “{}” in its name or address.",
                search.trim()
            ),
        };
        return html! { <p class="JobsNone" role="status">{ words }</p> };
    }
    let card = |entry: &Entry| {
        html! { <JobCard key={entry.id.clone()} entry={entry.clone()} ondone={ondone.clone()} /> }
    };
    html! { <ul class="JobList">{ for found.into_iter().map(card) }</ul> }
}

/// How a job begins.
#[component]
fn Beginnings() -> Html {
    let desk = use_desk();
    let onfile = use_opening();
    let onnew = {
        let (units, dispatcher) = (desk.session.plan.units, use_dispatcher());
        Callback::from(move |()| begin_new(units, &dispatcher))
    };
    html! {
        <div class="JobsBegin">
            <Press label="New job" icon={icons::BLANK} kind={PressKind::Main} onpress={onnew} />
            <FilePress label="Open a file" icon={icons::OPEN} {onfile}
                accept=".json,.borewright,application/json" />
            <Examples kind={PressKind::Quiet} />
        </div>
    }
}

#[derive(Properties, PartialEq)]
struct DoneProps {
    told: Told,
    ondone: Callback<Told>,
}

/// What was just done, with a way back where there is one.
#[component]
fn Done(props: &DoneProps) -> Html {
    let undo = props.told.undo.clone().map(|before| {
        let ondone = props.ondone.clone();
        let onpress =
            Callback::from(move |()| card::put(before.clone(), before.standing, None, &ondone));
        html! { <Press label="Undo" icon={icons::UNDO} {onpress} /> }
    });
    html! {
        <div class="Strip JobsTold" role="status">
            <p>{ &props.told.sentence }</p>
            { undo }
        </div>
    }
}

/// Escape leads back to the table.
#[hook]
fn use_escape(close: Callback<()>) {
    use_effect_with((), move |()| {
        let document = gloo::utils::document();
        let listener = EventListener::new(&document, "keydown", move |event| {
            let escape = event.dyn_ref::<KeyboardEvent>();
            if escape.is_some_and(|event| event.key() == "Escape") {
                close.emit(());
            }
        });
        move || drop(listener)
    });
}
