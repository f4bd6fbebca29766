//! A field for a length, read in every way people write one.

use borewright_core::units::{Mm, read_length};
use yew::prelude::*;

use crate::hooks::use_desk;
use crate::parts::{Field, FieldKind};

/// What a [`LengthField`] shows and does.
#[derive(Properties, PartialEq)]
pub struct LengthFieldProps {
    /// Its label.
    pub label: AttrValue,
    /// The length as it stands.
    pub value: Mm,
    /// Whether it is a height, shown in inches, rather than a length in feet and inches.
    #[prop_or_default]
    pub height: bool,
    /// Called with another length.
    pub onset: Callback<Mm>,
}

/// A length; what cannot be read is said below it and changes nothing.
#[component]
pub fn LengthField(props: &LengthFieldProps) -> Html {
    let units = use_desk().session.plan.units;
    let trouble = use_state(|| None::<AttrValue>);
    let onset = {
        let (set, trouble, value) = (props.onset.clone(), trouble.clone(), props.value);
        Callback::from(move |text: String| match read_length(&text, units) {
            Ok(length) => {
                trouble.set(None);
                if length != value {
                    set.emit(length);
                }
            }
            Err(error) => trouble.set(Some(error.to_string().into())),
        })
    };
    let value = if props.height {
        units.height(props.value)
    } else {
        units.position(props.value)
    };
    html! {
        <Field label={props.label.clone()} {value} kind={FieldKind::Figure} trouble={(*trouble).clone()} {onset} />
    }
}
