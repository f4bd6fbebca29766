//! Four counts that must agree: on the plan, in the wall, labelled, tested; and what stands between
//! them.

use borewright_core::schedule::{Counts, counts};
use borewright_core::units::counted;
use yew::prelude::*;

use crate::hooks::use_desk;

/// How much is shown at once.
#[derive(Properties, PartialEq)]
pub struct FourCountsProps {
    /// Whether what does not agree lies open.
    pub open: bool,
}

/// The four counts.
#[component]
pub fn FourCounts(props: &FourCountsProps) -> Html {
    let desk = use_desk();
    let counts = counts(&desk.session.plan);
    let four = [
        (counts.on_plan, "on the plan"),
        (counts.in_wall, "in the wall"),
        (counts.labelled, "labelled"),
        (counts.tested, "tested"),
    ];
    let count = |(number, words): (usize, &'static str)| {
        html! { <li key={words}><b>{ number }</b><span>{ " " }{ words }</span></li> }
    };
    html! {
        <section class="SiteCounts" aria-label="Four counts">
            <ul>{ for four.into_iter().map(count) }</ul>
            { told(&counts, props.open) }
        </section>
    }
}

fn told(counts: &Counts, open: bool) -> Html {
    if counts.agree() {
        let spare = match counts.spare {
            0 => String::new(),
            spare => format!(" but for {} not tested", counted(spare, "spare cable")),
        };
        return html! { <p role="status">{ format!("All four agree{spare}.") }</p> };
    }
    if counts.told.is_empty() {
        return html! {};
    }
    html! {
        <details {open}>
            <summary>{ format!("{} between the counts", counted(counts.told.len(), "difference")) }</summary>
            <ul class="SiteTold">{ for counts.told.iter().map(|told| html! { <li>{ told }</li> }) }</ul>
        </details>
    }
}
