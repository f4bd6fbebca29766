//! The step that comes after printing; it says what is planned and does nothing yet.

use yew::prelude::*;

/// What is planned for the site.
const PLANNED: [(&str, &str); 5] = [
    (
        "Rough-in",
        "tick off bores, pulls and labels on a phone, with no network",
    ),
    (
        "Protection",
        "what to tuck, plate and seal before cover, with photos",
    ),
    (
        "Trim-out",
        "find every box again by two offsets and a height",
    ),
    ("Test", "planned against measured length, cable by cable"),
    ("Handover", "one record of it all, for the owner"),
];

/// The step Site.
#[component]
pub fn SitePage() -> Html {
    let line = |(name, words): &(&'static str, &'static str)| {
        html! { <li key={*name}><b>{ *name }</b><span>{ *words }</span></li> }
    };
    html! {
        <section class="SitePage" aria-label="Site" tabindex="-1">
            <h2>{ "Not built yet" }</h2>
            <p>{ "What happens on site after printing will be kept here. Until then, the printed sheets carry tick boxes for it. Planned:" }</p>
            <ul>{ for PLANNED.iter().map(line) }</ul>
        </section>
    }
}
