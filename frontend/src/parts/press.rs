//! A button with words and perhaps a picture.

use super::Icon;
use yew::prelude::*;

/// How much a button weighs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PressKind {
    /// One of several.
    #[default]
    Plain,
    /// The one most likely meant.
    Main,
    /// As quiet as text.
    Quiet,
}

impl PressKind {
    fn word(self) -> &'static str {
        match self {
            Self::Plain => "plain",
            Self::Main => "main",
            Self::Quiet => "quiet",
        }
    }
}

/// What a [`Press`] shows and does.
#[derive(Properties, PartialEq)]
pub struct PressProps {
    /// Its words.
    pub label: AttrValue,
    /// Its whole name, where its words alone do not tell it from its neighbours; begins with them.
    #[prop_or_default]
    pub name: Option<AttrValue>,
    /// Its picture.
    #[prop_or_default]
    pub icon: Option<&'static str>,
    /// How much it weighs.
    #[prop_or_default]
    pub kind: PressKind,
    /// It can not be pressed now.
    #[prop_or_default]
    pub off: bool,
    /// Called when pressed.
    pub onpress: Callback<()>,
}

/// A button.
#[component]
pub fn Press(props: &PressProps) -> Html {
    let onclick = props.onpress.reform(|_: MouseEvent| ());
    html! {
        <button class="Press" type="button" data-kind={props.kind.word()} disabled={props.off}
            aria-label={props.name.clone()} {onclick}>
            if let Some(lines) = props.icon { <Icon {lines} /> }
            <span>{ &props.label }</span>
        </button>
    }
}
