//! What is begun and not yet part of the plan, and the name of what the pointer holds on to.

use borewright_core::desk::{Draft, Session};
use borewright_core::shape::{Point, Pos};
use yew::prelude::*;

/// What a [`DraftLayer`] draws.
#[derive(Properties, PartialEq)]
pub struct DraftLayerProps {
    /// The session with its draft and snap.
    pub session: Session,
    /// Millimetres to a pixel.
    pub scale: f64,
}

/// The draft.
#[component]
pub fn DraftLayer(props: &DraftLayerProps) -> Html {
    let lines = match &props.session.draft {
        Some(Draft::Walls { points, to } | Draft::Chain { points, to }) => {
            chain(points.iter().chain(to.iter()))
        }
        Some(Draft::Stretch { from, to, .. }) => chain([from, to].into_iter()),
        Some(Draft::Region { from, to }) => region(*from, *to),
        _ => String::new(),
    };
    html! {
        <g class="DraftLayer">
            <path class="DraftLine" d={lines} />
            { snap(props) }
        </g>
    }
}

fn chain<'a>(points: impl Iterator<Item = &'a Point>) -> String {
    let points: Vec<String> = points
        .map(|point| format!("{} {}", point.x, point.y))
        .collect();
    if points.is_empty() {
        String::new()
    } else {
        format!("M{}", points.join("L"))
    }
}

fn region(from: Point, to: Point) -> String {
    format!("M{} {}H{}V{}H{}Z", from.x, from.y, to.x, to.y, from.x)
}

fn snap(props: &DraftLayerProps) -> Html {
    let Some(snap) = &props.session.snap else {
        return html! {};
    };
    let at: Pos = snap.at.pos();
    let transform = format!("translate({} {}) scale({:.4})", at.x, at.y, props.scale);
    html! {
        <g class="Snap" {transform}>
            <path d="M-5 0H5M0 -5V5" />
            <text x="12" y="-10">{ snap.words() }</text>
        </g>
    }
}
