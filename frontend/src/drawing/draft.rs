//! What is begun and not yet part of the plan, and the name of what the pointer holds on to.

use std::rc::Rc;

use borewright_core::desk::{Draft, Session, closet_position};
use borewright_core::plan::{Opening, Plan, WallId};
use borewright_core::shape::{Point, Pos};
use borewright_core::units::Mm;
use yew::prelude::*;

use super::ink::chain;

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
    let plan = &props.session.plan;
    let lines = props
        .session
        .draft
        .as_ref()
        .map(|draft| lines(draft, plan))
        .unwrap_or_default();
    html! {
        <g class="DraftLayer">
            <path class="DraftLine" d={lines} />
            { points(props) }
            { length(props) }
            { snap(props) }
        </g>
    }
}

fn lines(draft: &Draft, plan: &Rc<Plan>) -> String {
    match draft {
        Draft::Walls { points, to } | Draft::Chain { points, to } => {
            let points: Vec<Pos> = points.iter().chain(to).map(|point| point.pos()).collect();
            chain(&points)
        }
        Draft::Stretch { from, to, .. } => chain(&[from.pos(), to.pos()]),
        Draft::Corners { points, .. } => {
            let corners: Vec<Pos> = points.iter().map(|point| point.pos()).collect();
            let closed = if corners.len() == 4 { "Z" } else { "" };
            format!("{}{closed}", chain(&corners))
        }
        Draft::Region { from, to } => {
            format!("M{} {}H{}V{}H{}Z", from.x, from.y, to.x, to.y, from.x)
        }
        Draft::AlongWall { wall, from, to } => stretch(plan, *wall, *from, *to),
        Draft::Opening(opening) => opening_lines(plan, opening),
        _ => String::new(),
    }
}

fn stretch(plan: &Plan, wall: WallId, from: Mm, to: Mm) -> String {
    let line = plan.wall(wall).and_then(|(_, wall)| wall.line());
    line.map(|line| chain(&[line.at(from.f64(), 0.0), line.at(to.f64(), 0.0)]))
        .unwrap_or_default()
}

fn opening_lines(plan: &Plan, opening: &Opening) -> String {
    let Some((_, wall)) = plan.wall(opening.wall) else {
        return String::new();
    };
    let Some(line) = wall.line() else {
        return String::new();
    };
    let (half, from) = (wall.width().0 / 2.0 + 40.0, opening.offset.f64());
    let to = from + opening.width.f64();
    let corners = [
        line.at(from, -half),
        line.at(to, -half),
        line.at(to, half),
        line.at(from, half),
    ];
    format!("{}Z", chain(&corners))
}

/// A mark at every tapped point, and at a place where something would land.
fn points(props: &DraftLayerProps) -> Html {
    let plan = &props.session.plan;
    let marks: Vec<Pos> = match &props.session.draft {
        Some(
            Draft::Walls { points, .. }
            | Draft::Chain { points, .. }
            | Draft::Corners { points, .. },
        ) => points.iter().map(|point| point.pos()).collect(),
        Some(Draft::Stretch { from, to, .. }) => vec![from.pos(), to.pos()],
        Some(Draft::Drop { place, .. }) => place.position(plan).into_iter().collect(),
        Some(Draft::Closet(closet)) => closet_position(plan, closet).into_iter().collect(),
        Some(Draft::Room { at }) => vec![at.pos()],
        _ => Vec::new(),
    };
    let big = matches!(
        props.session.draft,
        Some(Draft::Drop { .. } | Draft::Closet(_))
    );
    let radius = if big { 9.0 } else { 4.0 };
    let mark = |at: &Pos| {
        let r = format!("{:.1}", radius * props.scale);
        html! { <circle class="DraftPoint" cx={at.x.to_string()} cy={at.y.to_string()} {r} /> }
    };
    html! { <>{ for marks.iter().map(mark) }</> }
}

/// The length of the stretch being drawn, at its middle.
fn length(props: &DraftLayerProps) -> Html {
    let ends: Option<(Point, Point)> = match &props.session.draft {
        Some(
            Draft::Walls {
                points,
                to: Some(to),
            }
            | Draft::Chain {
                points,
                to: Some(to),
            },
        ) => points.last().map(|from| (*from, *to)),
        _ => None,
    };
    let Some((from, to)) = ends else {
        return html! {};
    };
    let words = props.session.plan.units.position(from.distance(to));
    let middle = (from.pos() + to.pos()) * 0.5;
    let lift = if (to.x - from.x).abs() >= (to.y - from.y).abs() {
        (0, -12)
    } else {
        (14, 4)
    };
    note(middle, lift, props.scale, "DraftLength", words)
}

fn snap(props: &DraftLayerProps) -> Html {
    let Some(snap) = &props.session.snap else {
        return html! {};
    };
    let (at, scale) = (snap.at.pos(), props.scale);
    let transform = format!("translate({} {}) scale({scale:.4})", at.x, at.y);
    html! {
        <>
            <path class="SnapMark" d="M-6 0H6M0 -6V6" {transform} />
            { note(at, (14, 26), scale, "SnapWords", snap.words()) }
        </>
    }
}

/// Words beside a place, the same size at every scale.
fn note(at: Pos, (dx, dy): (i32, i32), scale: f64, class: &'static str, words: String) -> Html {
    let transform = format!("translate({} {}) scale({scale:.4})", at.x, at.y);
    html! { <text {class} {transform} x={dx.to_string()} y={dy.to_string()}>{ words }</text> }
}
