//! What a number was before it just changed, for a moment.

use gloo::timers::callback::Timeout;
use yew::prelude::*;

/// How long a difference is shown, milliseconds.
const MOMENT: u32 = 5000;

/// The number before the changes of a moment ago; `None` when it has not changed lately. Changes that
/// follow each other within the moment count from the first. A number of another job is not a
/// change of this one's.
#[hook]
pub fn use_before(number: i64, job: u32) -> Option<i64> {
    let shown = use_state(|| None::<i64>);
    let last = use_mut_ref(|| (number, job));
    {
        let shown = shown.clone();
        use_effect_with((number, job), move |now| {
            let (number, of) = last.replace(*now);
            let changed = number != now.0 && of == now.1;
            let clear = changed.then(|| {
                shown.set(Some(shown.unwrap_or(number)));
                let shown = shown.clone();
                Timeout::new(MOMENT, move || shown.set(None))
            });
            if of != now.1 {
                shown.set(None);
            }
            move || drop(clear)
        });
    }
    (*shown).filter(|before| *before != number)
}
