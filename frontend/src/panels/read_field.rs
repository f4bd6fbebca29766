//! A field whose text is read into an edit: what cannot be read is said below it and changes nothing.

use borewright_core::desk::Intent;
use borewright_core::plan::edit::Edit;
use yew::prelude::*;

use crate::hooks::use_act;
use crate::parts::{Field, FieldKind};
use crate::state::Act;

/// What a [`ReadField`] shows and does.
#[derive(Properties, PartialEq)]
pub struct ReadFieldProps {
    /// Its label.
    pub label: AttrValue,
    /// What stands in it.
    pub value: AttrValue,
    /// What it is for.
    #[prop_or(FieldKind::Figure)]
    pub kind: FieldKind,
    /// Reads the text: the edit it asks for, or one sentence.
    pub read: Callback<String, Result<Edit, String>>,
}

/// A text that becomes an edit.
#[component]
pub fn ReadField(props: &ReadFieldProps) -> Html {
    let want = use_act(|edit| Act::Want(Intent::Edit(edit)));
    let trouble = use_state(|| None::<AttrValue>);
    let onset = {
        let (read, trouble, value) = (props.read.clone(), trouble.clone(), props.value.clone());
        Callback::from(move |text: String| match read.emit(text.clone()) {
            Ok(_) if text == value.as_str() => trouble.set(None),
            Ok(edit) => {
                trouble.set(None);
                want.emit(edit);
            }
            Err(sentence) => trouble.set(Some(sentence.into())),
        })
    };
    html! {
        <Field label={props.label.clone()} value={props.value.clone()} kind={props.kind}
            trouble={(*trouble).clone()} {onset} />
    }
}
