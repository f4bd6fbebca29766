//! A line picture on a grid of 24 by 24.

use yew::prelude::*;

/// The strokes of a picture, as SVG path data; thick strokes are told apart by the second path.
#[derive(Properties, PartialEq)]
pub struct IconProps {
    /// Path data in a box of 24 by 24.
    pub lines: &'static str,
}

/// A picture that only repeats what the words beside it say.
#[component]
pub fn Icon(props: &IconProps) -> Html {
    html! {
        <svg class="Icon" viewBox="0 0 24 24" aria-hidden="true"><path d={props.lines} /></svg>
    }
}
