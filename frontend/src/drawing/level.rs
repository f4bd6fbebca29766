//! The ink of one level: walls, drops, ways and bores, as the step stresses them.

use std::rc::Rc;

use borewright_core::design::Design;
use borewright_core::desk::{Choice, Step};
use borewright_core::picture::{self, About, Ink, Picture, Showing, Stress};
use borewright_core::plan::{LevelId, Plan};
use borewright_core::schedule::Phase;
use borewright_core::shape::Pos;
use yew::prelude::*;

use super::chosen::chosen_ways;
use super::ink::PictureInk;

/// What a [`LevelLayer`] draws.
#[derive(Properties)]
pub struct LevelLayerProps {
    /// The plan.
    pub plan: Rc<Plan>,
    /// What follows from it.
    pub design: Rc<Design>,
    /// The level shown, and what of it is stressed.
    pub shown: (LevelId, Stress),
    /// Names stay within these corners where they can, millimetres of the house.
    pub frame: Option<(Pos, Pos)>,
    /// What is chosen.
    pub chosen: Option<Choice>,
    /// Millimetres to a pixel.
    pub scale: f64,
}

impl PartialEq for LevelLayerProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.plan, &other.plan)
            && Rc::ptr_eq(&self.design, &other.design)
            && (self.shown, self.frame) == (other.shown, other.frame)
            && (self.chosen, self.scale) == (other.chosen, other.scale)
    }
}

/// A level in ink.
#[component]
pub fn LevelLayer(props: &LevelLayerProps) -> Html {
    let (level, stress) = props.shown;
    let identity = (Rc::as_ptr(&props.plan), Rc::as_ptr(&props.design));
    let sizes = (props.frame, props.scale);
    let picture = use_memo((identity, level, stress, sizes), |_| {
        let showing = Showing {
            frame: props.frame,
            ..Showing::on_screen(props.scale, stress)
        };
        picture::level(&props.plan, &props.design, level, &showing)
    });
    let chosen = props.chosen.and_then(about);
    let (turn, end) = (first_symbol(&picture), picture.items.len());
    let ways = chosen_ways(&props.plan, &props.design, level, props.chosen);
    html! {
        <g class="LevelLayer">
            <PictureInk picture={picture.clone()} part={(0, turn)} {chosen} />
            <path class="ChosenWay" d={ways} />
            <PictureInk {picture} part={(turn, end)} {chosen} />
        </g>
    }
}

/// Where the symbols begin, which lie over every line.
fn first_symbol(picture: &Picture) -> usize {
    let is_symbol = |ink| matches!(ink, Ink::Closet | Ink::Drop | Ink::Bore | Ink::BoreRing);
    let first = picture.items.iter().position(|item| is_symbol(item.ink));
    first.unwrap_or(picture.items.len())
}

/// What a step stresses, and on site which part of the work.
pub fn stress(step: Step, phase: Phase) -> Stress {
    match step {
        Step::Drawing => Stress::Drawing,
        Step::Framing => Stress::Framing,
        Step::Drops => Stress::Drops,
        Step::Ways | Step::Sheets => Stress::Ways,
        Step::Site => Stress::Site(phase),
    }
}

/// What of a picture a choice is.
pub fn about(choice: Choice) -> Option<About> {
    Some(match choice {
        Choice::Drop(id) => About::Drop(id),
        Choice::Closet => About::Closet,
        Choice::Opening(id) => About::Opening(id),
        Choice::Wall(id) => About::Wall(id),
        Choice::Room(id) => About::Room(id),
        Choice::KeepOut(id) => About::KeepOut(id),
        Choice::PowerRun(id) => About::PowerRun(id),
        Choice::Cable(id) => About::Cable(id),
        Choice::Bore(number) => About::Bore(number),
        Choice::Level(_) | Choice::Drawing(_) => return None,
    })
}
