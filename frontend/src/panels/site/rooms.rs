//! The boxes by level and room, clockwise from the door, for one part of the work.

use std::rc::Rc;

use borewright_core::plan::Plan;
use borewright_core::schedule::{Phase, RoomRow, room_list};
use yew::prelude::*;

use super::card::{Card, Next};
use crate::hooks::{use_act, use_desk};
use crate::parts::Tick;
use crate::state::{Act, SiteLook};

#[derive(Properties, PartialEq)]
pub struct RoomsProps {
    /// The part of the work.
    pub phase: Phase,
}

/// Every drop the part of the work asks something of.
#[component]
pub fn Rooms(props: &RoomsProps) -> Html {
    let desk = use_desk();
    let (plan, design, phase) = (&desk.session.plan, &desk.session.design, props.phase);
    let key = (Rc::as_ptr(plan), Rc::as_ptr(design));
    let look = desk.site;
    let rows = use_memo(key, |_| room_list(plan, &design.framing));
    let plan: &Plan = plan;
    let asked: Vec<&RoomRow> = rows.iter().filter(|row| asks(plan, row, phase)).collect();
    let next = asked.iter().find(|row| is_open(plan, row, phase));
    let shown: Vec<RoomRow> = asked
        .iter()
        .filter(|row| !look.left_only || is_open(plan, row, phase))
        .map(|row| (*row).clone())
        .collect();
    let onset = use_act(move |left_only| Act::Look(SiteLook { left_only, ..look }));
    html! {
        <>
            <p class="Quiet">{ words(phase) }</p>
            <div class="SiteNext">
                if let Some(row) = next { <Next id={row.drop} words={next_words(plan, row)} /> }
                <Tick label="Only what is left" ticked={look.left_only} {onset} />
            </div>
            { for groups(plan, &shown).into_iter().map(|(title, rows)| group(title, rows, phase)) }
        </>
    }
}

/// What is done in this part, in a sentence.
fn words(phase: Phase) -> &'static str {
    match phase {
        Phase::RoughIn => "Boxes set, cables pulled and labelled on both ends.",
        Phase::Protection => {
            "Before cover: cable tucked back and the box closed, a picture taken. Steel and seals, bore by bore, stand on the protection sheet. Pictures stay in your camera: here only the tick is kept, and where they are."
        }
        Phase::TrimOut => {
            "After paint: find the box by its two offsets and height, terminate both ends, put the plate or the device on."
        }
        _ => {
            "Wiremap, or continuity on coaxial cable. A tester reads the path and the slack at both ends, so that is what is planned here."
        }
    }
}

fn asks(plan: &Plan, row: &RoomRow, phase: Phase) -> bool {
    let drop = plan.drop(row.drop);
    drop.is_some_and(|drop| !phase.ticks(drop).is_empty())
}

fn is_open(plan: &Plan, row: &RoomRow, phase: Phase) -> bool {
    let drop = plan.drop(row.drop);
    drop.is_some_and(|drop| !phase.at(plan, drop).is_done())
}

fn next_words(plan: &Plan, row: &RoomRow) -> String {
    let name = plan.drop(row.drop).map(|drop| drop.label());
    format!("{}, {}", name.unwrap_or_default(), row.heading(plan))
}

/// Rows under their level and room, in the order of the list.
fn groups(plan: &Plan, rows: &[RoomRow]) -> Vec<(String, Vec<RoomRow>)> {
    let mut groups: Vec<(String, Vec<RoomRow>)> = Vec::new();
    for row in rows {
        let title = row.heading(plan);
        match groups.last_mut() {
            Some((last, of)) if *last == title => of.push(row.clone()),
            _ => groups.push((title, vec![row.clone()])),
        }
    }
    groups
}

fn group(title: String, rows: Vec<RoomRow>, phase: Phase) -> Html {
    let card = |row: RoomRow| {
        let key = row.drop.0;
        html! { <Card {key} {row} {phase} /> }
    };
    html! {
        <section class="SiteRoom" key={title.clone()} aria-label={title.clone()}>
            <h3>{ &title }</h3>
            <ul>{ for rows.into_iter().map(card) }</ul>
        </section>
    }
}
