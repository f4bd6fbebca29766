//! Keeps the step that one is at in sight where the steps do not all fit.

use borewright_core::desk::Step;
use yew::prelude::*;

use crate::browser::focus;

/// Scrolls the row of steps to the current one whenever it changes.
#[hook]
pub fn use_current_in_sight(step: Step) {
    use_effect_with(step, |_| {
        focus::bring_into_sight(".StepButton[aria-current]");
    });
}
