//! What the signer keeps of a reply.

use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use crate::browser::clipboard;
use crate::parts::{Press, PressKind};

#[derive(Properties, PartialEq)]
pub struct ReceiptPartProps {
    /// Its text.
    pub receipt: String,
}

/// The receipt of the last reply, to read and to copy.
#[component]
pub fn ReceiptPart(props: &ReceiptPartProps) -> Html {
    let copied = use_state_eq(|| None::<bool>);
    let copy = {
        let (copied, receipt) = (copied.clone(), props.receipt.clone());
        Callback::from(move |()| {
            let (copied, receipt) = (copied.clone(), receipt.clone());
            spawn_local(async move { copied.set(Some(clipboard::copy(&receipt).await)) });
        })
    };
    let words = match *copied {
        None => "What you signed, as it was shown. Keep a copy of your own.",
        Some(true) => "The receipt is on the clipboard.",
        Some(false) => "The clipboard is closed here. Select the receipt and copy it.",
    };
    html! {
        <section aria-label="Receipt">
            <h3>{ "Receipt" }</h3>
            <p role="status">{ words }</p>
            <Press label="Copy the receipt" kind={PressKind::Quiet} onpress={copy} />
            <label class="Field">
                <span class="FieldLabel">{ "Receipt" }</span>
                <textarea rows="6" readonly=true value={props.receipt.clone()} />
            </label>
        </section>
    }
}
