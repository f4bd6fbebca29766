//! What the shelf has besides tools while a drawing is opened and brought to scale.

use borewright_core::desk::{Choice, Intent};
use yew::prelude::*;

use super::icons;
use crate::hooks::{use_act, use_desk, use_opening};
use crate::parts::{FilePress, Icon};
use crate::state::Act;

/// Open, turn, look at the dimensions.
#[component]
pub fn DrawingShelf() -> Html {
    let desk = use_desk();
    let onfile = use_opening();
    let turn = use_act(|_: MouseEvent| Act::Want(Intent::QuarterTurn));
    let id = desk.session.level;
    let look = use_act(move |_: MouseEvent| Act::Want(Intent::Choose(Some(Choice::Drawing(id)))));
    let has_scan = desk
        .session
        .shown_level()
        .is_some_and(|level| level.sheet.scan.is_some());
    html! {
        <>
            <FilePress label="Open a drawing" icon={icons::DRAWING} {onfile} class="ShelfTool FilePress"
                accept="image/png,image/jpeg,image/webp" />
            if !has_scan {
                <p class="ShelfNote">{ "A picture: PNG, JPEG or WebP. Save a page of a PDF as a picture first." }</p>
            }
            if has_scan {
                <button class="ShelfTool" type="button" onclick={turn}>
                    <Icon lines={icons::TURN} /><span>{ "Turn a quarter" }</span>
                </button>
                <button class="ShelfTool" type="button" onclick={look}>
                    <Icon lines={icons::SETTINGS} /><span>{ "Dimensions" }</span>
                </button>
            }
        </>
    }
}
