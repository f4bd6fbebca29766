//! The line along the top: what the job is called and every count of it.

use yew::prelude::*;

use super::best::Best;
use super::counts::{Figure, figures};
use super::icons;
use super::unsought::Unsought;
use crate::browser::assets;
use crate::hooks::{use_act, use_before, use_desk, use_paper};
use crate::parts::Icon;
use crate::state::{Act, Count, Desk, Keeping, Leaf, Place};

/// The tally.
#[component]
pub fn Tally() -> Html {
    let desk = use_desk();
    let onopen = use_act(|count| Act::Lay(Some(Leaf::Count(count))));
    let open = match desk.open {
        Some(Leaf::Count(count)) => Some(count),
        _ => None,
    };
    let figures = figures(desk.session.shown_plan(), desk.session.shown_design());
    let number = |figure: Figure| {
        let (key, is_open) = (format!("{:?}", figure.count), open == Some(figure.count));
        html! { <TallyNumber {key} {figure} {is_open} onopen={onopen.clone()} /> }
    };
    html! {
        <header class="Tally">
            <JobTitle />
            <div class="TallyNumbers" role="group" aria-label="Tally" tabindex="-1">
                if desk.session.design.is_sought() {
                    { for figures.into_iter().map(number) }
                    <Best />
                } else {
                    <Unsought />
                }
            </div>
        </header>
    }
}

#[derive(Properties, PartialEq)]
struct TallyNumberProps {
    figure: Figure,
    is_open: bool,
    onopen: Callback<Count>,
}

#[component]
fn TallyNumber(props: &TallyNumberProps) -> Html {
    let figure = &props.figure;
    let desk = use_desk();
    let before = use_before(figure.counted, desk.job);
    let count = figure.count;
    let onclick = props.onopen.reform(move |_: MouseEvent| count);
    html! {
        <button class="TallyNumber" type="button" aria-pressed={props.is_open.to_string()} {onclick}>
            <b>{ &figure.number }</b>
            <span>{ " " }{ &figure.words }</span>
            if let Some(step) = before.and_then(|before| figure.difference(before)) {
                <em class="TallyStep">{ step }</em>
            }
        </button>
    }
}

/// The job's name and where it is kept; opens the job's slip.
#[component]
fn JobTitle() -> Html {
    let desk = use_desk();
    let onopen = use_act(|leaf| Act::Lay(Some(leaf)));
    let onclick = onopen.reform(|_: MouseEvent| Leaf::Job);
    let plan = &desk.session.plan;
    let title = if plan.title.is_empty() {
        "No title yet"
    } else {
        &plan.title
    };
    let line = match use_paper() {
        Some(_) => format!(
            "not as on paper, revision {} · {}",
            plan.printed.revision,
            kept(&desk)
        ),
        None => format!("revision {} · {}", plan.revision, kept(&desk)),
    };
    html! {
        <button class="JobTitle" type="button" aria-label={format!("Job: {title}")} {onclick}>
            <span class="JobName">
                <b>{ title }</b>
                <span>{ line }</span>
            </span>
            <Icon lines={icons::MORE} />
        </button>
    }
}

fn kept(desk: &Desk) -> String {
    let words = match &desk.keeping {
        _ if matches!(desk.place, Place::Elsewhere(_)) => "open in another window",
        _ if desk.session.read_only => return format!("from {}, to look at", assets::origin()),
        Keeping::Nothing => "not changed yet",
        Keeping::Waiting => "being kept",
        Keeping::Kept => "kept on this device",
        Keeping::Failed(_) => "only in this window",
    };
    words.to_string()
}
