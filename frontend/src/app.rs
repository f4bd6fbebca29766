//! The root component.

use yew::prelude::*;

/// The whole page.
#[component]
pub fn App() -> Html {
    html! { <main>{ "Borewright" }</main> }
}
