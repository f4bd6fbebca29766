//! The list of findings: where, what, what to do, and by which rule; each can be set aside.

use borewright_core::bore;
use borewright_core::desk::Choice;
use borewright_core::finding::{Finding, Subject};
use borewright_core::plan::edit::Edit;
use borewright_core::units::counted;
use web_sys::HtmlInputElement;
use yew::prelude::*;

use super::count::MOST_LINES;
use super::{Head, use_edit};
use crate::hooks::{use_act, use_desk};
use crate::parts::{Figures, Press, PressKind};
use crate::state::{Act, Leaf, Visit};

/// The list.
#[component]
pub fn FindingsSlip() -> Html {
    let desk = use_desk();
    let design = desk.session.shown_design();
    let findings = &design.findings;
    let open = findings
        .iter()
        .filter(|finding| finding.dismissed.is_none())
        .count();
    let line = match open {
        0 => match bore::bearing_words(desk.session.shown_plan(), &design.drill_list) {
            Some(bearing) => format!("No finding is open. {bearing}"),
            None => String::from("Nothing to look at. All clear."),
        },
        _ => counted(open, "finding"),
    };
    let more = findings.len().saturating_sub(MOST_LINES);
    let item = |finding: &Finding| html! { <FindingItem key={finding.key.clone()} finding={finding.clone()} /> };
    html! {
        <>
            <Head title="Findings" {line} />
            <ul class="Findings">{ for findings.iter().take(MOST_LINES).map(item) }</ul>
            if more > 0 { <p class="Quiet">{ format!("And {more} more, less grave than these.") }</p> }
        </>
    }
}

#[derive(Properties, PartialEq)]
struct FindingItemProps {
    finding: Finding,
}

#[component]
fn FindingItem(props: &FindingItemProps) -> Html {
    let finding = &props.finding;
    let edit = use_edit();
    let asking = use_state(|| false);
    let visit = visit(finding);
    let onvisit = use_act(move |_: MouseEvent| Act::Visit(visit));
    let key = finding.key.clone();
    let onrestore = edit.reform(move |()| Edit::Restore { key: key.clone() });
    let weight = finding.severity.name();
    let onask = {
        let asking = asking.clone();
        Callback::from(move |()| asking.set(!*asking))
    };
    html! {
        <li class="FindingItem" data-weight={weight} data-aside={finding.dismissed.is_some().to_string()}>
            <button type="button" class="FindingWhat" onclick={onvisit}>
                <b class="Weight">{ weight }</b>
                <span><Figures text={finding.what.clone()} /></span>
            </button>
            <p><Figures text={finding.todo.clone()} /></p>
            <p class="Quiet"><Figures text={finding.source.clone()} /></p>
            if let Some(reason) = &finding.dismissed {
                <p>{ format!("Set aside: {reason}") }</p>
                <Press label="Take it up again" kind={PressKind::Quiet} onpress={onrestore} />
            } else {
                <Press label="Set aside" kind={PressKind::Quiet} onpress={onask} />
            }
            if *asking && finding.dismissed.is_none() { <Reason finding={finding.key.clone()} /> }
        </li>
    }
}

#[derive(Properties, PartialEq)]
struct ReasonProps {
    finding: String,
}

/// Why a finding is set aside; the reason prints beside it.
#[component]
fn Reason(props: &ReasonProps) -> Html {
    let edit = use_edit();
    let node = use_node_ref();
    let onpress = {
        let (node, key) = (node.clone(), props.finding.clone());
        edit.reform(move |()| Edit::Dismiss {
            key: key.clone(),
            reason: node
                .cast::<HtmlInputElement>()
                .map(|input| input.value())
                .unwrap_or_default(),
        })
    };
    html! {
        <div class="Reason">
            <label class="Field">
                <span class="FieldLabel">{ "Reason, printed beside it" }</span>
                <input type="text" ref={node} autocomplete="off" />
            </label>
            <Press label="Set aside with this reason" {onpress} />
        </div>
    }
}

/// What a tap on a finding brings into sight. The list stays open.
fn visit(finding: &Finding) -> Visit {
    let choice = match finding.subject {
        Subject::Job => None,
        Subject::Level(id) => Some(Choice::Level(id)),
        Subject::Wall(id) => Some(Choice::Wall(id)),
        Subject::Opening(id) => Some(Choice::Opening(id)),
        Subject::Drop(id) => Some(Choice::Drop(id)),
        Subject::Cable(id) => Some(Choice::Cable(id)),
        Subject::Bore(number) => Some(Choice::Bore(number)),
        Subject::Closet => Some(Choice::Closet),
    };
    Visit {
        choice,
        leaf: Some(Leaf::Findings),
        at: finding.at,
    }
}
