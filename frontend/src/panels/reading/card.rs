//! One item to agree to or to ask about.

use borewright_core::agreement::{Matter, Standing};
use borewright_core::plan::Said;
use yew::prelude::*;

use super::Say;
use crate::parts::{Field, FieldKind, Figures};

#[derive(Clone, Properties, PartialEq)]
pub struct CardProps {
    /// What it says.
    pub matter: Matter,
    /// How it stood when the link was made.
    pub standing: Standing,
    /// What the reader said of it.
    pub said: Option<Said>,
    /// Says something of it.
    pub say: Callback<Say>,
}

/// An item with its lines and its two answers.
#[component]
pub fn Card(props: &CardProps) -> Html {
    let matter = &props.matter;
    let name = &matter.name;
    let answered = match &props.said {
        None => "none",
        Some(Said::Agreed) => "agreed",
        Some(Said::Asked(_)) => "asked",
    };
    html! {
        <li class="Card" data-answer={answered} aria-label={name.clone()}>
            <p class="CardHead"><b>{ name }</b>{ " " }<span>{ &matter.what }</span></p>
            { for matter.says.iter().map(|line| html! { <p><Figures text={line.clone()} /></p> }) }
            if props.standing != Standing::Open {
                <p class="CardStanding">{ props.standing.words() }</p>
            }
            if props.standing != Standing::Unsettled { <Presses ..props.clone() /> }
        </li>
    }
}

/// "Agree" and "Ask"; a second tap takes the answer back.
#[component]
fn Presses(props: &CardProps) -> Html {
    let asking = use_state_eq(|| false);
    let (item, name) = (props.matter.item, &props.matter.name);
    let is_agreed = props.said == Some(Said::Agreed);
    let question = match &props.said {
        Some(Said::Asked(question)) => Some(question.clone()),
        _ => None,
    };
    let asks = *asking || question.is_some();
    let agree = {
        let asking = asking.clone();
        props.say.reform(move |_: MouseEvent| {
            asking.set(false);
            vec![(item, (!is_agreed).then_some(Said::Agreed))]
        })
    };
    let ask = {
        let asking = asking.clone();
        props.say.reform(move |_: MouseEvent| {
            asking.set(!asks);
            vec![(item, None)]
        })
    };
    let onset = props.say.reform(move |text: String| {
        let text = text.trim().to_string();
        vec![(item, (!text.is_empty()).then_some(Said::Asked(text)))]
    });
    html! {
        <>
            <div class="CardPresses">
                <button type="button" class="Press" data-kind="plain" aria-pressed={is_agreed.to_string()}
                    aria-label={format!("Agree to {name}")} onclick={agree}>
                    { if is_agreed { "Agreed" } else { "Agree" } }
                </button>
                <button type="button" class="Press" data-kind="plain" aria-pressed={asks.to_string()}
                    aria-label={format!("Ask about {name}")} onclick={ask}>{ "Ask" }</button>
            </div>
            if asks {
                <Field label={format!("Your question about {name}")} kind={FieldKind::Lines}
                    value={question.unwrap_or_default()} {onset} />
            }
        </>
    }
}
