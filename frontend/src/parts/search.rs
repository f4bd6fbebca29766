//! A field that finds as one types.

use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// What a [`Search`] shows and does.
#[derive(Properties, PartialEq)]
pub struct SearchProps {
    /// Its label.
    pub label: AttrValue,
    /// Called at every letter.
    pub onsearch: Callback<String>,
}

/// A labelled field for a search. What is typed stands in the field alone, so that no letter is lost while the
/// page is busy with those before it; another key empties it.
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
            <input type="search" autocomplete="off" spellcheck="false" {oninput} />
        </label>
    }
}
