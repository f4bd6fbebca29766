//! What the keyboard reaches on the sheet: a button over every drop and the closet.

use std::rc::Rc;

use borewright_core::desk::{Choice, Intent, closet_position};
use borewright_core::framing::drop_room;
use borewright_core::plan::{Drop, Plan};
use borewright_core::shape::Pos;
use yew::prelude::*;

use crate::hooks::use_act;
use crate::state::{Act, Desk};

/// What [`Handles`] lie over.
#[derive(Properties, PartialEq)]
pub struct HandlesProps {
    /// One handle a thing.
    pub handles: Rc<Vec<Handle>>,
    /// Millimetres to a pixel.
    pub scale: f64,
}

/// One thing the keyboard reaches.
#[derive(Clone, Debug, PartialEq)]
pub struct Handle {
    choice: Choice,
    words: String,
    at: Pos,
    chosen: bool,
}

/// The handles of the shown level.
pub fn handles(desk: &Desk) -> Vec<Handle> {
    let plan = desk.session.shown_plan();
    let here = plan
        .drops
        .iter()
        .filter(|drop| drop.level == desk.session.level);
    let chosen = desk.session.chosen;
    let drops = here.filter_map(|drop| {
        let (choice, at) = (Choice::Drop(drop.id), drop.place.position(plan)?);
        Some(Handle {
            choice,
            words: drop_words(plan, drop),
            at,
            chosen: chosen == Some(choice),
        })
    });
    let closet = plan
        .closet
        .filter(|closet| closet.level == desk.session.level)
        .and_then(|closet| {
            let (choice, at) = (Choice::Closet, closet_position(plan, &closet)?);
            Some(Handle {
                choice,
                words: "Closet on the plan".into(),
                at,
                chosen: chosen == Some(choice),
            })
        });
    drops.chain(closet).collect()
}

/// "D8 outlet, Bed 1".
pub fn drop_words(plan: &Plan, drop: &Drop) -> String {
    let named = format!("{} {}", drop.label(), drop.kind.name());
    match drop_room(plan, drop) {
        Some(room) => format!("{named}, {}", room.name),
        None => named,
    }
}

/// A button over each thing; pointers go through to the sheet.
#[component]
pub fn Handles(props: &HandlesProps) -> Html {
    let radius = 14.0 * props.scale;
    let draw = |handle: &Handle| {
        let key = format!("{:?}", handle.choice);
        html! { <Button {key} handle={handle.clone()} {radius} /> }
    };
    html! { <g class="Handles">{ for props.handles.iter().map(draw) }</g> }
}

#[derive(Properties, PartialEq)]
struct ButtonProps {
    handle: Handle,
    radius: f64,
}

#[component]
fn Button(props: &ButtonProps) -> Html {
    let choose = use_act(|choice| Act::Want(Intent::Choose(Some(choice))));
    let handle = &props.handle;
    let choice = handle.choice;
    let onkeydown = move |event: KeyboardEvent| {
        if matches!(event.key().as_str(), "Enter" | " ") {
            event.prevent_default();
            choose.emit(choice);
        }
    };
    html! {
        <circle class="Handle" role="button" tabindex="0"
            aria-label={handle.words.clone()} aria-pressed={handle.chosen.to_string()}
            cx={handle.at.x.to_string()} cy={handle.at.y.to_string()} r={props.radius.to_string()} {onkeydown} />
    }
}
