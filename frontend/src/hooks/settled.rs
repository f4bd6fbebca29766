//! A number once it has stopped changing.

use gloo::timers::callback::Timeout;
use yew::prelude::*;

/// How long it must stay the same, milliseconds.
const REST: u32 = 140;

/// The number as it was when it last rested: what is dear to draw waits until a hand has come to
/// rest.
#[hook]
pub fn use_settled(number: f64) -> f64 {
    let settled = use_state_eq(|| number);
    {
        let settled = settled.clone();
        use_effect_with(number.to_bits(), move |_| {
            let timer =
                (*settled != number).then(|| Timeout::new(REST, move || settled.set(number)));
            move || drop(timer)
        });
    }
    *settled
}
