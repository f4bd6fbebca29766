//! A wall seen from its face: studs, plates, openings, boxes and bores, to scale.

use std::rc::Rc;

use borewright_core::picture::{self, Type};
use borewright_core::plan::{Side, WallId};
use borewright_core::tongue::Tongue;
use yew::prelude::*;

use crate::drawing::PictureBox;
use crate::hooks::use_desk;

/// Millimetres of the house to a paper millimetre: a wall of 9 ft is about 170 pixels high.
const SCALE: f64 = 60.0;

/// Which wall.
#[derive(Properties, PartialEq)]
pub struct ElevationProps {
    /// Its identity.
    pub wall: WallId,
}

/// The elevation of a wall, from the side with more boxes.
#[component]
pub fn Elevation(props: &ElevationProps) -> Html {
    let desk = use_desk();
    let (plan, design) = (desk.session.shown_plan(), desk.session.shown_design());
    let wall = props.wall;
    let picture = use_memo((Rc::as_ptr(plan), Rc::as_ptr(design), wall), |_| {
        let side = picture::best_side(plan, wall);
        let sizes = (Type::SCREEN, Tongue::English);
        picture::elevation(plan, design, wall, side, SCALE, sizes)
    });
    let left = picture::best_side(plan, wall) == Side::Right;
    let framing = design.framing.wall(wall);
    let end = framing.map_or_else(String::new, |framing| framing.end_name(left));
    html! {
        <>
            <PictureBox {picture} label={format!("W{} from its face, to scale", wall.0)} />
            <p class="Quiet">{ format!("Its {end} is on the left.") }</p>
        </>
    }
}
