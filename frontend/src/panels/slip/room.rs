//! A room: its name and the drops in it.

use borewright_core::desk::{Choice, Intent};
use borewright_core::framing::drop_room;
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{Drop, RoomId};
use borewright_core::units::counted;
use yew::prelude::*;

use super::{Head, Remove, use_edit};
use crate::hooks::{use_act, use_desk};
use crate::parts::Field;
use crate::state::Act;

/// Which room.
#[derive(Properties, PartialEq)]
pub struct RoomSlipProps {
    /// Its identity.
    pub id: RoomId,
}

/// The slip of a room.
#[component]
pub fn RoomSlip(props: &RoomSlipProps) -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let choose = use_act(|id| Act::Want(Intent::Choose(Some(Choice::Drop(id)))));
    let plan = desk.session.shown_plan();
    let Some(room) = plan.levels.iter().find_map(|level| level.room(props.id)) else {
        return html! {};
    };
    let (id, at) = (room.id, room.at);
    let onname = edit.reform(move |name| Edit::SetRoom { room: id, name, at });
    let within = |drop: &&Drop| drop_room(plan, drop).is_some_and(|found| found.id == id);
    let drops: Vec<&Drop> = plan.drops.iter().filter(within).collect();
    let line = |drop: &&Drop| {
        let id = drop.id;
        let onclick = choose.reform(move |_: MouseEvent| id);
        let count = counted(drop.cables.len(), "cable");
        html! {
            <li key={id.0}><button type="button" class="ListLine" {onclick}>
                <b>{ drop.label() }</b><span>{ format!("{}, {count}", drop.kind.name()) }</span>
            </button></li>
        }
    };
    html! {
        <>
            <Head title={room.name.clone()} line={counted(drops.len(), "drop")} />
            <Field label="Name" value={room.name.clone()} onset={onname} />
            <ul class="List">{ for drops.iter().map(line) }</ul>
            <Remove label="Remove this name" />
        </>
    }
}
