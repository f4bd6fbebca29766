//! A text field that speaks up when it is left or confirmed, not at every letter.

use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, HtmlInputElement, HtmlTextAreaElement};
use yew::prelude::*;

/// What a field is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum FieldKind {
    /// A line of text.
    #[default]
    Line,
    /// Several lines.
    Lines,
    /// A number or length: few letters, a keyboard with figures.
    Figure,
}

/// What a [`Field`] shows and does.
#[derive(Properties, PartialEq)]
pub struct FieldProps {
    /// Its label.
    pub label: AttrValue,
    /// What stands in it.
    pub value: AttrValue,
    /// What it is for.
    #[prop_or_default]
    pub kind: FieldKind,
    /// What is in the way of the last text, if it was not taken.
    #[prop_or_default]
    pub trouble: Option<AttrValue>,
    /// Called with the text when it is confirmed and differs.
    pub onset: Callback<String>,
}

/// A labelled text field.
#[component]
pub fn Field(props: &FieldProps) -> Html {
    let onset = {
        let (set, value) = (props.onset.clone(), props.value.clone());
        move |text: String| {
            if text != value.as_str() {
                set.emit(text);
            }
        }
    };
    let onchange = Callback::from(move |event: Event| onset(text_of(&event)));
    html! {
        <label class="Field" data-kind={word(props.kind)}>
            <span class="FieldLabel">{ &props.label }</span>
            { input(props, onchange) }
            if let Some(trouble) = &props.trouble {
                <span class="FieldTrouble" role="alert">{ trouble }</span>
            }
        </label>
    }
}

fn input(props: &FieldProps, onchange: Callback<Event>) -> Html {
    let value = props.value.clone();
    if props.kind == FieldKind::Lines {
        return html! { <textarea rows="3" value={value.to_string()} {onchange} /> };
    }
    let inputmode = (props.kind == FieldKind::Figure).then_some("text");
    let onkeydown = Callback::from(|event: KeyboardEvent| {
        if event.key() == "Enter" {
            leave(&event);
        }
    });
    let invalid = props.trouble.is_some().then_some("true");
    html! {
        <input type="text" autocomplete="off" spellcheck="false" aria-invalid={invalid}
            {value} {inputmode} {onchange} {onkeydown} />
    }
}

/// Leaving the field confirms it.
fn leave(event: &KeyboardEvent) {
    let target = event.target();
    if let Some(input) = target.and_then(|target| target.dyn_into::<HtmlElement>().ok()) {
        let _ = input.blur();
    }
}

/// The text in the field an event came from.
fn text_of(event: &Event) -> String {
    let target = event.target();
    let input = target
        .as_ref()
        .and_then(|t| t.dyn_ref::<HtmlInputElement>());
    let area = target
        .as_ref()
        .and_then(|t| t.dyn_ref::<HtmlTextAreaElement>());
    let text = input.map(HtmlInputElement::value);
    text.or_else(|| area.map(HtmlTextAreaElement::value))
        .unwrap_or_default()
}

fn word(kind: FieldKind) -> &'static str {
    match kind {
        FieldKind::Line => "line",
        FieldKind::Lines => "lines",
        FieldKind::Figure => "figure",
    }
}
