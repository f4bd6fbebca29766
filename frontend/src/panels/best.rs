//! How close the ways are to the best possible: the last number of the tally, and its progress.

use yew::prelude::*;

use super::icons;
use crate::hooks::{use_act, use_desk};
use crate::parts::{Icon, Press, PressKind};
use crate::state::{Act, Count, Desk, Improving, Leaf};

/// The last number of the tally; nothing as long as there are no ways.
#[component]
pub fn Best() -> Html {
    let desk = use_desk();
    let open = use_act(|_: MouseEvent| Act::Lay(Some(Leaf::Count(Count::Best))));
    let stop = use_act(|_: MouseEvent| Act::Improve(Improving::Stopped));
    let is_open = (desk.open == Some(Leaf::Count(Count::Best))).to_string();
    let Some(standing) = standing(&desk) else {
        return html! {};
    };
    let begun = matches!(desk.improving, Improving::Begun(_));
    html! {
        <div class="TallyBest">
            <button class="TallyNumber" type="button" aria-pressed={is_open} onclick={open}>
                <span class="BestFirst">{ standing.before }{ " " }<b>{ standing.number }</b></span>
                if begun { { bar(standing.filled) } }
                if !begun { <span class="BestSecond">{ standing.after }</span> }
            </button>
            if begun {
                <button class="TallyStop" type="button" aria-label="Stop improving the ways" onclick={stop}>
                    <Icon lines={icons::CLOSE} />
                </button>
            }
        </div>
    }
}

/// What the tally says, in three pieces, and how far the search is, per cent.
struct Standing {
    filled: f64,
    before: &'static str,
    number: String,
    after: &'static str,
}

fn standing(desk: &Desk) -> Option<Standing> {
    let words = |filled, before, number, after| {
        Some(Standing {
            filled,
            before,
            number,
            after,
        })
    };
    match (desk.session.design.ways.gap(), desk.improving) {
        (Some(gap), _) => words(
            100.0,
            "within",
            format!("{gap:.1} %"),
            "of the best possible",
        ),
        (None, Improving::Begun(done)) => words(done.into(), "improving", format!("{done} %"), ""),
        (None, Improving::Stopped) => {
            words(0.0, "not improved", String::new(), "the search was stopped")
        }
        (None, Improving::Failed(_)) => {
            words(0.0, "not improved", String::new(), "the search failed")
        }
        (None, Improving::Resting) => None,
    }
}

fn bar(filled: f64) -> Html {
    html! {
        <svg class="TallyBar" viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true">
            <rect width="100" height="10" data-part="whole" />
            <rect width={format!("{filled:.1}")} height="10" data-part="done" />
        </svg>
    }
}

/// One sentence on how it stands.
pub fn sentence(desk: &Desk) -> String {
    match (desk.session.design.ways.gap(), desk.improving) {
        (Some(gap), _) => {
            let told = desk.session.design.totals.price.words();
            let claim = format!(
                "Of the ways this model knows, no other set costs over {gap:.1} % less than this one, counted in work and cable."
            );
            std::iter::once(claim)
                .chain(told)
                .collect::<Vec<_>>()
                .join(" ")
        }
        (None, Improving::Begun(done)) => format!(
            "Better ways are being looked for in the background, {done} % done. What is shown is good for now; sheets wait for the best."
        ),
        (None, Improving::Stopped) => String::from(
            "The search for better ways was stopped. What is shown holds, but may take more work than it need.",
        ),
        (None, Improving::Failed(_)) => String::from(
            "The search for better ways could not be run here. What is shown holds, but may take more work than it need.",
        ),
        (None, Improving::Resting) => String::from("Not worked out yet."),
    }
}

/// Stops the search, or goes on with it.
#[component]
pub fn BestPresses() -> Html {
    let desk = use_desk();
    let set = use_act(Act::Improve);
    let (label, next) = match (desk.session.design.ways.gap(), desk.improving) {
        (None, Improving::Begun(_)) => ("Stop improving", Improving::Stopped),
        (None, Improving::Stopped | Improving::Failed(_)) => {
            ("Look for better ways", Improving::Resting)
        }
        _ => return html! {},
    };
    html! { <Press {label} onpress={set.reform(move |()| next)} /> }
}

/// Says that what was asked for waits, and the way out.
#[component]
pub fn WaitsForBest() -> Html {
    let stop = use_act(|()| Act::Improve(Improving::Stopped));
    html! {
        <div class="WaitsForBest" role="status">
            <span>{ "Waits for the best ways, see the tally." }</span>
            <Press label="Take them as they are" kind={PressKind::Quiet} onpress={stop} />
        </div>
    }
}
