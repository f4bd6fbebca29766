//! A text field that speaks up when it is left or confirmed, not at every letter.

use gloo::timers::callback::Timeout;
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

/// A labelled text field. What is being typed stays, whatever else changes meanwhile. A text that was
/// read but refused gives way to what stands; one that could not be read stays, to be mended, with the
/// trouble below it.
#[component]
pub fn Field(props: &FieldProps) -> Html {
    let node = use_node_ref();
    let stands = use_mut_ref(|| (props.value.clone(), false));
    *stands.borrow_mut() = (props.value.clone(), props.trouble.is_some());
    {
        let node = node.clone();
        use_effect_with(props.value.clone(), move |value| {
            if !has_focus(&node) {
                show(&node, value);
            }
        });
    }
    let settle = {
        let (node, stands) = (node.clone(), stands.clone());
        move || {
            let (node, stands) = (node.clone(), stands.clone());
            Timeout::new(0, move || {
                let (value, troubled) = stands.borrow().clone();
                if !troubled {
                    show(&node, &value);
                }
            })
            .forget();
        }
    };
    let onblur = {
        let settle = settle.clone();
        Callback::from(move |_: FocusEvent| settle())
    };
    let (set, typed) = (props.onset.clone(), node.clone());
    let onchange = Callback::from(move |_: Event| {
        let text = text_of(&typed);
        let differs = {
            let stands = stands.borrow();
            // What stands may be written again to be rid of the trouble.
            text != stands.0.as_str() || stands.1
        };
        if differs {
            set.emit(text);
        }
        settle();
    });
    html! {
        <label class="Field" data-kind={word(props.kind)}>
            <span class="FieldLabel">{ &props.label }</span>
            { input(props, &node, onchange, onblur) }
            if let Some(trouble) = &props.trouble {
                <span class="FieldTrouble" role="alert">{ trouble }</span>
            }
        </label>
    }
}

fn input(
    props: &FieldProps,
    node: &NodeRef,
    onchange: Callback<Event>,
    onblur: Callback<FocusEvent>,
) -> Html {
    let node = node.clone();
    if props.kind == FieldKind::Lines {
        return html! { <textarea ref={node} rows="3" {onchange} {onblur} /> };
    }
    let onkeydown = Callback::from(|event: KeyboardEvent| {
        if event.key() == "Enter" {
            leave(&event);
        }
    });
    let invalid = props.trouble.is_some().then_some("true");
    html! {
        <input ref={node} type="text" autocomplete="off" spellcheck="false" aria-invalid={invalid}
            {onchange} {onblur} {onkeydown} />
    }
}

/// Whether somebody is typing in the field.
fn has_focus(node: &NodeRef) -> bool {
    let active = gloo::utils::document().active_element();
    active.is_some() && active == node.cast()
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
fn text_of(node: &NodeRef) -> String {
    match (
        node.cast::<HtmlInputElement>(),
        node.cast::<HtmlTextAreaElement>(),
    ) {
        (Some(input), _) => input.value(),
        (None, Some(area)) => area.value(),
        (None, None) => String::new(),
    }
}

/// Writes a text into a field, unless it stands there already.
fn show(node: &NodeRef, text: &str) {
    if text_of(node) == text {
        return;
    }
    if let Some(input) = node.cast::<HtmlInputElement>() {
        input.set_value(text);
    } else if let Some(area) = node.cast::<HtmlTextAreaElement>() {
        area.set_value(text);
    }
}

fn word(kind: FieldKind) -> &'static str {
    match kind {
        FieldKind::Line => "line",
        FieldKind::Lines => "lines",
        FieldKind::Figure => "figure",
    }
}
