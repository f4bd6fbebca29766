//! One of several, from a list that folds away.

use web_sys::HtmlSelectElement;
use yew::prelude::*;

/// What a [`Pick`] shows and does.
#[derive(Properties, PartialEq)]
pub struct PickProps {
    /// Its label.
    pub label: AttrValue,
    /// What there is to pick from.
    pub options: Vec<AttrValue>,
    /// Which stands.
    pub chosen: Option<usize>,
    /// Called with the place in the list.
    pub onpick: Callback<usize>,
}

/// A labelled list to pick one from.
#[component]
pub fn Pick(props: &PickProps) -> Html {
    let onchange = props.onpick.reform(|event: Event| {
        let select: HtmlSelectElement = event.target_unchecked_into();
        usize::try_from(select.selected_index()).unwrap_or_default()
    });
    let option = |(place, words): (usize, &AttrValue)| {
        let selected = props.chosen == Some(place);
        html! { <option key={place} value={place.to_string()} {selected}>{ words }</option> }
    };
    html! {
        <label class="Field" data-kind="pick">
            <span class="FieldLabel">{ &props.label }</span>
            <select {onchange}>{ for props.options.iter().enumerate().map(option) }</select>
        </label>
    }
}
