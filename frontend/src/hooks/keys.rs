//! The keyboard: undo, delete, Escape, arrows, and figures typed while drawing.

use borewright_core::desk::{Draft, Heading, Intent, Session, Tool};
use gloo::events::{EventListener, EventListenerOptions};
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, KeyboardEvent};
use yew::prelude::*;

use crate::state::{Act, Desk, Dispatcher};

/// Listens to keys that are not meant for a field.
#[hook]
pub fn use_keys(desk: &Desk, dispatcher: &Dispatcher) {
    // No key reaches a table that is out of sight.
    let in_sight = || (!desk.jobs).then(|| desk.session.clone());
    let latest = use_mut_ref(in_sight);
    *latest.borrow_mut() = in_sight();
    let dispatcher = dispatcher.clone();
    use_effect_with((), move |()| {
        let options = EventListenerOptions::enable_prevent_default();
        let document = gloo::utils::document();
        let listener =
            EventListener::new_with_options(&document, "keydown", options, move |event| {
                let Some(event) = event.dyn_ref::<KeyboardEvent>() else {
                    return;
                };
                let session = latest.borrow();
                let act = session.as_ref().and_then(|session| act_of(event, session));
                drop(session);
                if let Some(act) = act {
                    event.prevent_default();
                    dispatcher.dispatch(act);
                }
            });
        move || drop(listener)
    });
}

fn act_of(event: &KeyboardEvent, session: &Session) -> Option<Act> {
    let key = event.key();
    let held = event.ctrl_key() || event.meta_key();
    match field_of(event) {
        Some(_) if key == "Escape" => return Some(leave(event)),
        Some(Field::Text) => return None,
        _ if held => return with_control(&key.to_lowercase(), event.shift_key()),
        Some(Field::Other) => return None,
        None => {}
    }
    let intent = match key.as_str() {
        "Escape" => Intent::LetGo,
        "Delete" => Intent::Delete,
        "Backspace" if session.typing.is_empty() => Intent::Delete,
        "Backspace" => Intent::Typing(without_last(&session.typing)),
        "Enter" if !session.typing.is_empty() => Intent::Typed(session.typing.clone()),
        _ => {
            return heading(&key)
                .filter(|_| session.chosen.is_some())
                .map(|heading| nudge(heading, event.shift_key()))
                .or_else(|| typed(&key, event, session));
        }
    };
    Some(Act::Want(intent))
}

/// Escape leaves the field it was pressed in, and lets go.
fn leave(event: &KeyboardEvent) -> Act {
    let field = event
        .target()
        .and_then(|target| target.dyn_into::<HtmlElement>().ok());
    // A field that cannot be left stays; the hand lets go all the same.
    let _ = field.map(|field| field.blur());
    Act::Want(Intent::LetGo)
}

fn with_control(key: &str, shift: bool) -> Option<Act> {
    match (key, shift) {
        ("z", false) => Some(Act::Want(Intent::Undo)),
        ("z", true) | ("y", false) => Some(Act::Want(Intent::Redo)),
        _ => None,
    }
}

fn nudge(heading: Heading, large: bool) -> Act {
    Act::Want(Intent::Nudge { heading, large })
}

fn heading(key: &str) -> Option<Heading> {
    Some(match key {
        "ArrowUp" => Heading::Up,
        "ArrowDown" => Heading::Down,
        "ArrowLeft" => Heading::Left,
        "ArrowRight" => Heading::Right,
        _ => return None,
    })
}

/// A figure or sign of a length goes to the length being typed. Space and Enter stay with a button
/// that has the focus.
fn typed(key: &str, event: &KeyboardEvent, session: &Session) -> Option<Act> {
    let mut letters = key.chars();
    let (letter, None) = (letters.next()?, letters.next()) else {
        return None;
    };
    // A length begins with a figure, a point or a minus; what follows is for the reader to judge, so
    // that nothing typed is left out in silence.
    let begins = letter.is_ascii_digit() || matches!(letter, '.' | ',' | '-' | '½' | '¼' | '¾');
    let goes_on = !letter.is_control() && !session.typing.is_empty();
    let awaited = takes_length(session) && (begins || goes_on);
    (awaited && !event.alt_key())
        .then(|| Act::Want(Intent::Typing(format!("{}{letter}", session.typing))))
}

/// Whether the tool in hand does something with a length.
pub fn takes_length(session: &Session) -> bool {
    let drawing = matches!(
        session.tool,
        Tool::Wall
            | Tool::KnownDimension
            | Tool::SquareUp
            | Tool::Opening
            | Tool::Drop
            | Tool::Closet
            | Tool::KeepOut
            | Tool::PowerRun
    );
    drawing && session.draft.is_some() && !matches!(session.draft, Some(Draft::Room { .. }))
}

fn without_last(text: &str) -> String {
    let mut text = text.to_string();
    text.pop();
    text
}

/// A field that takes keys.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Field {
    /// Text, which has an undoing of its own.
    Text,
    /// A list, a box to tick, a slider.
    Other,
}

fn field_of(event: &KeyboardEvent) -> Option<Field> {
    let target = event.target()?.dyn_into::<Element>().ok()?;
    let kind = target.get_attribute("type");
    match (target.tag_name().as_str(), kind.as_deref()) {
        ("INPUT", Some("checkbox" | "radio" | "range" | "file")) | ("SELECT", _) => {
            Some(Field::Other)
        }
        ("INPUT" | "TEXTAREA", _) => Some(Field::Text),
        _ => None,
    }
}
