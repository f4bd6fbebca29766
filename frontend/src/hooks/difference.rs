//! How much a number has just changed, for a moment.

use gloo::timers::callback::Timeout;
use yew::prelude::*;

/// How long a difference is shown, milliseconds.
const MOMENT: u32 = 5000;

/// The difference to the number of a moment ago; `None` when it has not changed lately. Changes that
/// follow each other within the moment add up.
#[hook]
pub fn use_difference(number: i64) -> Option<i64> {
    let shown = use_state(|| None::<i64>);
    let before = use_mut_ref(|| number);
    {
        let shown = shown.clone();
        use_effect_with(number, move |now| {
            let earlier = before.replace(*now);
            let step = now - earlier;
            let clear = (step != 0).then(|| {
                shown.set(Some(step + shown.unwrap_or(0)));
                let shown = shown.clone();
                Timeout::new(MOMENT, move || shown.set(None))
            });
            move || drop(clear)
        });
    }
    (*shown).filter(|step| *step != 0)
}
