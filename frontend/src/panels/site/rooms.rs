//! The boxes by level and room, clockwise from the door, for one part of the work: as many as are
//! drawn in a moment, and the way to all others.

use std::rc::Rc;

use borewright_core::desk::LINES_AT_ONCE;
use borewright_core::plan::{DropId, Plan};
use borewright_core::schedule::{Phase, RoomRow, room_list};
use gloo::timers::callback::Timeout;
use yew::prelude::*;

use super::card::{Card, Next, card_of};
use crate::browser::focus;
use crate::hooks::{use_act, use_desk};
use crate::panels::stretch::{Earlier, Later, Shown};
use crate::parts::{Search, Tick};
use crate::state::{Act, SiteLook};

/// A card takes so many lines beside those of its cables.
const LINES_OF_CARD: usize = 1;

/// So many lines are drawn in one go, and so many milliseconds later the next: the page answers in between.
const LINES_IN_ONE_GO: usize = 40;
const PAUSE: u32 = 16;

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
    let part = use_part();
    let asked: Vec<&RoomRow> = rows.iter().filter(|row| asks(plan, row, phase)).collect();
    let next = asked.iter().find(|row| is_open(plan, row, phase));
    let listed = asked.iter().copied();
    let listed = listed.filter(|row| !look.left_only || is_open(plan, row, phase));
    let listed: Vec<&RoomRow> = listed.collect();
    let next = next.map(|row| {
        let place = listed.iter().position(|other| other.drop == row.drop);
        let (part, drop) = (part.clone(), row.drop);
        let onshow = Callback::from(move |()| part.bring(place.unwrap_or_default(), drop));
        html! { <Next words={next_words(plan, row)} {onshow} /> }
    });
    let onset = use_act(move |left_only| Act::Look(SiteLook { left_only, ..look }));
    html! {
        <>
            <p class="Quiet">{ words(phase) }</p>
            <div class="SiteNext">
                { next }
                <Tick label="Only what is left" ticked={look.left_only} {onset} />
            </div>
            { list(plan, &listed, &part, phase) }
        </>
    }
}

/// The part of the list that is shown, with the ways to the others where it is not all.
fn list(plan: &Plan, listed: &[&RoomRow], part: &Part, phase: Phase) -> Html {
    let search = part.search.trim();
    let found = listed.iter().copied();
    let found = found.filter(|row| search.is_empty() || row.answers(plan, search));
    let found: Vec<&RoomRow> = found.collect();
    let shown = Shown::of(&lines(&found), *part.first);
    let here = found.get(shown.range.clone()).unwrap_or_default();
    let here = drawn_by_now(here, *part.room);
    let onshow = {
        let part = part.clone();
        let drops: Vec<DropId> = found.iter().map(|row| row.drop).collect();
        Callback::from(move |place: usize| {
            let drop = drops.get(place);
            drop.into_iter().for_each(|drop| part.show(place, *drop));
        })
    };
    let onsearch = {
        let part = part.clone();
        Callback::from(move |text: String| part.seek(text))
    };
    html! {
        <>
            if !Shown::of(&lines(listed), 0).is_all() {
                <Search key={*part.emptied} label="Find a drop" {onsearch} />
            }
            if found.is_empty() && !listed.is_empty() {
                <p role="status">{ format!("No drop here has “{search}” in its name, its room, its cables or its note.") }</p>
            }
            <Earlier shown={shown.clone()} one="drop" onshow={onshow.clone()} />
            // One node, however many rooms there are: what stands before them, the field one types in, is
            // found by its place among its neighbours.
            <>{ for groups(plan, here).into_iter().map(|(title, rows)| group(title, rows, phase)) }</>
            <Later {shown} {onshow} />
        </>
    }
}

fn lines(rows: &[&RoomRow]) -> Vec<usize> {
    rows.iter().map(|row| lines_of(row)).collect()
}

fn lines_of(row: &RoomRow) -> usize {
    LINES_OF_CARD + row.cables.len()
}

/// The rows that fit into so many lines, the last one perhaps in part.
fn drawn_by_now<'r, 's>(rows: &'s [&'r RoomRow], room: usize) -> &'s [&'r RoomRow] {
    let mut taken = 0;
    let fit = rows.iter().take_while(|row| {
        let fits = taken < room;
        taken += lines_of(row);
        fits
    });
    rows.get(..fit.count()).unwrap_or(rows)
}

/// Which part of the list is shown.
#[derive(Clone)]
struct Part {
    search: UseStateHandle<String>,
    /// How often the search was emptied by the page.
    emptied: UseStateHandle<u32>,
    first: UseStateHandle<usize>,
    /// So many lines of it are drawn by now.
    room: UseStateHandle<usize>,
    /// The drop whose card is to be brought into sight, and how often that was asked.
    goal: UseStateHandle<(u32, Option<DropId>)>,
}

#[hook]
fn use_part() -> Part {
    let part = Part {
        search: use_state_eq(String::new),
        emptied: use_state_eq(|| 0),
        first: use_state_eq(|| 0),
        room: use_state_eq(|| 0),
        goal: use_state_eq(|| (0, None)),
    };
    {
        let room = part.room.clone();
        use_effect_with(*room, move |now| {
            let more = *now + LINES_IN_ONE_GO;
            // A card is begun as long as there is room, so that this much more draws every one of them.
            let is_all = *now > LINES_AT_ONCE;
            let timer = (!is_all).then(|| Timeout::new(PAUSE, move || room.set(more)));
            move || drop(timer)
        });
    }
    // What is sought is first among what is drawn.
    let is_drawn = *part.room > 0;
    use_effect_with((*part.goal, is_drawn), |((_, goal), is_drawn)| {
        let goal = goal.filter(|_| *is_drawn);
        goal.iter().for_each(|drop| focus::go_to(&card_of(*drop)));
    });
    part
}

impl Part {
    fn seek(&self, text: String) {
        self.search.set(text);
        self.first.set(0);
        self.room.set(LINES_IN_ONE_GO);
    }

    /// Shows the list from a place on, which is that of a drop.
    fn show(&self, place: usize, drop: DropId) {
        self.first.set(place);
        self.room.set(LINES_IN_ONE_GO);
        self.goal.set((self.goal.0 + 1, Some(drop)));
    }

    /// Brings a drop into sight, wherever it is in the whole list.
    fn bring(&self, place: usize, drop: DropId) {
        if !self.search.is_empty() {
            self.search.set(String::new());
            self.emptied.set(*self.emptied + 1);
        }
        self.show(place, drop);
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
fn groups(plan: &Plan, rows: &[&RoomRow]) -> Vec<(String, Vec<RoomRow>)> {
    let mut groups: Vec<(String, Vec<RoomRow>)> = Vec::new();
    for row in rows {
        let title = row.heading(plan);
        match groups.last_mut() {
            Some((last, of)) if *last == title => of.push((*row).clone()),
            _ => groups.push((title, vec![(*row).clone()])),
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
        <section class="SiteRoom" key={rows.first().map_or(0, |row| row.drop.0)} aria-label={title.clone()}>
            <h3>{ &title }</h3>
            <ul>{ for rows.into_iter().map(card) }</ul>
        </section>
    }
}
