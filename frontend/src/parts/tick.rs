//! Yes or no.

use yew::prelude::*;

/// What a [`Tick`] shows and does.
#[derive(Properties, PartialEq)]
pub struct TickProps {
    /// Its label.
    pub label: AttrValue,
    /// Whether it holds.
    pub ticked: bool,
    /// Called with what is to hold.
    pub onset: Callback<bool>,
}

/// A labelled box to tick.
#[component]
pub fn Tick(props: &TickProps) -> Html {
    let wanted = !props.ticked;
    let onchange = props.onset.reform(move |_: Event| wanted);
    html! {
        <label class="Tick">
            <input type="checkbox" checked={props.ticked} {onchange} />
            <span>{ &props.label }</span>
        </label>
    }
}
