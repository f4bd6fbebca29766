//! A bore cut across: the member, the hole and the cables in it, to scale.

use yew::prelude::*;

/// Which bore.
#[derive(Properties, PartialEq)]
pub struct SectionProps {
    /// Its number.
    pub number: u32,
}

/// The section of a bore.
#[component]
pub fn Section(_props: &SectionProps) -> Html {
    html! {}
}
