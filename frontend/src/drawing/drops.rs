//! Drops and the closet.

use std::rc::Rc;

use borewright_core::desk::{Choice, Intent};
use borewright_core::plan::{Drop, DropKind, LevelId, Place, Plan};
use borewright_core::shape::Pos;
use yew::prelude::*;

use crate::hooks::use_act;
use crate::state::Act;

/// What a [`DropLayer`] draws.
#[derive(Properties)]
pub struct DropLayerProps {
    /// The plan.
    pub plan: Rc<Plan>,
    /// The level shown.
    pub level: LevelId,
    /// What is chosen.
    pub chosen: Option<Choice>,
    /// Millimetres to a pixel.
    pub scale: f64,
}

impl PartialEq for DropLayerProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.plan, &other.plan)
            && (self.level, self.chosen, self.scale) == (other.level, other.chosen, other.scale)
    }
}

/// The drops of a level.
#[component]
pub fn DropLayer(props: &DropLayerProps) -> Html {
    let choose = use_act(|choice| Act::Want(Intent::Choose(Some(choice))));
    let drops = props
        .plan
        .drops
        .iter()
        .filter(|drop| drop.level == props.level);
    let draw = |drop: &Drop| draw_drop(props, drop, &choose);
    html! { <g class="DropLayer">{ for drops.map(draw) }</g> }
}

fn draw_drop(props: &DropLayerProps, drop: &Drop, choose: &Callback<Choice>) -> Html {
    let Some(at) = place_of(&props.plan, &drop.place) else {
        return html! {};
    };
    let choice = Choice::Drop(drop.id);
    let choose = choose.clone();
    let onkeydown = move |event: KeyboardEvent| {
        if matches!(event.key().as_str(), "Enter" | " ") {
            choose.emit(choice);
        }
    };
    let transform = format!(
        "translate({:.1} {:.1}) scale({:.4})",
        at.x, at.y, props.scale
    );
    let label = format!("{} {}", drop.label(), drop.kind.name());
    let is_chosen = (props.chosen == Some(choice)).to_string();
    html! {
        <g key={drop.id.0} class="Drop" role="button" tabindex="0" aria-label={label}
            data-chosen={is_chosen} {transform} {onkeydown}>
            <path d={symbol(drop.kind)} />
            <text x="10" y="-6">{ drop.label() }</text>
        </g>
    }
}

/// Where something lies on the plan.
pub fn place_of(plan: &Plan, place: &Place) -> Option<Pos> {
    match *place {
        Place::Ceiling { at } | Place::Adrift { at } => Some(at.pos()),
        Place::Wall {
            wall, offset, side, ..
        }
        | Place::Outside {
            wall, offset, side, ..
        } => {
            let (_, wall) = plan.wall(wall)?;
            Some(
                wall.line()?
                    .at(offset.f64(), side.sign() * wall.width().0 / 2.0),
            )
        }
    }
}

fn symbol(kind: DropKind) -> &'static str {
    match kind {
        DropKind::Data | DropKind::Television => "M0 -8L8 7H-8Z",
        DropKind::CeilingAccessPoint | DropKind::WallAccessPoint => {
            "M0 -8a8 8 0 1 1 0 16a8 8 0 1 1 0-16Z"
        }
        DropKind::Camera => "M-8 0L8 -7V7Z",
        DropKind::Doorbell | DropKind::Other => "M-5 -5H5V5H-5Z",
    }
}
