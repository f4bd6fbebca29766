//! A drop on site: what finds it, and everything noted of it.

use borewright_core::plan::{DropId, Plan};
use yew::prelude::*;

use super::Head;
use crate::hooks::use_desk;
use crate::panels::site::RecordOf;

/// Which drop.
#[derive(Properties, PartialEq)]
pub struct RecordSlipProps {
    /// Its identity.
    pub id: DropId,
}

/// The slip of a drop in the step Site.
#[component]
pub fn RecordSlip(props: &RecordSlipProps) -> Html {
    let desk = use_desk();
    let plan: &Plan = &desk.session.plan;
    let Some(drop) = plan.drop(props.id) else {
        return html! {};
    };
    let title = format!("{} {}", drop.label(), drop.kind.name());
    html! {
        <>
            <Head {title} line={drop.note.clone()} />
            <RecordOf drop={props.id} />
        </>
    }
}
