//! Tells when the drawing is on the screen for the first time.

use gloo::render::request_animation_frame;
use yew::prelude::*;

use crate::browser::clock;

/// Marks the moment `drawn` once the page is no longer opening.
#[hook]
pub fn use_drawn(opening: bool) {
    use_effect_with(opening, |opening| {
        if *opening {
            return;
        }
        // The first frame carries the drawing, and the second begins when it has been shown.
        std::mem::forget(request_animation_frame(|_| {
            std::mem::forget(request_animation_frame(|_| clock::mark("drawn")));
        }));
    });
}
