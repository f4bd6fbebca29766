//! The steps of the job at the side, each with what it still lacks.

use borewright_core::bore;
use borewright_core::desk::{Intent, Step};
use borewright_core::finding::{Finding, Severity};
use yew::prelude::*;

use super::icons;
use crate::hooks::{use_act, use_current_in_sight, use_desk};
use crate::parts::Icon;
use crate::state::{Act, Leaf};

/// The steps, and the findings below them.
#[component]
pub fn Steps() -> Html {
    let desk = use_desk();
    let onstep = use_act(|step| Act::Want(Intent::GoTo(step)));
    use_current_in_sight(desk.session.step);
    let step = |step: Step| {
        let lack = desk.session.lacks(step);
        let current = (desk.session.step == step).then_some("step");
        let onclick = onstep.reform(move |_: MouseEvent| step);
        html! {
            <li key={step.name()}>
                <button class="StepButton" type="button" aria-current={current} aria-label={step.name()}
                    aria-description={lack.words.clone()} data-clear={lack.clear.to_string()} {onclick}>
                    <b>{ step.name() }</b>
                    <span>{ lack.words }</span>
                </button>
            </li>
        }
    };
    html! {
        <nav class="Steps" aria-label="Steps">
            <ol>{ for Step::ALL.into_iter().map(step) }</ol>
            <FindingsButton />
        </nav>
    }
}

#[component]
fn FindingsButton() -> Html {
    let desk = use_desk();
    let is_open = desk.open == Some(Leaf::Findings);
    let onlay = use_act(move |_: MouseEvent| Act::Lay((!is_open).then_some(Leaf::Findings)));
    let design = desk.session.shown_design();
    let findings = &design.findings;
    let open: Vec<&Finding> = findings.iter().filter(|f| f.dismissed.is_none()).collect();
    let worst = open.iter().map(|finding| finding.severity).min();
    let bearing = bore::bearing_words(desk.session.shown_plan(), &design.drill_list);
    let words = match design.is_sought() {
        true => words(&open, bearing.is_some()),
        false => String::from("not worked out yet"),
    };
    html! {
        <button class="FindingsButton" type="button" aria-pressed={is_open.to_string()}
            aria-label="Findings" aria-description={words.clone()}
            data-weight={worst.map(Severity::name)} onclick={onlay}>
            <Icon lines={icons::RING} />
            <span><b>{ "Findings" }</b><span>{ words }</span></span>
        </button>
    }
}

/// "all clear", "1 stop, 3 to look at". Where something that bears is bored, the builder still has to be
/// asked.
fn words(open: &[&Finding], bearing: bool) -> String {
    let stops = open.iter().filter(|f| f.severity == Severity::Stop).count();
    match (stops, open.len() - stops) {
        (0, 0) if bearing => String::from("ask the builder"),
        (0, 0) => String::from("all clear"),
        (0, rest) => format!("{rest} to look at"),
        (stops, 0) => format!("{stops} stop"),
        (stops, rest) => format!("{stops} stop, {rest} more"),
    }
}
