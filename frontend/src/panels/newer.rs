//! Says calmly that a newer release of the page is there, and takes it over at a press.

use yew::prelude::*;

use crate::browser::offline::{self, Newer};
use crate::parts::{Press, PressKind};

/// A strip above everything, which covers nothing; nothing as long as there is no newer release.
#[component]
pub fn NewerRelease() -> Html {
    let newer = use_state_eq(|| None::<Newer>);
    {
        let newer = newer.setter();
        use_effect_with((), move |()| {
            offline::register(move |told| newer.set(Some(told)));
        });
    }
    let later = {
        let newer = newer.setter();
        Callback::from(move |()| newer.set(None))
    };
    let Some(told) = *newer else {
        return html! {};
    };
    let (words, press, onpress) = match told {
        Newer::Waits => (
            "A newer version of this page is on this device. Your jobs stay as they are.",
            "Take it over",
            Callback::from(|()| offline::take_over()),
        ),
        Newer::TookOver => (
            "A newer version of this page was taken over in another window.",
            "Load this one again",
            Callback::from(|()| offline::reload()),
        ),
    };
    html! {
        <div class="NewerRelease" role="status">
            <p>{ words }</p>
            <Press label={press} kind={PressKind::Main} {onpress} />
            <Press label="Later" onpress={later} />
        </div>
    }
}
