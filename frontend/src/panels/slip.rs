//! The slip beside the sheet: what is chosen, in plain fields, or what was laid open.

use borewright_core::desk::Intent;
use yew::prelude::*;

use super::icons;
use crate::hooks::{use_act, use_desk};
use crate::parts::Icon;
use crate::state::Act;

/// The slip; nothing when nothing is chosen or open.
#[component]
pub fn Slip() -> Html {
    let desk = use_desk();
    let lay = use_act(|()| Act::Lay(None));
    let let_go = use_act(|()| Act::Want(Intent::Choose(None)));
    let onclose = if desk.open.is_some() { lay } else { let_go };
    if desk.open.is_none() && desk.session.chosen.is_none() {
        return html! {};
    }
    html! {
        <aside class="Slip" aria-label="Slip">
            <button class="SlipClose" type="button" aria-label="Close" onclick={onclose.reform(|_: MouseEvent| ())}>
                <Icon lines={icons::CLOSE} />
            </button>
        </aside>
    }
}
