//! Where cables are pinned, with a press that takes each pin off.

use borewright_core::framing::pin_words;
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{CableId, Pin};
use yew::prelude::*;

use super::use_edit;
use crate::hooks::use_desk;
use crate::panels::icons;
use crate::parts::{Figures, Icon};

/// Whose pins.
#[derive(Properties, PartialEq)]
pub struct PinsProps {
    /// The cables.
    pub cables: Vec<CableId>,
    /// Whether each line names its cable.
    #[prop_or_default]
    pub named: bool,
}

/// The pins of some cables; nothing where there are none.
#[component]
pub fn Pins(props: &PinsProps) -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let plan = desk.session.shown_plan();
    let framing = &desk.session.shown_design().framing;
    let line = |pin: &Pin| {
        let Pin::Cable { cable, to } = *pin else {
            return None;
        };
        props.cables.contains(&cable).then(|| {
            let pin = *pin;
            let onclick = edit.reform(move |_: MouseEvent| Edit::RemovePin(pin));
            let label = plan.cable_label(cable);
            let place = pin_words(plan, framing, to);
            let words = match props.named {
                true => format!("{label} goes by {place}"),
                false => format!("Goes by {place}"),
            };
            html! {
                <li class="PinLine" key={format!("{pin:?}")}>
                    <span><Figures text={words} /></span>
                    <button class="Small" type="button" aria-label={format!("Take the pin of {label} off {place}")} {onclick}>
                        <Icon lines={icons::CLOSE} />
                    </button>
                </li>
            }
        })
    };
    let lines: Vec<Html> = plan.pins.iter().filter_map(line).collect();
    if lines.is_empty() {
        return html! {};
    }
    html! { <ul class="Pins" aria-label="Pins">{ for lines }</ul> }
}
