//! Walls with their openings, and the names of rooms.

use std::rc::Rc;

use borewright_core::desk::Choice;
use borewright_core::plan::{Level, LevelId, Opening, OpeningKind, Plan, Wall};
use borewright_core::shape::{Pos, Segment};
use yew::prelude::*;

/// What a [`WallLayer`] draws.
#[derive(Properties)]
pub struct WallLayerProps {
    /// The plan.
    pub plan: Rc<Plan>,
    /// The level shown.
    pub level: LevelId,
    /// What is chosen.
    pub chosen: Option<Choice>,
}

impl PartialEq for WallLayerProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.plan, &other.plan)
            && (self.level, self.chosen) == (other.level, other.chosen)
    }
}

/// The walls of a level.
#[component]
pub fn WallLayer(props: &WallLayerProps) -> Html {
    let Some(level) = props.plan.level(props.level) else {
        return html! {};
    };
    let wall = |wall: &Wall| draw_wall(level, wall, props.chosen);
    let room = |room: &borewright_core::plan::Room| {
        let (x, y) = (room.at.x.to_string(), room.at.y.to_string());
        html! { <text key={room.id.0} class="RoomName" {x} {y}>{ &room.name }</text> }
    };
    html! {
        <g class="WallLayer">
            { for level.walls.iter().map(wall) }
            { for level.rooms.iter().map(room) }
        </g>
    }
}

fn draw_wall(level: &Level, wall: &Wall, chosen: Option<Choice>) -> Html {
    let Some(line) = wall.line() else {
        return html! {};
    };
    let half = wall.width().0 / 2.0;
    let openings = level.openings_of(wall.id);
    let is_chosen = (chosen == Some(Choice::Wall(wall.id))).to_string();
    let mut parts = Vec::new();
    let mut from = -half;
    for opening in &openings {
        parts.push(board(&line, (from, opening.offset.f64()), half));
        from = opening.offset.f64() + opening.width.f64();
    }
    parts.push(board(&line, (from, line.length + half), half));
    html! {
        <g key={wall.id.0} class="Wall" data-role={wall.role.name()} data-chosen={is_chosen}>
            <path d={parts.concat()} />
            { for openings.iter().map(|opening| draw_opening(&line, opening, half)) }
        </g>
    }
}

fn board(line: &Segment, (from, to): (f64, f64), half: f64) -> String {
    if to <= from {
        return String::new();
    }
    closed(&[
        line.at(from, -half),
        line.at(to, -half),
        line.at(to, half),
        line.at(from, half),
    ])
}

fn closed(corners: &[Pos]) -> String {
    let points: Vec<String> = corners
        .iter()
        .map(|c| format!("{:.1} {:.1}", c.x, c.y))
        .collect();
    format!("M{}Z", points.join("L"))
}

fn draw_opening(line: &Segment, opening: &Opening, half: f64) -> Html {
    let (from, to) = (
        opening.offset.f64(),
        opening.offset.f64() + opening.width.f64(),
    );
    let outline = board(line, (from, to), half);
    let glass = match opening.kind {
        OpeningKind::Window => {
            let (a, b) = (line.at(from, 0.0), line.at(to, 0.0));
            format!("M{:.1} {:.1}L{:.1} {:.1}", a.x, a.y, b.x, b.y)
        }
        _ => String::new(),
    };
    html! {
        <g key={opening.id.0} class="Opening-ink" data-kind={opening.kind.name()}>
            <path d={outline} />
            <path d={glass} />
        </g>
    }
}
