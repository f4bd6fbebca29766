//! A text field that speaks up when it is left or confirmed, not at every letter.

use gloo::timers::callback::Timeout;
use wasm_bindgen::JsCast;
use web_sys::{EventTarget, HtmlElement, HtmlInputElement, HtmlTextAreaElement};
use yew::prelude::*;

/// What a field is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum FieldKind {
    /// A line of text.
    #[default]
    Line,
    /// Several lines.
    Lines,
    /// A number or length.
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

/// A labelled text field. A text that was read but refused gives way to what stands; one that could
/// not be read stays, to be mended, with the trouble below it.
#[component]
pub fn Field(props: &FieldProps) -> Html {
    let stands = use_mut_ref(|| (props.value.clone(), false));
    *stands.borrow_mut() = (props.value.clone(), props.trouble.is_some());
    let set = props.onset.clone();
    let onchange = Callback::from(move |event: Event| {
        let (text, target) = (text_of(event.target()), event.target());
        if text != stands.borrow().0.as_str() {
            set.emit(text);
        }
        let stands = stands.clone();
        Timeout::new(0, move || {
            let (value, troubled) = stands.borrow().clone();
            if !troubled {
                show(target, &value);
            }
        })
        .forget();
    });
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
    let onkeydown = Callback::from(|event: KeyboardEvent| {
        if event.key() == "Enter" {
            leave(&event);
        }
    });
    let invalid = props.trouble.is_some().then_some("true");
    html! {
        <input type="text" autocomplete="off" spellcheck="false" aria-invalid={invalid}
            {value} {onchange} {onkeydown} />
    }
}

/// Leaving the field confirms it.
fn leave(event: &KeyboardEvent) {
    let target = event.target();
    if let Some(input) = target.and_then(|target| target.dyn_into::<HtmlElement>().ok()) {
        // A field that cannot be left stays as it is.
        let _ = input.blur();
    }
}

/// The text in a field.
fn text_of(target: Option<EventTarget>) -> String {
    match target.map(JsCast::dyn_into::<HtmlInputElement>) {
        Some(Ok(input)) => input.value(),
        Some(Err(target)) => target
            .dyn_into::<HtmlTextAreaElement>()
            .map(|area| area.value())
            .unwrap_or_default(),
        None => String::new(),
    }
}

/// Writes a text into a field.
fn show(target: Option<EventTarget>, text: &str) {
    match target.map(JsCast::dyn_into::<HtmlInputElement>) {
        Some(Ok(input)) => input.set_value(text),
        Some(Err(target)) => {
            if let Ok(area) = target.dyn_into::<HtmlTextAreaElement>() {
                area.set_value(text);
            }
        }
        None => {}
    }
}

fn word(kind: FieldKind) -> &'static str {
    match kind {
        FieldKind::Line => "line",
        FieldKind::Lines => "lines",
        FieldKind::Figure => "figure",
    }
}
