//! How much of the drawing under the plan shows.

use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::hooks::{use_act, use_desk};
use crate::state::Act;

/// The slider.
#[component]
pub fn Fade() -> Html {
    let desk = use_desk();
    let oninput = use_act(|event: InputEvent| {
        let text = event.target_unchecked_into::<HtmlInputElement>().value();
        Act::Fade(text.parse().unwrap_or(80))
    });
    html! {
        <label class="Fade">
            <span class="FieldLabel">{ "Drawing shows" }</span>
            <input type="range" min="0" max="100" step="5" value={desk.fade().to_string()} {oninput} />
        </label>
    }
}
