//! The change order: what this plan adds and removes against an older version of it.

use std::rc::Rc;

use borewright_core::design::Design;
use borewright_core::report::csv;
use borewright_core::schedule::{ChangeOrder, CountChange, DropChange};
use wasm_bindgen_futures::spawn_local;
use web_sys::File;
use yew::prelude::*;

use super::Head;
use crate::browser::files;
use crate::hooks::{use_act, use_awaited, use_desk};
use crate::panels::best::WaitsForBest;
use crate::panels::icons;
use crate::parts::{Figures, FilePress, Press};
use crate::state::{Act, Desk, Wait};
use crate::worker::{self, End};

/// An older version: its plan with what follows from it, or why there is none.
type Older = Result<Rc<(borewright_core::plan::Plan, Design)>, String>;

/// The slip of the change order.
#[component]
pub fn ChangeSlip() -> Html {
    let desk = use_desk();
    let older = use_state(|| None::<Older>);
    let wait = use_act(Act::Wait);
    let onfile = {
        let older = older.clone();
        Callback::from(move |file: File| {
            let (older, wait) = (older.clone(), wait.clone());
            spawn_local(async move {
                let read = read(file, &wait).await;
                wait.emit(None);
                older.set(Some(read));
            });
        })
    };
    let order = match &*older {
        Some(Ok(older)) => Some(between(older, &desk)),
        _ => None,
    };
    let trouble = match &*older {
        Some(Err(sentence)) => Some(sentence.clone()),
        _ => None,
    };
    html! {
        <>
            <Head title="Change order" line="What this plan adds and removes against an older version of it." />
            <div class="SlipMenu">
                <FilePress label="Compare with an older file" icon={icons::OPEN} {onfile}
                    accept=".json,.borewright,application/json" />
            </div>
            if let Some(sentence) = trouble { <p role="alert">{ sentence }</p> }
            if let Some(order) = order { <Order {order} /> }
        </>
    }
}

/// Reads an older version and seeks its best ways, telling how far that is.
async fn read(file: File, wait: &Callback<Option<Wait>>) -> Older {
    let bytes = files::read(&file).await?;
    let opened = worker::read(bytes).await?;
    // Both versions are compared at their best, as paper and lists show them.
    let report = |done| {
        wait.emit(Some(Wait {
            words: String::from("Seeking the best ways of the older version"),
            done: Some(done),
        }));
    };
    report(0);
    let design = worker::at_its_best(&opened.plan, report).await;
    let design = design.map_err(|end| String::from(trouble(end)))?;
    Ok(Rc::new((opened.plan, design)))
}

/// Why what follows from the older version is not known.
fn trouble(end: End) -> &'static str {
    match end {
        End::Time => {
            "Working out the older version takes over 10 s and was stopped. Compare with a smaller plan."
        }
        End::Memory => {
            "Working out the older version takes over 500 MB of memory and was stopped. Compare with a smaller plan."
        }
        End::Fault => {
            "A fault in this program ended the working out of the older version. This plan is whole; load the page again to go on."
        }
    }
}

fn between(older: &(borewright_core::plan::Plan, Design), desk: &Desk) -> ChangeOrder {
    let now = (&*desk.session.plan, &desk.session.design.totals);
    ChangeOrder::between((&older.0, &older.1.totals), now)
}

#[derive(Properties, PartialEq)]
struct OrderProps {
    order: ChangeOrder,
}

/// The lines of a change order, once the ways of the plan on the table are improved.
#[component]
fn Order(props: &OrderProps) -> Html {
    let desk = use_desk();
    let order = &props.order;
    let save = {
        let (order, desk) = (order.clone(), desk.clone());
        Callback::from(move |(): ()| save(&order, &desk))
    };
    let (waiting, ask) = use_awaited(save);
    if desk.wants_better() {
        return html! { <WaitsForBest /> };
    }
    let (from, to) = order.revisions;
    html! {
        <section aria-label="Changes">
            <h3>{ format!("From revision {from} to revision {to}") }</h3>
            if order.is_empty() { <p>{ "Nothing differs." }</p> }
            <ul class="List">
                { for order.drops.iter().map(drop_line) }
                { for order.counts.iter().map(count_line) }
            </ul>
            <Press label="Save as comma-separated text" icon={icons::SAVE} onpress={ask.reform(|()| Some(()))} />
            if waiting.is_some() { <WaitsForBest /> }
        </section>
    }
}

fn drop_line(drop: &DropChange) -> Html {
    html! {
        <li key={drop.label.clone()} class="ListLine">
            <b>{ &drop.label }</b>
            <span><Figures text={format!("{}: {}", drop.what, drop.change)} /></span>
        </li>
    }
}

fn count_line(count: &CountChange) -> Html {
    let words = format!("{}, from {} to {}", count.what, count.before, count.after);
    html! {
        <li key={count.what.clone()} class="ListLine">
            <b>{ &count.difference }</b>
            <span>{ words }</span>
        </li>
    }
}

fn save(order: &ChangeOrder, desk: &Desk) {
    let name = files::name_of(&desk.session.plan.title, "change-order.csv");
    let text = format!("\u{feff}{}", csv::change_order(order));
    files::save(&name, "text/csv;charset=utf-8", text.as_bytes());
}
