//! A field that finds as one types.

use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// What a [`Search`] shows and does.
#[derive(Properties, PartialEq)]
pub struct SearchProps {
    /// Its label.
    pub label: AttrValue,
    /// What is sought.
    pub value: AttrValue,
    /// Called at every letter.
    pub onsearch: Callback<String>,
}

/// A labelled field for a search.
#[component]
pub fn Search(props: &SearchProps) -> Html {
    let oninput = props.onsearch.reform(|event: InputEvent| {
        let field = event.target();
        let field = field.and_then(|field| field.dyn_into::<HtmlInputElement>().ok());
        field.map(|field| field.value()).unwrap_or_default()
    });
    html! {
        <label class="Field">
            <span class="FieldLabel">{ &props.label }</span>
            <input type="search" autocomplete="off" spellcheck="false" value={props.value.clone()} {oninput} />
        </label>
    }
}
