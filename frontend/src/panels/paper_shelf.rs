//! What the shelf has in the step Sheets: paper, print, save, lists, share.

use borewright_core::sheet::Size;
use gloo::timers::callback::Timeout;
use yew::prelude::*;

use super::best::WaitsForBest;
use super::icons;
use crate::browser::paper;
use crate::hooks::{use_act, use_awaited, use_desk, use_dispatcher};
use crate::parts::{Icon, Segments};
use crate::print::pdf;
use crate::state::{Act, Leaf};

/// Which paper.
#[component]
pub fn PaperSize() -> Html {
    let desk = use_desk();
    let onpick =
        use_act(|place: usize| Act::PaperSize(Size::ALL.get(place).copied().unwrap_or_default()));
    let options = Size::ALL.map(|size| AttrValue::from(size.name())).to_vec();
    let chosen = Size::ALL.iter().position(|size| *size == desk.paper);
    html! { <Segments label="Paper" {options} {chosen} {onpick} /> }
}

/// What paper is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Wish {
    Print,
    Save,
}

/// Print and share. Paper waits for the best ways, so that every device prints the same.
#[component]
pub fn PaperShelf() -> Html {
    let share = use_act(|_: MouseEvent| Act::Lay(Some(Leaf::Share)));
    let lists = use_act(|_: MouseEvent| Act::Lay(Some(Leaf::Lists)));
    let (desk, dispatcher) = (use_desk(), use_dispatcher());
    let point = use_act(|()| Act::Point("Printed"));
    let is_some_of_them = desk.stack.is_some();
    let act = Callback::from(move |wish| {
        point.emit(());
        match wish {
            // The pages lie there with the numbers that hold from now on once they are drawn anew.
            Wish::Print => drop(Timeout::new(0, paper::print).forget()),
            Wish::Save => pdf::save(&desk, dispatcher.clone()),
        }
    });
    let (waiting, ask) = use_awaited(act);
    let all = use_act(|_: MouseEvent| Act::Stack(None));
    let asked = |wish| ask.reform(move |_: MouseEvent| Some(wish));
    html! {
        <>
            <button class="ShelfTool" type="button" onclick={asked(Wish::Print)}>
                <Icon lines={icons::PRINT} /><span>{ "Print" }</span>
            </button>
            <button class="ShelfTool" type="button" onclick={asked(Wish::Save)}>
                <Icon lines={icons::SAVE} /><span>{ "Save as PDF" }</span>
            </button>
            <button class="ShelfTool" type="button" onclick={lists}>
                <Icon lines={icons::LISTS} /><span>{ "Lists" }</span>
            </button>
            <button class="ShelfTool" type="button" onclick={share}>
                <Icon lines={icons::LINK} /><span>{ "Share" }</span>
            </button>
            if is_some_of_them {
                <button class="ShelfTool" type="button" onclick={all}>
                    <Icon lines={icons::PAGE} /><span>{ "All sheets" }</span>
                </button>
            }
            if waiting.is_some() { <WaitsForBest /> }
        </>
    }
}
