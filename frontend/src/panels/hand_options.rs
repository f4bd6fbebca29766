//! What the hand keeps, above the tools it belongs to: lumber, role, sizes, the typed length.

use borewright_core::desk::{Draft, Hand, Intent, Tool};
use borewright_core::plan::{KeepOutReason, Lumber, OpeningKind, Role};
use borewright_core::units::Mm;
use web_sys::HtmlInputElement;
use yew::prelude::*;

use super::length_field::LengthField;
use super::words::capital;
use crate::hooks::{use_act, use_desk};
use crate::parts::{Pick, Segments};
use crate::state::{Act, Desk};

/// The options of the tool in hand.
#[component]
pub fn HandOptions() -> Html {
    let desk = use_desk();
    let set = use_act(|hand| Act::Want(Intent::SetHand(hand)));
    html! {
        <div class="HandOptions">
            { options(&desk, &set) }
            <TypedLength />
        </div>
    }
}

fn options(desk: &Desk, set: &Callback<Hand>) -> Html {
    let hand = &desk.session.hand;
    match desk.session.tool {
        Tool::Wall => wall(hand, set),
        Tool::Opening => opening(hand, set),
        Tool::KeepOut => keep_out(hand, set),
        Tool::PowerRun => {
            let make = |hand: &Hand, power_height| Hand {
                power_height,
                ..hand.clone()
            };
            length("Height", hand.power_height, changed(hand, set, make))
        }
        _ => html! {},
    }
}

const ROLES: [Role; 3] = [Role::Exterior, Role::Bearing, Role::Partition];
const LUMBER: [Lumber; 3] = [Lumber::TwoByFour, Lumber::TwoBySix, Lumber::TwoByEight];

fn wall(hand: &Hand, set: &Callback<Hand>) -> Html {
    let roles = ROLES
        .map(|role| AttrValue::from(capital(role.name())))
        .to_vec();
    let boards = LUMBER.map(|board| AttrValue::from(board.name())).to_vec();
    let pick_role = changed(hand, set, |hand, place: usize| {
        ROLES
            .get(place)
            .map_or(hand.clone(), |role| hand.clone().with_role(*role))
    });
    let pick_board = changed(hand, set, |hand, place: usize| {
        LUMBER.get(place).map_or(hand.clone(), |&lumber| Hand {
            lumber,
            ..hand.clone()
        })
    });
    html! {
        <>
            <Segments label="Role" options={roles} onpick={pick_role}
                chosen={ROLES.iter().position(|role| *role == hand.role)} />
            <Segments label="Lumber" options={boards} onpick={pick_board}
                chosen={LUMBER.iter().position(|board| *board == hand.lumber)} />
        </>
    }
}

fn opening(hand: &Hand, set: &Callback<Hand>) -> Html {
    let width = changed(hand, set, |hand, opening_width| Hand {
        opening_width,
        ..hand.clone()
    });
    let sill = changed(hand, set, |hand, opening_sill| Hand {
        opening_sill,
        ..hand.clone()
    });
    let head = changed(hand, set, |hand, opening_head| Hand {
        opening_head,
        ..hand.clone()
    });
    html! {
        <>
            { length("Width", hand.opening_width, width) }
            if hand.opening == OpeningKind::Window {
                { length("Sill", hand.opening_sill, sill) }
            }
            { length("Head", hand.opening_head, head) }
        </>
    }
}

fn keep_out(hand: &Hand, set: &Callback<Hand>) -> Html {
    let reasons = KeepOutReason::ALL
        .map(|reason| AttrValue::from(capital(reason.name())))
        .to_vec();
    let onpick = changed(hand, set, |hand, place: usize| {
        let reason = KeepOutReason::ALL.get(place);
        reason.map_or(hand.clone(), |&keep_out| Hand {
            keep_out,
            ..hand.clone()
        })
    });
    let chosen = KeepOutReason::ALL
        .iter()
        .position(|reason| *reason == hand.keep_out);
    html! { <Pick label="Why" options={reasons} {chosen} {onpick} /> }
}

/// A callback that sets the hand as `make` changes it.
fn changed<T: 'static>(
    hand: &Hand,
    set: &Callback<Hand>,
    make: impl Fn(&Hand, T) -> Hand + 'static,
) -> Callback<T> {
    let hand = hand.clone();
    set.reform(move |given| make(&hand, given))
}

fn length(label: &'static str, value: Mm, onset: Callback<Mm>) -> Html {
    html! { <LengthField {label} {value} height=true {onset} /> }
}

/// The length, or the room's name, that is typed while drawing.
#[component]
fn TypedLength() -> Html {
    let desk = use_desk();
    let typing = use_act(|text| Act::Want(Intent::Typing(text)));
    let typed = use_act(|text| Act::Want(Intent::Typed(text)));
    let Some(label) = awaited(&desk) else {
        return html! {};
    };
    let oninput = typing
        .reform(|event: InputEvent| event.target_unchecked_into::<HtmlInputElement>().value());
    let onkeydown = Callback::from(move |event: KeyboardEvent| {
        if event.key() == "Enter" {
            typed.emit(event.target_unchecked_into::<HtmlInputElement>().value());
        }
    });
    html! {
        <label class="Field" data-kind="typed">
            <span class="FieldLabel">{ label }</span>
            <input type="text" autocomplete="off" spellcheck="false" enterkeyhint="done"
                value={desk.session.typing.clone()} {oninput} {onkeydown} />
        </label>
    }
}

/// What the tool in hand takes by typing.
fn awaited(desk: &Desk) -> Option<&'static str> {
    match (desk.session.tool, &desk.session.draft) {
        (_, Some(Draft::Room { .. })) => Some("Room name"),
        (
            _,
            Some(Draft::Corners {
                points,
                asked: None,
            }),
        ) if points.len() == 4 => Some("Width x height"),
        (Tool::Wall | Tool::KnownDimension, _) => Some("Length"),
        (Tool::Opening | Tool::Drop | Tool::Closet, Some(_)) => Some("Along the wall"),
        _ => None,
    }
}
