//! The drawing under the plan, faded as far as the person wants.

use std::sync::Arc;

use borewright_core::desk::Notice;
use borewright_core::plan::{Placing, Scan};
use yew::prelude::*;

use crate::browser::files;
use crate::hooks::use_dispatcher;
use crate::state::Act;

/// What is said when the browser cannot make a picture of the bytes.
const BROKEN: &str = "The drawing under this level cannot be shown: its file is damaged. The walls are whole; put the drawing under them again from its file.";

/// What a [`ScanLayer`] draws.
#[derive(Properties)]
pub struct ScanLayerProps {
    /// The picture.
    pub scan: Arc<Scan>,
    /// How it lies.
    pub placing: Placing,
    /// How much of it shows, per cent.
    pub fade: u8,
}

impl PartialEq for ScanLayerProps {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.scan, &other.scan)
            && (self.placing, self.fade) == (other.placing, other.fade)
    }
}

/// The picture under a level.
#[component]
pub fn ScanLayer(props: &ScanLayerProps) -> Html {
    let scan = &props.scan;
    let url = use_memo(Arc::as_ptr(scan), |_| {
        files::address(&scan.media_type, &scan.bytes)
    });
    let broken = use_state_eq(|| None::<*const Scan>);
    let onerror = {
        let (broken, dispatcher) = (broken.clone(), use_dispatcher());
        let this = Arc::as_ptr(scan);
        Callback::from(move |_: Event| {
            broken.set(Some(this));
            dispatcher.dispatch(Act::Say(Notice::refused(BROKEN, None)));
        })
    };
    if *broken == Some(Arc::as_ptr(scan)) {
        return html! {};
    }
    let placing = &props.placing;
    let (cos, sin) = (
        placing.turn.0 * placing.scale,
        placing.turn.1 * placing.scale,
    );
    let (x, y) = placing.origin;
    html! {
        <image class="ScanLayer" role="img" aria-label="Scan" href={url.to_string()} {onerror}
            width={scan.width.to_string()} height={scan.height.to_string()}
            transform={format!("matrix({cos} {sin} {} {cos} {x} {y})", -sin)}
            opacity={format!("{:.2}", f64::from(props.fade) / 100.0)} />
    }
}
