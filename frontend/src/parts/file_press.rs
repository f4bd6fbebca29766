//! A button that asks for a file.

use super::Icon;
use crate::browser::files;
use web_sys::File;
use yew::prelude::*;

/// What a [`FilePress`] shows and does.
#[derive(Properties, PartialEq)]
pub struct FilePressProps {
    /// Its words.
    pub label: AttrValue,
    /// Its picture.
    pub icon: &'static str,
    /// The files it offers, as the browser's file field takes them.
    pub accept: AttrValue,
    /// How it looks: a button by itself, or one of a shelf.
    #[prop_or(AttrValue::Static("Press FilePress"))]
    pub class: AttrValue,
    /// Called with the file chosen.
    pub onfile: Callback<File>,
}

/// A button that asks for a file.
#[component]
pub fn FilePress(props: &FilePressProps) -> Html {
    let onfile = props.onfile.clone();
    let onchange = Callback::from(move |event: Event| {
        files::chosen(&event)
            .into_iter()
            .for_each(|file| onfile.emit(file));
    });
    html! {
        <label class={props.class.clone()}>
            <Icon lines={props.icon} />
            <span>{ &props.label }</span>
            <input type="file" accept={props.accept.clone()} {onchange} />
        </label>
    }
}
