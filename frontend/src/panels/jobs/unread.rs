//! Bytes kept before there were jobs that this program cannot read, or not all of them.

use std::rc::Rc;

use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use crate::browser::{files, jobs};
use crate::panels::icons;
use crate::parts::Press;

/// A press for each of them, to save it as it is; nothing where there is none.
#[component]
pub fn Unread() -> Html {
    let unread = use_state(|| Rc::new(Vec::<Vec<u8>>::new()));
    {
        let unread = unread.clone();
        use_effect_with((), move |()| {
            spawn_local(async move {
                // A storage that cannot be read is told of above.
                if let Ok(found) = jobs::unread().await {
                    unread.set(Rc::new(found));
                }
            });
        });
    }
    let press = |(place, bytes): (usize, &Vec<u8>)| {
        let bytes = bytes.clone();
        let onpress = Callback::from(move |()| {
            files::save("unread.borewright.json", "application/octet-stream", &bytes);
        });
        let label = format!("Save the unread plan {} as it is", place + 1);
        html! { <Press key={place} {label} icon={icons::SAVE} {onpress} /> }
    };
    if unread.is_empty() {
        return html! {};
    }
    html! {
        <section class="JobsUnread" aria-label="Unread plans">
            <p>{ "A plan kept on this device could not be read, or not all of it. Its bytes are here as they are." }</p>
            { for unread.iter().enumerate().map(press) }
        </section>
    }
}
