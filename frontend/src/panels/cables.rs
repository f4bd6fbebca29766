//! The cables of one drop: each with its kind and length, to look at, change, add and remove.

use borewright_core::desk::{Choice, Intent};
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{Cable, CableId, CableKindId, Drop, DropId, Plan};
use yew::prelude::*;

use super::icons;
use crate::hooks::{use_act, use_desk};
use crate::parts::{Icon, Pick, Press};
use crate::state::{Act, Desk};

/// What a [`CableList`] lists.
#[derive(Properties, PartialEq)]
pub struct CableListProps {
    /// The drop.
    pub drop: DropId,
}

/// The cables of a drop.
#[component]
pub fn CableList(props: &CableListProps) -> Html {
    let desk = use_desk();
    let edit = use_act(|edit| Act::Want(Intent::Edit(edit)));
    let choose = use_act(|id| Act::Want(Intent::Choose(Some(Choice::Cable(id)))));
    let plan: &Plan = desk.session.shown_plan();
    let Some(drop) = plan.drop(props.drop) else {
        return html! {};
    };
    let line = |cable: &Cable| cable_line(&desk, drop, cable, &edit, &choose);
    let (id, kind) = (
        drop.id,
        drop.cables
            .last()
            .map_or(CableKindId::CAT6, |cable| cable.kind),
    );
    let onadd = edit.reform(move |()| Edit::AddCable(id, kind));
    html! {
        <section class="CableList" aria-label="Cables">
            <ul>{ for drop.cables.iter().map(line) }</ul>
            <Press label="Add a cable" icon={icons::LARGER} onpress={onadd} />
        </section>
    }
}

fn cable_line(
    desk: &Desk,
    drop: &Drop,
    cable: &Cable,
    edit: &Callback<Edit>,
    choose: &Callback<CableId>,
) -> Html {
    let plan: &Plan = desk.session.shown_plan();
    let (id, label) = (cable.id, drop.cable_label(cable));
    let onpick = edit.reform(move |place: usize| Edit::SetCable(id, CableKindId(place as u16)));
    let onremove = edit.reform(move |_: MouseEvent| Edit::RemoveCable(id));
    let onlook = choose.reform(move |_: MouseEvent| id);
    let cut = desk.session.shown_design().cut_list.cut(id);
    let length = cut.map_or_else(|| "no way".to_string(), |cut| plan.units.total(cut.length));
    html! {
        <li key={id.0} class="CableLine">
            <button type="button" class="CableName" aria-label={format!("Follow {label}")} onclick={onlook}>
                <b>{ &label }</b><span>{ length }</span>
            </button>
            <Pick label={format!("Kind of {label}")} options={kinds(plan)}
                chosen={Some(usize::from(cable.kind.0))} {onpick} />
            if drop.cables.len() > 1 {
                <button type="button" class="Small" aria-label={format!("Remove {label}")} onclick={onremove}>
                    <Icon lines={icons::CLOSE} />
                </button>
            }
        </li>
    }
}

fn kinds(plan: &Plan) -> Vec<AttrValue> {
    plan.catalogue
        .cables
        .iter()
        .map(|spec| spec.name.clone().into())
        .collect()
}
