//! The slip beside the sheet: what is chosen, in plain fields, or what was laid open.

mod agreements;
mod bore;
mod cable;
mod change;
mod closet;
mod count;
mod drawing;
mod drop;
mod findings;
mod floor;
mod job;
mod lane;
mod level;
mod lists;
mod opening;
mod passed;
mod pins;
mod points;
mod record;
mod room;
mod rules;
mod settings;
mod share;
mod site;
mod wall;
mod way;

pub use job::save;

use borewright_core::desk::{Choice, Intent, Step};
use borewright_core::plan::Plan;
use borewright_core::plan::edit::Edit;
use yew::prelude::*;

use super::icons;
use super::unsought::{UNSOUGHT_ON_PAPER, Unsought};
use super::words::capital;
use crate::hooks::{use_act, use_desk};
use crate::parts::{Icon, Press, PressKind};
use crate::state::{Act, Desk, Leaf};

/// The slip; nothing when nothing is chosen or open.
#[component]
pub fn Slip() -> Html {
    let desk = use_desk();
    let lay = use_act(|()| Act::Lay(None));
    let let_go = use_act(|()| Act::Want(Intent::Choose(None)));
    let (content, onclose) = match (desk.open, desk.session.chosen) {
        (Some(leaf), _) => (leaf_of(leaf, desk.session.design.is_sought()), lay),
        (None, Some(choice)) if !is_paper(desk.session.step) => {
            (choice_of(choice, desk.session.step), let_go)
        }
        (None, _) => return html! {},
    };
    if let Some(title) = folded_title(&desk) {
        return html! { <Folded {title} {onclose} /> };
    }
    // In a list that lies open, what is chosen is only a line of it.
    let subject = match desk.open {
        Some(leaf) => format!("{leaf:?}"),
        None => format!("{:?}", desk.session.chosen),
    };
    html! {
        <aside class="Slip" aria-label="Slip">
            <button class="SlipClose" type="button" aria-label="Close" onclick={onclose.reform(|_: MouseEvent| ())}>
                <Icon lines={icons::CLOSE} />
            </button>
            // Another matter is read from its beginning.
            <div class="SlipBody" key={subject}>{ content }</div>
        </aside>
    }
}

/// What a folded slip is about; `None` where the slip is open.
fn folded_title(desk: &Desk) -> Option<String> {
    let plan: &Plan = desk.session.shown_plan();
    match desk.session.chosen? {
        _ if !desk.folded || desk.open.is_some() => None,
        Choice::Drop(id) => {
            let drop = plan.drop(id)?;
            Some(format!("{} {}", drop.label(), drop.kind.name()))
        }
        Choice::Opening(id) => {
            let (_, opening) = plan.opening(id)?;
            let kind = capital(opening.kind.name());
            Some(format!("{kind} in W{}", opening.wall.0))
        }
        _ => None,
    }
}

#[derive(Properties, PartialEq)]
struct FoldedProps {
    title: AttrValue,
    onclose: Callback<()>,
}

/// The slip as one line, so that the next thing can be placed beside the last.
#[component]
fn Folded(props: &FoldedProps) -> Html {
    let onopen = use_act(|_: MouseEvent| Act::Unfold);
    let onclose = props.onclose.reform(|_: MouseEvent| ());
    html! {
        <aside class="Slip Folded" aria-label="Slip">
            <button class="SlipFold" type="button" aria-expanded="false"
                aria-label={format!("Open the slip of {}", props.title)} onclick={onopen}>
                <b>{ &props.title }</b>
                <Icon lines={icons::MORE} />
            </button>
            <button class="SlipClose" type="button" aria-label="Close" onclick={onclose}>
                <Icon lines={icons::CLOSE} />
            </button>
        </aside>
    }
}

/// Whether a step shows no drawing, on which something could be chosen.
fn is_paper(step: Step) -> bool {
    step == Step::Sheets
}

/// What follows from a plan that is not worked out has no slip yet.
fn leaf_of(leaf: Leaf, is_sought: bool) -> Html {
    let wants_design = !matches!(leaf, Leaf::Job | Leaf::Share | Leaf::Settings);
    if wants_design && !is_sought {
        return html! {
            <>
                <Head title="Not worked out yet" />
                <Unsought />
                <p class="Quiet">{ UNSOUGHT_ON_PAPER }</p>
            </>
        };
    }
    match leaf {
        Leaf::Job => html! { <job::JobSlip /> },
        Leaf::Agreements => html! { <agreements::AgreementsSlip /> },
        Leaf::Change => html! { <change::ChangeSlip /> },
        Leaf::Lists => html! { <lists::ListsSlip /> },
        Leaf::Share => html! { <share::ShareSlip /> },
        Leaf::Settings => html! { <settings::SettingsSlip /> },
        Leaf::Findings => html! { <findings::FindingsSlip /> },
        Leaf::Count(count) => html! { <count::CountSlip {count} /> },
    }
}

fn choice_of(choice: Choice, step: Step) -> Html {
    match choice {
        Choice::Drop(id) if step == Step::Site => html! { <record::RecordSlip key={id.0} {id} /> },
        Choice::Drop(id) => html! { <drop::DropSlip key={id.0} {id} /> },
        Choice::Closet => html! { <closet::ClosetSlip /> },
        Choice::Opening(id) => html! { <opening::OpeningSlip key={id.0} {id} /> },
        Choice::Wall(id) => html! { <wall::WallSlip key={id.0} {id} /> },
        Choice::Room(id) => html! { <room::RoomSlip key={id.0} {id} /> },
        Choice::KeepOut(id) => html! { <site::KeepOutSlip key={id.0} {id} /> },
        Choice::PowerRun(id) => html! { <site::PowerRunSlip key={id.0} {id} /> },
        Choice::Cable(id) => html! { <cable::CableSlip key={id.0} {id} /> },
        Choice::Bore(number) => html! { <bore::BoreSlip key={number} {number} /> },
        Choice::Level(id) => html! { <level::LevelSlip key={id.0} {id} /> },
        Choice::Drawing(id) => html! { <drawing::DrawingSlip key={id.0} {id} /> },
    }
}

/// A callback that changes the plan.
#[hook]
fn use_edit() -> Callback<Edit> {
    use_act(|edit| Act::Want(Intent::Edit(edit)))
}

/// What stands at the head of every slip.
#[derive(Properties, PartialEq)]
struct HeadProps {
    /// What it is about.
    title: AttrValue,
    /// One line more.
    #[prop_or_default]
    line: AttrValue,
}

#[component]
fn Head(props: &HeadProps) -> Html {
    html! {
        <div class="SlipHead">
            <h2>{ &props.title }</h2>
            if !props.line.is_empty() { <p>{ &props.line }</p> }
        </div>
    }
}

/// Takes what is chosen away.
#[derive(Properties, PartialEq)]
struct RemoveProps {
    /// Its words: "Remove D8".
    label: AttrValue,
}

#[component]
fn Remove(props: &RemoveProps) -> Html {
    let onpress = use_act(|()| Act::Want(Intent::Delete));
    html! { <Press label={props.label.clone()} icon={icons::REMOVE} kind={PressKind::Plain} {onpress} /> }
}
