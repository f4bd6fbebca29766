//! Names with values, line by line.

use super::Figures;
use yew::prelude::*;

/// What [`Facts`] hold.
#[derive(Properties, PartialEq)]
pub struct FactsProps {
    /// The lines.
    pub children: Html,
}

/// A list of names with values.
#[component]
pub fn Facts(props: &FactsProps) -> Html {
    html! { <dl class="Facts">{ props.children.clone() }</dl> }
}

/// What a [`Fact`] says.
#[derive(Properties, PartialEq)]
pub struct FactProps {
    /// The name.
    pub name: AttrValue,
    /// The value.
    pub value: AttrValue,
}

/// One name with its value.
#[component]
pub fn Fact(props: &FactProps) -> Html {
    html! {
        <div class="Fact">
            <dt>{ &props.name }</dt>
            <dd><Figures text={props.value.clone()} /></dd>
        </div>
    }
}
