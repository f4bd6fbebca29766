//! One cable: its way in words, its length, its reel.

use borewright_core::desk::{Choice, Intent};
use borewright_core::plan::CableId;
use yew::prelude::*;

use super::Head;
use super::passed::WallsPassed;
use super::pins::Pins;
use super::way::WayWords;
use crate::hooks::{use_act, use_desk};
use crate::panels::words::capital;
use crate::parts::{Fact, Facts, Press};
use crate::state::{Act, Desk};

/// Which cable.
#[derive(Properties, PartialEq)]
pub struct CableSlipProps {
    /// Its identity.
    pub id: CableId,
}

/// The slip of a cable.
#[component]
pub fn CableSlip(props: &CableSlipProps) -> Html {
    let desk = use_desk();
    let choose = use_act(|id| Act::Want(Intent::Choose(Some(Choice::Drop(id)))));
    let plan = desk.session.shown_plan();
    let Some((drop, cable)) = plan.cable(props.id) else {
        return html! {};
    };
    let spec = plan.catalogue.cable(cable.kind);
    let name = spec.map_or("cable", |spec| &spec.name);
    let line = format!(
        "{name}, line letter {}",
        spec.map_or('?', |spec| spec.letter)
    );
    let id = drop.id;
    let label = format!("{} {}", drop.label(), drop.kind.name());
    html! {
        <>
            <Head title={format!("Cable {}", plan.cable_label(props.id))} {line} />
            <WayWords cable={props.id} />
            <Pins cables={vec![props.id]} />
            <WallsPassed cable={props.id} />
            { reel(&desk, props.id) }
            <Press label={capital(&label)} onpress={choose.reform(move |()| id)} />
        </>
    }
}

fn reel(desk: &Desk, id: CableId) -> Html {
    let design = desk.session.shown_design();
    let Some(cut) = design.cut_list.cut(id) else {
        return html! {};
    };
    let reel = cut.reel.and_then(|place| design.cut_list.reels.get(place));
    let reel = reel.map_or("none long enough".to_string(), |reel| reel.name.clone());
    let pulls = design.cut_list.pulls.len();
    html! {
        <Facts>
            <Fact name="Pull" value={format!("{} of {pulls}", cut.pull)} />
            <Fact name="From" value={reel} />
        </Facts>
    }
}
