//! One job on the list.

use borewright_core::desk::Intent;
use borewright_core::file::job::{DAYS_TO_UNDO, Entry, Standing};
use borewright_core::plan::edit::Edit;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use super::Told;
use crate::browser::clock;
use crate::hooks::{jobs, use_desk, use_dispatcher};
use crate::panels::icons;
use crate::parts::{Field, Icon, Press, PressKind};
use crate::state::{Act, Dispatcher, Place};

#[derive(Properties, PartialEq)]
pub struct JobCardProps {
    /// The job.
    pub entry: Entry,
    /// Called when something was done with it.
    pub ondone: Callback<Told>,
}

/// The job: what it is, a press to open it, and what else can be done with it.
#[component]
pub fn JobCard(props: &JobCardProps) -> Html {
    let desk = use_desk();
    let dispatcher = use_dispatcher();
    let entry = &props.entry;
    let is_here = matches!(&desk.place, Place::Job(id, _) if **id == *entry.id);
    let is_deleted = matches!(entry.standing, Standing::Deleted(_));
    let open = {
        let (entry, dispatcher) = (entry.clone(), dispatcher.clone());
        let ondone = props.ondone.clone();
        Callback::from(move |_: MouseEvent| match is_here {
            true => dispatcher.dispatch(Act::Jobs(false)),
            false => open(entry.clone(), dispatcher.clone(), ondone.clone()),
        })
    };
    html! {
        <li class="JobCard" data-here={is_here.to_string()}>
            <button type="button" class="JobOpen" onclick={open} disabled={is_deleted}
                aria-label={format!("Open {}", entry.title)} aria-current={is_here.then_some("true")}>
                <svg class="JobPicture" viewBox="-8 -8 256 176" aria-hidden="true"><path d={entry.sketch.clone()} /></svg>
                <span class="JobWords">
                    <b>{ &entry.title }</b>
                    if !entry.address.is_empty() { <span>{ &entry.address }</span> }
                    <span>{ &entry.next }</span>
                    <small>{ when(entry, is_here) }</small>
                </span>
                if !is_deleted { <Icon lines={icons::AHEAD} /> }
            </button>
            <Presses entry={entry.clone()} {is_here} ondone={props.ondone.clone()} />
        </li>
    }
}

fn when(entry: &Entry, is_here: bool) -> String {
    if let Some(days) = entry.days_left(clock::moment()) {
        let plural = if days == 1 { "" } else { "s" };
        return format!("{days} day{plural} left to bring it back");
    }
    let changed = format!("Changed {}", clock::told(entry.changed));
    match is_here {
        true => format!("{changed} · on the table"),
        false => changed,
    }
}

fn open(entry: Entry, dispatcher: Dispatcher, ondone: Callback<Told>) {
    spawn_local(async move {
        if let Err(sentence) = jobs::open_job(&entry.id, &dispatcher).await {
            ondone.emit(Told {
                sentence,
                undo: None,
            });
        }
    });
}

#[derive(Clone, Properties, PartialEq)]
struct PressesProps {
    entry: Entry,
    is_here: bool,
    ondone: Callback<Told>,
}

/// What can be done with a job besides opening it.
#[component]
fn Presses(props: &PressesProps) -> Html {
    let naming = use_state_eq(|| false);
    let onname = {
        let naming = naming.clone();
        Callback::from(move |()| naming.set(!*naming))
    };
    let onnamed = {
        let naming = naming.clone();
        Callback::from(move |()| naming.set(false))
    };
    let places = html! { <Places ..props.clone() /> };
    if matches!(props.entry.standing, Standing::Deleted(_)) {
        return html! { <div class="JobPresses">{ places }</div> };
    }
    let copy = {
        let (entry, ondone) = (props.entry.clone(), props.ondone.clone());
        Callback::from(move |()| duplicate(entry.clone(), ondone.clone()))
    };
    html! {
        <>
            if *naming { <Naming of={props.clone()} {onnamed} /> }
            <div class="JobPresses">
                { press("Rename", &props.entry, onname) }
                { press("Duplicate", &props.entry, copy) }
                { places }
            </div>
        </>
    }
}

/// A press that says what of which job.
fn press(label: &'static str, entry: &Entry, onpress: Callback<()>) -> Html {
    let name = AttrValue::from(format!("{label} {}", entry.title));
    html! { <Press {label} {name} kind={PressKind::Quiet} {onpress} /> }
}

/// The presses that put a job somewhere else on the list.
#[component]
fn Places(props: &PressesProps) -> Html {
    let (desk, dispatcher) = (use_desk(), use_dispatcher());
    let entry = &props.entry;
    let stand = |label: &'static str, standing: fn() -> Standing, sentence: String| {
        let (entry, ondone) = (entry.clone(), props.ondone.clone());
        let (is_here, dispatcher) = (props.is_here, dispatcher.clone());
        let units = desk.session.plan.units;
        let onpress = Callback::from(move |()| {
            let standing = standing();
            let (units, dispatcher) = (units, dispatcher.clone());
            let ondone = ondone.reform(move |told: Told| {
                if is_here && told.undo.is_some() && standing != Standing::AtHand {
                    // What left the list leaves the table.
                    jobs::begin_new(units, &dispatcher);
                    dispatcher.dispatch(Act::Jobs(true));
                }
                told
            });
            put(entry.clone(), standing, Some(sentence.clone()), &ondone);
        });
        press(label, &props.entry, onpress)
    };
    let title = &entry.title;
    let back = format!("{title} is at hand again.");
    let at_hand = || Standing::AtHand;
    if matches!(entry.standing, Standing::Deleted(_)) {
        return stand("Bring back", at_hand, back);
    }
    let aside = match entry.standing {
        Standing::Aside => stand("Take up again", at_hand, back),
        _ => stand(
            "Set aside",
            || Standing::Aside,
            format!("{title} is set aside."),
        ),
    };
    let deleted = format!("{title} is deleted. It can be brought back for {DAYS_TO_UNDO} days.");
    let delete = stand("Delete", || Standing::Deleted(clock::moment()), deleted);
    html! { <>{ aside }{ delete }</> }
}

#[derive(Properties, PartialEq)]
struct NamingProps {
    of: PressesProps,
    onnamed: Callback<()>,
}

/// Takes another name for a job.
#[component]
fn Naming(props: &NamingProps) -> Html {
    let dispatcher = use_dispatcher();
    let PressesProps {
        entry,
        is_here,
        ondone,
    } = props.of.clone();
    let (title, onnamed) = (entry.title.clone(), props.onnamed.clone());
    let onset = Callback::from(move |title: String| {
        onnamed.emit(());
        rename(entry.clone(), title, is_here, &dispatcher, &ondone);
    });
    html! { <Field label={format!("New name of {title}")} value={title} {onset} /> }
}

/// Puts a job somewhere else on the list and says so, with a way back where `sentence` tells of a new
/// place.
pub(super) fn put(
    entry: Entry,
    standing: Standing,
    sentence: Option<String>,
    ondone: &Callback<Told>,
) {
    let ondone = ondone.clone();
    spawn_local(async move {
        let done = jobs::stand(&entry, standing).await;
        let undo = sentence.is_some().then(|| entry.clone());
        let sentence = sentence.unwrap_or_else(|| format!("{} is where it was.", entry.title));
        ondone.emit(match done {
            Ok(()) => Told { sentence, undo },
            Err(sentence) => Told {
                sentence,
                undo: None,
            },
        });
    });
}

/// Gives a job another name: on the table by an edit, elsewhere in its journal.
fn rename(
    entry: Entry,
    title: String,
    is_here: bool,
    dispatcher: &Dispatcher,
    ondone: &Callback<Told>,
) {
    let sentence = format!("{} is called {title} now.", entry.title);
    let told = |sentence: String| Told {
        sentence,
        undo: None,
    };
    if is_here {
        dispatcher.dispatch(Act::Want(Intent::Edit(Edit::SetTitle(title.clone()))));
    }
    let ondone = ondone.clone();
    spawn_local(async move {
        let done = match is_here {
            true => Ok(()),
            false => jobs::rename(&entry, title).await,
        };
        ondone.emit(told(done.map_or_else(|refused| refused, |()| sentence)));
    });
}

fn duplicate(entry: Entry, ondone: Callback<Told>) {
    spawn_local(async move {
        let done = jobs::duplicate(&entry).await;
        let sentence = format!("A copy of {} is at hand.", entry.title);
        ondone.emit(Told {
            sentence: done.map_or_else(|refused| refused, |()| sentence),
            undo: None,
        });
    });
}
