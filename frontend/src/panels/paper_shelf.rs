//! What the shelf has in the step Sheets: paper, print, save, lists, share.

use borewright_core::desk::Notice;
use borewright_core::sheet::{Size, Stack};
use borewright_core::tongue::Tongue;
use gloo::timers::callback::Timeout;
use yew::prelude::*;

use super::best::WaitsForBest;
use super::icons;
use super::unsought::UNSOUGHT_ON_PAPER;
use crate::browser::paper;
use crate::hooks::{use_act, use_awaited_while, use_desk, use_dispatcher};
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

/// For whom: every sheet, or the stack of one of those who get some.
#[component]
pub fn StackFor() -> Html {
    let desk = use_desk();
    let onpick = use_act(|place: usize| {
        let stack = place.checked_sub(1).and_then(|place| Stack::FOR.get(place));
        Act::Stack(stack.copied())
    });
    let names = Stack::FOR.map(|stack| AttrValue::from(stack.name()));
    let options: Vec<AttrValue> = [AttrValue::from("All")].into_iter().chain(names).collect();
    let chosen = match desk.stack {
        None => Some(0),
        Some(stack) => Stack::FOR
            .iter()
            .position(|one| *one == stack)
            .map(|place| place + 1),
    };
    html! { <Segments label="Sheets for" {options} {chosen} {onpick} /> }
}

/// The tongue of the crew's sheets; nothing where no sheet of theirs lies there.
#[component]
pub fn CrewTongue() -> Html {
    let desk = use_desk();
    let onpick =
        use_act(|place: usize| Act::Tongue(Tongue::ALL.get(place).copied().unwrap_or_default()));
    if !matches!(desk.stack, None | Some(Stack::Crew)) {
        return html! {};
    }
    let options = Tongue::ALL
        .map(|tongue| AttrValue::from(tongue.name()))
        .to_vec();
    let chosen = Tongue::ALL.iter().position(|tongue| *tongue == desk.tongue);
    html! { <Segments label="Crew sheets in" {options} {chosen} {onpick} /> }
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
    let laying_out = desk.laying_out;
    let waits = desk.wants_better() || laying_out;
    let (_, print) = use_awaited_while(waits, Callback::from(|()| paper::print()));
    let act = Callback::from(move |wish| {
        if !desk.session.design.is_sought() {
            let notice = Notice::refused(UNSOUGHT_ON_PAPER, None);
            return dispatcher.dispatch(Act::Say(notice));
        }
        point.emit(());
        match wish {
            // The pages lie there with the numbers that hold from now on once they are laid out anew; that
            // begins after this press.
            Wish::Print => {
                let print = print.clone();
                Timeout::new(0, move || print.emit(Some(()))).forget();
            }
            Wish::Save => pdf::save(&desk, dispatcher.clone()),
        }
    });
    let (waiting, ask) = use_awaited_while(waits, act);
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
            if waiting.is_some() && !laying_out { <WaitsForBest /> }
            if waiting.is_some() && laying_out {
                <div class="WaitsForBest" role="status"><span>{ "Waits until the sheets are laid out." }</span></div>
            }
        </>
    }
}
