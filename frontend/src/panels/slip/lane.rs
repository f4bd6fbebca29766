//! The lane of a wall: the height it is bored at from bay to bay, chosen by the page or fixed.

use borewright_core::plan::edit::Edit;
use borewright_core::plan::{CableId, Pin, PinTo, Plan, WallId};
use borewright_core::rules::RuleId;
use borewright_core::units::Mm;
use yew::prelude::*;

use super::pins::Pins;
use super::use_edit;
use crate::hooks::use_desk;
use crate::panels::length_field::LengthField;
use crate::parts::Tick;

/// Which wall.
#[derive(Properties, PartialEq)]
pub struct LaneFieldsProps {
    /// Its identity.
    pub wall: WallId,
}

/// Fixes the height of a lane or lets it be chosen, and lists the cables pinned to the wall.
#[component]
pub fn LaneFields(props: &LaneFieldsProps) -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let (plan, wall) = (desk.session.shown_plan(), props.wall);
    let fixed = fixed(plan, wall);
    let usual = plan.rules.length(RuleId::LaneHeight);
    let ontick = edit.reform(move |ticked: bool| match (ticked, fixed) {
        (false, Some(height)) => Edit::RemovePin(Pin::Lane { wall, height }),
        _ => Edit::AddPin(Pin::Lane {
            wall,
            height: usual,
        }),
    });
    let onheight = edit.reform(move |height: Mm| Edit::AddPin(Pin::Lane { wall, height }));
    html! {
        <>
            <div class="SlipTicks">
                <Tick label="Lane at a fixed height" ticked={fixed.is_some()} onset={ontick} />
            </div>
            if let Some(height) = fixed {
                <LengthField label="Lane height" value={height} height=true onset={onheight} />
            }
            <Pins cables={pinned(plan, wall)} named=true />
        </>
    }
}

fn fixed(plan: &Plan, wall: WallId) -> Option<Mm> {
    plan.pins.iter().find_map(|pin| match *pin {
        Pin::Lane { wall: on, height } if on == wall => Some(height),
        _ => None,
    })
}

/// The cables that are pinned to a wall.
fn pinned(plan: &Plan, wall: WallId) -> Vec<CableId> {
    let cable = |pin: &Pin| match *pin {
        Pin::Cable {
            cable,
            to: PinTo::Bay { wall: on, .. },
        } if on == wall => Some(cable),
        _ => None,
    };
    plan.pins.iter().filter_map(cable).collect()
}
