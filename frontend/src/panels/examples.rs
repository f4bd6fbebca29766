//! A press for each invented house to look at.

use yew::prelude::*;

use super::icons;
use crate::demo::Example;
use crate::hooks::use_example;
use crate::parts::{Press, PressKind};

/// How they look, and what happens once one was asked for.
#[derive(Properties, PartialEq)]
pub struct ExamplesProps {
    /// How much each press weighs.
    #[prop_or_default]
    pub kind: PressKind,
    /// Called after a house was asked for.
    #[prop_or_default]
    pub onasked: Callback<()>,
}

/// The houses.
#[component]
pub fn Examples(props: &ExamplesProps) -> Html {
    let open = use_example();
    let press = |example: Example| {
        let (open, onasked) = (open.clone(), props.onasked.clone());
        let onpress = Callback::from(move |()| {
            open.emit(example);
            onasked.emit(());
        });
        html! {
            <Press key={example.words()} label={example.words()} icon={icons::HOUSE} kind={props.kind} {onpress} />
        }
    };
    html! { <>{ for Example::ALL.into_iter().map(press) }</> }
}
