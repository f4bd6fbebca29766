//! One drop of the list: what finds it, and what the part of the work asks of it.

use borewright_core::desk::Choice;
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{DropId, Plan};
use borewright_core::schedule::{Phase, RoomRow, Tick};
use yew::prelude::*;

use super::notes::{Ticks, note, use_edit};
use crate::hooks::{use_desk, use_dispatcher};
use crate::parts::{Figures, Press, PressKind};
use crate::state::{Act, SiteLook, Visit};

#[derive(Properties, PartialEq)]
pub struct CardProps {
    /// Its line of the room list.
    pub row: RoomRow,
    /// The part of the work.
    pub phase: Phase,
}

/// The selector of a drop's card.
pub fn card_of(drop: DropId) -> String {
    format!("#site-card-{}", drop.0)
}

/// A drop with its ticks.
#[component]
pub fn Card(props: &CardProps) -> Html {
    let desk = use_desk();
    let plan: &Plan = &desk.session.plan;
    let id = props.row.drop;
    let Some(drop) = plan.drop(id) else {
        return html! {};
    };
    let label = drop.label();
    let progress = props.phase.at(plan, drop);
    let said = plan.record.box_note(id);
    html! {
        <li class="SiteCard" id={format!("site-card-{}", id.0)} tabindex="-1"
            data-done={progress.is_done().to_string()} aria-label={label.clone()}>
            <div class="SiteCardHead">
                <Name {id} name={label.clone()} what={drop.kind.name()} />
                if progress.is_done() {
                    <span class="SiteDone">{ "done" }</span>
                } else if props.phase != Phase::Testing {
                    <All {id} phase={props.phase} name={label} />
                }
            </div>
            <p><Figures text={props.row.finds(plan)} /></p>
            if props.phase != Phase::Testing { <p class="Quiet">{ props.row.instruction.to_string() }</p> }
            if !said.is_empty() { <p class="SiteSaid">{ said }</p> }
            <Ticks drop={id} phase={props.phase} />
        </li>
    }
}

#[derive(Properties, PartialEq)]
struct NameProps {
    id: DropId,
    name: AttrValue,
    what: AttrValue,
}

/// Shows the drop on the drawing, with its slip.
#[component]
fn Name(props: &NameProps) -> Html {
    let desk = use_desk();
    let dispatcher = use_dispatcher();
    let choice = Choice::Drop(props.id);
    let (look, at) = (desk.site, desk.session.position(choice));
    let onclick = Callback::from(move |_: MouseEvent| {
        dispatcher.dispatch(Act::Look(SiteLook {
            drawing: true,
            ..look
        }));
        dispatcher.dispatch(Act::Visit(Visit {
            choice: Some(choice),
            leaf: None,
            at,
        }));
    });
    html! {
        <button type="button" class="SiteName" aria-label={format!("See {} on the drawing", props.name)} {onclick}>
            <b>{ &props.name }</b><span>{ &props.what }</span>
        </button>
    }
}

#[derive(Properties, PartialEq)]
struct AllProps {
    id: DropId,
    phase: Phase,
    name: AttrValue,
}

/// Ticks off everything at a drop at once.
#[component]
fn All(props: &AllProps) -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let (id, phase) = (props.id, props.phase);
    let plan = desk.session.plan.clone();
    let onclick = edit.reform(move |_: MouseEvent| {
        let plan: &Plan = &plan;
        let ticks = plan.drop(id).map(|drop| phase.ticks(drop));
        let open = ticks.into_iter().flatten();
        let open = open.filter(|tick: &Tick| !tick.is_done(&plan.record));
        Edit::Together(open.map(|tick| note(tick, true)).collect())
    });
    html! {
        <button type="button" class="Press" data-kind="plain" aria-label={format!("Tick all of {}", props.name)}
            {onclick}>{ "tick all" }</button>
    }
}

#[derive(Properties, PartialEq)]
pub struct NextProps {
    /// What it is called and where it is.
    pub words: AttrValue,
    /// Brings its card into sight.
    pub onshow: Callback<()>,
}

/// The next thing to do.
#[component]
pub fn Next(props: &NextProps) -> Html {
    html! { <Press label={format!("Next: {}", props.words)} kind={PressKind::Main} onpress={props.onshow.clone()} /> }
}
