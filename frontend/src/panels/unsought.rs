//! What stands in the place of counts, lists and sheets while nothing of a plan is worked out, and why.

use yew::prelude::*;

use crate::hooks::{use_act, use_desk};
use crate::parts::{Press, PressKind};
use crate::state::{Act, Desk, Improving};
use crate::worker::End;

/// What is said where sheets and lists would be.
pub const UNSOUGHT_ON_PAPER: &str = "Sheets and lists hold what follows from the plan. The plan itself can be handed on as it is: save it to a file, or share its link.";

/// One sentence on how it stands; with a way out where there is one.
#[component]
pub fn Unsought() -> Html {
    let desk = use_desk();
    let set = use_act(Act::Improve);
    let (label, next) = match desk.improving {
        Improving::Resting | Improving::Begun(_) => ("Stop", Improving::Stopped),
        Improving::Stopped | Improving::Failed(_) => ("Try again", Improving::Resting),
    };
    html! {
        <div class="Unsought" role="status">
            <p>{ sentence(&desk) }</p>
            <Press {label} kind={PressKind::Quiet} onpress={set.reform(move |()| next)} />
        </div>
    }
}

fn sentence(desk: &Desk) -> &'static str {
    match desk.improving {
        Improving::Resting | Improving::Begun(_) => {
            "This plan is large: its ways are being worked out beside the page."
        }
        Improving::Stopped => {
            "This plan is large, and working out its ways was stopped. It can be read, changed and saved."
        }
        Improving::Failed(End::Time) => {
            "Working out the ways of this plan takes over 10 s and was stopped. It can be read, changed and saved; take walls, drops or keep-outs away to have its ways."
        }
        Improving::Failed(End::Memory) => {
            "Working out the ways of this plan takes over 500 MB of memory and was stopped. It can be read, changed and saved; take walls, drops or keep-outs away to have its ways."
        }
        Improving::Failed(End::Fault) => {
            "A fault in this program ended the working out of this plan's ways. The plan is whole: it can be read, changed and saved."
        }
    }
}
