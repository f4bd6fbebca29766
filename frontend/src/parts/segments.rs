//! One of a few, all in sight.

use yew::prelude::*;

/// What [`Segments`] show and do.
#[derive(Properties, PartialEq)]
pub struct SegmentsProps {
    /// What the choice is about.
    pub label: AttrValue,
    /// What there is.
    pub options: Vec<AttrValue>,
    /// Which stands.
    pub chosen: Option<usize>,
    /// Called with the place in the row.
    pub onpick: Callback<usize>,
}

/// A row of buttons of which one is pressed.
#[component]
pub fn Segments(props: &SegmentsProps) -> Html {
    let option = |(place, words): (usize, &AttrValue)| {
        let pressed = (props.chosen == Some(place)).to_string();
        let onclick = props.onpick.reform(move |_: MouseEvent| place);
        html! {
            <button key={place} type="button" aria-pressed={pressed} {onclick}>{ words }</button>
        }
    };
    html! {
        <div class="Segments" role="group" aria-label={&props.label}>
            { for props.options.iter().enumerate().map(option) }
        </div>
    }
}
