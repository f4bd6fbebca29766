//! Something that is done as soon as the ways are improved, or at once where they are.

use yew::prelude::*;

use super::use_desk;

/// What waits, and how to ask for something or to let go of it.
pub type Awaited<T> = (Option<T>, Callback<Option<T>>);

/// Does what it is asked for with `act` once no better ways are awaited; gives what still waits.
#[hook]
pub fn use_awaited<T: Copy + PartialEq + 'static>(act: Callback<T>) -> Awaited<T> {
    let waits = use_desk().wants_better();
    use_awaited_while(waits, act)
}

/// The same as long as something `waits`.
#[hook]
pub fn use_awaited_while<T: Copy + PartialEq + 'static>(
    waits: bool,
    act: Callback<T>,
) -> Awaited<T> {
    let asked = use_state_eq(|| None::<T>);
    {
        let asked = asked.clone();
        use_effect_with((*asked, waits), move |(wish, waits)| {
            if let Some(wish) = wish.filter(|_| !waits) {
                asked.set(None);
                act.emit(wish);
            }
        });
    }
    let still = asked.filter(|_| waits);
    let ask = Callback::from(move |wish| asked.set(wish));
    (still, ask)
}
