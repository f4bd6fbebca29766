//! The first stops of the keyboard: past the tally and the steps to where the work is.
//!
//! They are presses and no links: what follows the `#` of the address is a plan.

use yew::prelude::*;

use crate::browser::focus;

/// Where one can go, and the element that takes the keyboard there.
const PLACES: [(&str, &str); 4] = [
    ("To the drawing", ".SheetInk, .Pages"),
    ("To the list of the site", ".SitePage"),
    (
        "To the tools",
        ".ShelfTools [aria-pressed=true], .ShelfTools button:not(:disabled)",
    ),
    ("To the slip", ".Slip .SlipFold, .Slip button"),
];

/// The skips; seen only while one of them has the keyboard.
#[component]
pub fn Skips() -> Html {
    let skip = |(words, place): (&'static str, &'static str)| {
        let onclick = Callback::from(move |_: MouseEvent| focus::go_to(place));
        html! { <button class="Skip" type="button" key={words} {onclick}>{ words }</button> }
    };
    html! { <nav class="Skips" aria-label="Skip">{ for PLACES.into_iter().map(skip) }</nav> }
}
