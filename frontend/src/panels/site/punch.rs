//! The punch list: what is to be put right, at a drop or for the job.

use borewright_core::plan::edit::{Edit, Note};
use borewright_core::plan::{Drop, DropId, Plan, PunchItem};
use yew::prelude::*;

use super::notes::use_edit;
use crate::browser::clock;
use crate::hooks::use_desk;
use crate::panels::icons;
use crate::parts::{Field, Icon, Pick};

/// Every item, open ones first, and a line to write down another.
#[component]
pub fn PunchList() -> Html {
    let desk = use_desk();
    let about = use_state_eq(|| None::<DropId>);
    let plan: &Plan = &desk.session.plan;
    let mut items: Vec<PunchItem> = plan.record.punch.clone();
    items.sort_by_key(|item| (item.done.is_some(), item.number));
    let mut options = vec![AttrValue::from("the job")];
    options.extend(plan.drops.iter().map(|drop| AttrValue::from(drop.label())));
    let chosen = about.and_then(|id| plan.drops.iter().position(|drop| drop.id == id));
    let onpick = {
        let about = about.clone();
        let ids: Vec<DropId> = plan.drops.iter().map(|drop| drop.id).collect();
        Callback::from(move |place: usize| {
            about.set(
                place
                    .checked_sub(1)
                    .and_then(|place| ids.get(place).copied()),
            );
        })
    };
    let item = |item: PunchItem| {
        let key = item.number;
        html! { <PunchLine {key} {item} /> }
    };
    html! {
        <>
            <div class="SitePunchNew">
                <Pick label="About" {options} chosen={Some(chosen.map_or(0, |place| place + 1))} {onpick} />
                <AddPunch drop={*about} />
            </div>
            if items.is_empty() { <p>{ "Nothing is to be put right." }</p> }
            <ul class="SitePunch">{ for items.into_iter().map(item) }</ul>
        </>
    }
}

#[derive(Properties, PartialEq)]
pub struct AddPunchProps {
    /// What it is about; `None` for the job.
    pub drop: Option<DropId>,
}

/// A line for another item.
#[component]
pub fn AddPunch(props: &AddPunchProps) -> Html {
    let edit = use_edit();
    let drop = props.drop;
    let onset = edit.reform(move |text| Edit::Note(Note::AddPunch(drop, text)));
    html! { <Field label="To be put right" value="" {onset} /> }
}

#[derive(Properties, PartialEq)]
pub struct PunchLineProps {
    /// The item.
    pub item: PunchItem,
}

/// One item: a tick with its words, and a press to strike it out.
#[component]
pub fn PunchLine(props: &PunchLineProps) -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let item = &props.item;
    let (number, is_done) = (item.number, item.done.is_some());
    let plan: &Plan = &desk.session.plan;
    let drop = item.drop.and_then(|id| plan.drop(id));
    let about = drop.map_or_else(|| String::from("job"), Drop::label);
    let onchange =
        edit.reform(move |_: Event| Edit::Note(Note::Punch(number, (!is_done).then(clock::today))));
    let onremove = edit.reform(move |_: MouseEvent| Edit::Note(Note::RemovePunch(number)));
    let done = item.done.clone().filter(|date| !date.is_empty());
    html! {
        <li class="SitePunchLine" data-done={is_done.to_string()}>
            <label class="Tick">
                <input type="checkbox" checked={is_done} aria-label={format!("{} done", item.label())} {onchange} />
                <span>
                    <b>{ format!("{} {about}", item.label()) }</b>{ " " }{ &item.text }
                    if is_done { <i>{ done.map_or_else(|| String::from(" done"), |date| format!(" done {date}")) }</i> }
                </span>
            </label>
            <button type="button" class="Small" aria-label={format!("Remove {}", item.label())} onclick={onremove}>
                <Icon lines={icons::CLOSE} />
            </button>
        </li>
    }
}
