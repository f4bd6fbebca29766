//! The handover: how far every part is, what is still in the wall that left the plan, the sheets that
//! go with it, and the tick that closes the job.

use borewright_core::plan::LeftCable;
use borewright_core::plan::edit::{Edit, Note};
use borewright_core::schedule::{Phase, test_lines};
use yew::prelude::*;

use super::marks::HandedOver;
use super::notes::use_edit;
use crate::hooks::{use_act, use_desk};
use crate::panels::icons;
use crate::parts::{Fact, Facts, Press};
use crate::state::Act;
use borewright_core::sheet::Stack;
use borewright_core::units::counted;

/// The handover.
#[component]
pub fn Handover() -> Html {
    let desk = use_desk();
    let plan = &desk.session.plan;
    let part = |phase: Phase| {
        let progress = phase.progress(plan);
        let value = match progress.of {
            0 => String::from("nothing"),
            of => format!("{} of {of}", progress.done),
        };
        html! { <Fact key={phase.name()} name={phase.name()} {value} /> }
    };
    let lines = test_lines(plan, &desk.session.design.cut_list);
    let far = lines.iter().filter(|line| line.is_far_off).count();
    let parts = Phase::ALL
        .into_iter()
        .filter(|phase| *phase != Phase::Handover);
    html! {
        <>
            <Facts>
                { for parts.map(part) }
                <Fact name="Measured far off the plan" value={counted(far, "cable")} />
            </Facts>
            <Left />
            <section class="SiteRoom" aria-label="Sheets for the site">
                <h3>{ "Sheets for the site" }</h3>
                <SheetsFor />
            </section>
            <section class="SiteRoom" aria-label="Handing over">
                <h3>{ "Handing over" }</h3>
                <HandedOver />
            </section>
        </>
    }
}

/// What a part of the work takes along on paper.
#[derive(Properties, PartialEq)]
pub struct OwnSheetProps {
    /// The part of the work.
    pub phase: Phase,
}

/// The sheets of one part of the work, to look at, to print or to save as one file.
#[component]
pub fn OwnSheet(props: &OwnSheetProps) -> Html {
    let onstack = use_act(Act::Stack);
    let stack = Stack::of(props.phase);
    let onpress = onstack.reform(move |()| Some(stack));
    let label = match stack {
        Stack::Crew => "Crew sheets",
        later => later.name(),
    };
    html! { <Press {label} icon={icons::PRINT} {onpress} /> }
}

/// Stacks of sheets, each to look at, to print or to save as one file.
#[component]
fn SheetsFor() -> Html {
    let onstack = use_act(Act::Stack);
    let press = |stack: Stack| {
        let onpress = onstack.reform(move |()| Some(stack));
        html! { <Press key={stack.name()} label={stack.name()} icon={icons::PRINT} {onpress} /> }
    };
    html! { <div class="SiteStacks">{ for Stack::LATER.into_iter().map(press) }</div> }
}

/// Cables that left the plan and are in the wall still.
#[component]
fn Left() -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let left = &desk.session.plan.record.left;
    if left.is_empty() {
        return html! {};
    }
    let line = |left: &LeftCable| {
        let id = left.cable;
        let onpress = edit.reform(move |()| Edit::Note(Note::TakenOut(id)));
        html! {
            <li key={id.0} class="ListLine">
                <b>{ &left.name }</b>
                <Press label={format!("{} is taken out", left.name)} {onpress} />
            </li>
        }
    };
    html! {
        <section class="SiteRoom" aria-label="No longer on the plan">
            <h3>{ "In the wall, no longer on the plan" }</h3>
            <ul class="List">{ for left.iter().map(line) }</ul>
        </section>
    }
}
