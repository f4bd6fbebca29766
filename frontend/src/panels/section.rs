//! A bore cut across: the member, the hole and the cables in it, to scale.

use std::rc::Rc;

use borewright_core::picture::{self, Naming, SCREEN_MM, Type};
use yew::prelude::*;

use crate::drawing::PictureBox;
use crate::hooks::use_desk;

/// How wide a section is drawn, pixels.
const WIDTH: f64 = 270.0;

/// Which bore.
#[derive(Properties, PartialEq)]
pub struct SectionProps {
    /// Its number.
    pub number: u32,
}

/// The section of the first hole of a bore.
#[component]
pub fn Section(props: &SectionProps) -> Html {
    let desk = use_desk();
    let (plan, design) = (desk.session.shown_plan(), desk.session.shown_design());
    let number = props.number;
    let picture = use_memo((Rc::as_ptr(plan), Rc::as_ptr(design), number), |_| {
        let bore = design.bores.iter().position(|bore| bore.number == number);
        let naming = (Type::SCREEN, Naming::Cable);
        bore.map(|bore| picture::section(plan, design, bore, WIDTH * SCREEN_MM, naming))
    });
    match &*picture {
        Some(picture) => {
            let picture = Rc::new(picture.clone());
            html! { <PictureBox {picture} label={format!("Bore {number} cut across, to scale")} /> }
        }
        None => html! {},
    }
}
