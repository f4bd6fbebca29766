//! What follows from a plan is worked out some times before the first drag. A browser compiles a
//! function well only after it has run a while, and until then a frame takes twice as long; better
//! while nobody's hand waits for it. What is worked out is thrown away.

use std::hint::black_box;
use std::rc::Rc;

use borewright_core::design::{Design, Effort, Load};
use borewright_core::picture::{self, Showing, Stress};
use gloo::timers::future::TimeoutFuture;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use crate::state::Desk;

/// So often; Chromium's slow frames were the first eight or so of a drag.
const TIMES: u32 = 16;

/// Rehearses a drag once for each job on the table, as soon as the worker is done with its ways.
#[hook]
pub fn use_rehearsal(desk: &Rc<Desk>) {
    let has_ways = desk.session.design.effort == Effort::Long;
    let may = !desk.opening && !desk.session.read_only;
    let is_ready = has_ways && may && Load::of(&desk.session.plan).is_light();
    let desk = Rc::clone(desk);
    // Better ways come home after every edit; the job is rehearsed after the first.
    let rehearsed = use_mut_ref(|| None);
    use_effect_with((desk.job, is_ready), move |(job, is_ready)| {
        if *is_ready && rehearsed.replace(Some(*job)) != Some(*job) {
            spawn_local(rehearse(desk));
        }
    });
}

/// Frame by frame, so that a tap meanwhile waits no longer than one of them.
async fn rehearse(desk: Rc<Desk>) {
    let session = &desk.session;
    let showing = Showing {
        frame: desk.in_sight(),
        ..Showing::on_screen(desk.view.scale, Stress::Ways)
    };
    for _ in 0..TIMES {
        TimeoutFuture::new(0).await;
        let design = Design::again(&session.design, &session.plan, &session.plan);
        black_box(picture::level(
            &session.plan,
            &design,
            session.level,
            &showing,
        ));
    }
}
