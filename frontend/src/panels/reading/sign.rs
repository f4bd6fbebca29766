//! Signing what was said, and the link that carries it back.

use std::rc::Rc;

use borewright_core::agreement::{Matter, NAME_CAUTION, Standing, receipt};
use borewright_core::file::link::{self, LinkError};
use borewright_core::plan::{Answer, Plan, Reply, Said};
use borewright_core::units::counted;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use super::Answers;
use super::receipt::ReceiptPart;
use crate::browser::draft::{self, Draft};
use crate::browser::{address, clipboard, clock};
use crate::hooks::use_desk;
use crate::parts::{Field, Press, PressKind};

#[derive(Properties, PartialEq)]
pub struct SignProps {
    /// Every item and how it stood.
    pub standings: Rc<Vec<(Matter, Standing)>>,
    /// What was said.
    pub answers: Rc<Answers>,
}

/// The last part: name and link.
#[component]
pub fn Sign(props: &SignProps) -> Html {
    let desk = use_desk();
    let name = use_state_eq(String::new);
    let made = use_state(|| None::<Result<String, String>>);
    let signed = use_state(|| kept_receipt(&desk.session.plan));
    let answers = answers(&props.standings, &props.answers);
    let count = |is_meant: fn(&Said) -> bool| answers.iter().filter(|a| is_meant(&a.said)).count();
    let (agreed, asked) = (
        count(|said| *said == Said::Agreed),
        count(|said| *said != Said::Agreed),
    );
    let words = format!(
        "{agreed} agreed, {} asked, of {}.",
        counted(asked, "question"),
        counted(props.standings.len(), "item")
    );
    // A link made before is not about what was said since.
    {
        let made = made.clone();
        use_effect_with((answers.clone(), (*name).clone()), move |_| made.set(None));
    }
    let onmake = {
        let (made, name, plan) = (made.clone(), name.clone(), desk.session.plan.clone());
        let (signed, standings) = (signed.clone(), props.standings.clone());
        Callback::from(move |()| {
            let reply = reply(&plan, &name, answers.clone());
            if let Ok(reply) = &reply {
                signed.set(Some(receipt_of(&plan, &standings, reply)));
            }
            made.set(Some(reply.and_then(|reply| spelled(&reply))));
        })
    };
    let onset = {
        let name = name.clone();
        Callback::from(move |text: String| name.set(text.trim().to_string()))
    };
    html! {
        <section class="ReadingSign" aria-label="Sign">
            <h2>{ "Sign" }</h2>
            <p role="status">{ words }</p>
            <Field label="Your name" value={(*name).clone()} {onset} />
            <p class="Quiet">{ format!("A {NAME_CAUTION}: your reply shows what you typed, and no more.") }</p>
            <Press label="Make the reply" kind={PressKind::Main} onpress={onmake} />
            { match &*made {
                None => html! {},
                Some(Err(sentence)) => html! { <p role="alert">{ sentence }</p> },
                Some(Ok(link)) => html! { <Made link={link.clone()} /> },
            } }
            if let Some(receipt) = &*signed { <ReceiptPart receipt={receipt.clone()} /> }
            <p class="Quiet">
                { "What you agree to is what is shown here. If anything of it changes later, it counts as not yet agreed. No line of this replaces a permit, an inspection or a licensed trade." }
            </p>
        </section>
    }
}

/// Answers to items that are settled, each with what the item says now.
fn answers(standings: &[(Matter, Standing)], said: &Answers) -> Vec<Answer> {
    let settled = standings
        .iter()
        .filter(|(_, standing)| *standing != Standing::Unsettled);
    let answer = |(matter, _): &(Matter, Standing)| {
        Some(Answer {
            item: matter.item,
            digest: matter.digest,
            said: said.of(matter.item)?.clone(),
        })
    };
    settled.filter_map(answer).collect()
}

/// A signed reply, or what is missing.
fn reply(plan: &Plan, name: &str, answers: Vec<Answer>) -> Result<Reply, String> {
    if answers.is_empty() {
        return Err(String::from(
            "Nothing is answered yet. Agree to an item or ask about one first.",
        ));
    }
    if name.is_empty() {
        return Err(String::from(
            "A reply needs a name. Type yours, then make it again.",
        ));
    }
    Ok(Reply {
        name: name.to_string(),
        date: clock::now(),
        revision: plan.revision,
        job: plan.title.clone(),
        version: link::version(plan),
        answers,
    })
}

/// The receipt of a reply, kept on this device too.
fn receipt_of(plan: &Plan, standings: &[(Matter, Standing)], reply: &Reply) -> String {
    let matters: Vec<Matter> = standings.iter().map(|(m, _)| m.clone()).collect();
    let receipt = receipt(plan, &matters, reply);
    if let Some(code) = reply.version.code() {
        draft::write(Draft::Receipt, &code, &receipt);
    }
    receipt
}

/// The receipt of the last reply to this plan, if this device keeps one.
fn kept_receipt(plan: &Plan) -> Option<String> {
    draft::read(Draft::Receipt, &link::version(plan).code()?)
}

/// The link of a reply.
fn spelled(reply: &Reply) -> Result<String, String> {
    let bytes = link::write_reply(reply).map_err(|error: LinkError| error.to_string())?;
    Ok(address::with_fragment(&link::encode_text(&bytes)))
}

#[derive(Properties, PartialEq)]
struct MadeProps {
    link: String,
}

/// The finished link.
#[component]
fn Made(props: &MadeProps) -> Html {
    let copied = use_state_eq(|| None::<bool>);
    let copy = {
        let (copied, link) = (copied.clone(), props.link.clone());
        Callback::from(move |()| {
            let (copied, link) = (copied.clone(), link.clone());
            spawn_local(async move { copied.set(Some(clipboard::copy(&link).await)) });
        })
    };
    let words = match *copied {
        None => "Copy it into a message to the contractor who sent you the plan.",
        Some(true) => "The reply is on the clipboard. Paste it into a message to the contractor.",
        Some(false) => "The clipboard is closed here. Select the reply and copy it.",
    };
    html! {
        <>
            <p role="status">{ words }</p>
            <Press label="Copy the reply" kind={PressKind::Main} onpress={copy} />
            <label class="Field">
                <span class="FieldLabel">{ "Reply" }</span>
                <textarea rows="3" readonly=true value={props.link.clone()} />
            </label>
        </>
    }
}
