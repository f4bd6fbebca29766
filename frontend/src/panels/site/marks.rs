//! What is done once for the whole job: the inspection, where the pictures are, the handover.

use borewright_core::plan::Mark;
use borewright_core::plan::edit::{Edit, Note};
use yew::prelude::*;

use super::notes::use_edit;
use crate::browser::clock;
use crate::hooks::use_desk;
use crate::parts::{Field, Tick};

/// The inspection before cover, and where the pictures are kept.
#[component]
pub fn Inspection() -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let record = &desk.session.plan.record;
    let onphotos = edit.reform(|words| Edit::Note(Note::Photos(words)));
    html! {
        <section class="SiteRoom" aria-label="Inspection">
            <h3>{ "The whole job" }</h3>
            <Once label="Inspected before cover" who="Inspected by" mark={record.inspected.clone()}
                set={edit.reform(|mark| Edit::Note(Note::Inspected(mark)))} />
            <Field label="Where the pictures are kept" value={record.photos.clone()} onset={onphotos} />
        </section>
    }
}

/// Handed over, to whom.
#[component]
pub fn HandedOver() -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let mark = desk.session.plan.record.handed_over.clone();
    html! {
        <Once label="Handed over" who="Handed over to" {mark}
            set={edit.reform(|mark| Edit::Note(Note::HandedOver(mark)))} />
    }
}

#[derive(Properties, PartialEq)]
struct OnceProps {
    label: AttrValue,
    who: AttrValue,
    mark: Option<Mark>,
    set: Callback<Option<Mark>>,
}

/// A tick with its date, and by or to whom.
#[component]
fn Once(props: &OnceProps) -> Html {
    let onset = props.set.reform(|on: bool| {
        on.then(|| Mark {
            date: clock::today(),
            who: String::new(),
        })
    });
    let Some(mark) = props.mark.clone() else {
        return html! { <Tick label={props.label.clone()} ticked={false} {onset} /> };
    };
    let label = match mark.date.is_empty() {
        true => props.label.to_string(),
        false => format!("{}, {}", props.label, mark.date),
    };
    let who = mark.who.clone();
    let onwho = props.set.reform(move |who| {
        Some(Mark {
            who,
            ..mark.clone()
        })
    });
    html! {
        <>
            <Tick {label} ticked={true} {onset} />
            <Field label={props.who.clone()} value={who} onset={onwho} />
        </>
    }
}
