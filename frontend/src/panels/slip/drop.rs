//! A drop: room, height, cables, box, flags, note, its way in words.

use borewright_core::framing::{Framing, drop_room, hang_words, wall_words};
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{BoxKind, Drop, DropId, DropKind, Item, Place, Plan};
use borewright_core::units::Mm;
use yew::prelude::*;

use super::agreements::Stands;
use super::pins::Pins;
use super::way::WayWords;
use super::{Head, Remove, use_edit};
use crate::hooks::use_desk;
use crate::panels::cables::CableList;
use crate::panels::length_field::LengthField;
use crate::panels::site::summary;
use crate::panels::words::capital;
use crate::parts::{Field, FieldKind, Pick, Segments, Tick};

/// Which drop.
#[derive(Properties, PartialEq)]
pub struct DropSlipProps {
    /// Its identity.
    pub id: DropId,
}

/// The slip of a drop.
#[component]
pub fn DropSlip(props: &DropSlipProps) -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let plan: &Plan = desk.session.shown_plan();
    let Some(drop) = plan.drop(props.id) else {
        return html! {};
    };
    let title = format!("{} {}", drop.label(), drop.kind.name());
    html! {
        <>
            <Head {title} line={place_words(plan, &desk.session.shown_design().framing, drop)} />
            <Stands item={Item::Drop(drop.id)} />
            if let Some(said) = summary(plan, drop) { <p class="Stands">{ said }</p> }
            <CableList drop={drop.id} />
            { for drop.cables.first().map(|cable| html! { <WayWords cable={cable.id} /> }) }
            <Pins cables={drop.cables.iter().map(|cable| cable.id).collect::<Vec<_>>()} named=true />
            { place_fields(drop, &edit) }
            { fixing(drop, &edit) }
            { flags(drop, &edit) }
            <Field label="Note" kind={FieldKind::Lines} value={drop.note.clone()}
                onset={set(drop, &edit, |drop, note| Drop { note, ..drop })} />
            <Remove label={format!("Remove {}", drop.label())} />
        </>
    }
}

/// "Bed 1, on W3, 4' 2\" from its W4 end".
fn place_words(plan: &Plan, framing: &Framing, drop: &Drop) -> String {
    let room = drop_room(plan, drop)
        .map(|room| format!("{}, ", room.name))
        .unwrap_or_default();
    match drop.place {
        Place::Wall { wall, offset, .. } => {
            let place = wall_words(plan, framing, wall, offset);
            let hang = hang_words(plan, framing, drop).map(|hang| format!(", {hang}"));
            format!("{room}on {place}{}", hang.unwrap_or_default())
        }
        Place::Outside { wall, offset, .. } => {
            format!("outside on {}", wall_words(plan, framing, wall, offset))
        }
        Place::Ceiling { .. } => format!("{room}on the ceiling"),
        Place::Adrift { .. } => {
            String::from("Adrift: its wall was taken away. Drag it onto another.")
        }
    }
}

fn place_fields(drop: &Drop, edit: &Callback<Edit>) -> Html {
    let (id, place) = (drop.id, drop.place);
    let moved = edit.reform(move |height: Mm| Edit::MoveDrop(id, at_height(place, height)));
    let kinds = DropKind::ALL
        .map(|kind| AttrValue::from(capital(kind.name())))
        .to_vec();
    let onpick = set(drop, edit, |drop, place: usize| {
        DropKind::ALL.get(place).map_or(drop.clone(), |&kind| Drop {
            kind,
            ..drop.clone()
        })
    });
    let chosen = DropKind::ALL.iter().position(|kind| *kind == drop.kind);
    html! {
        <div class="SlipRow">
            <Pick label="Kind" options={kinds} {chosen} {onpick} />
            if let Some(height) = drop.height() {
                <LengthField label="Height" value={height} height=true onset={moved} />
            }
        </div>
    }
}

fn at_height(place: Place, height: Mm) -> Place {
    match place {
        Place::Wall {
            wall, offset, side, ..
        } => Place::Wall {
            wall,
            offset,
            side,
            height,
        },
        Place::Outside {
            wall, offset, side, ..
        } => Place::Outside {
            wall,
            offset,
            side,
            height,
        },
        other => other,
    }
}

const FIXINGS: [BoxKind; 3] = [BoxKind::Bracket, BoxKind::ByOthers, BoxKind::None];

fn fixing(drop: &Drop, edit: &Callback<Edit>) -> Html {
    let kinds = FIXINGS
        .map(|kind| AttrValue::from(capital(kind.name())))
        .to_vec();
    let onbox = set(drop, edit, |drop, place: usize| {
        FIXINGS.get(place).map_or(drop.clone(), |&fixing| Drop {
            fixing,
            ..drop.clone()
        })
    });
    let ongangs = set(drop, edit, |drop, place: usize| Drop {
        gangs: (place + 1).min(4) as u8,
        ..drop
    });
    let gangs = ["1", "2", "3", "4"].map(AttrValue::from).to_vec();
    html! {
        <>
            <Pick label="Box" options={kinds} onpick={onbox}
                chosen={FIXINGS.iter().position(|kind| *kind == drop.fixing)} />
            if drop.fixing != BoxKind::None {
                <div class="SlipLine">
                    <span>{ "Gangs" }</span>
                    <Segments label="Gangs" options={gangs} onpick={ongangs}
                        chosen={usize::from(drop.gangs).checked_sub(1)} />
                </div>
            }
        </>
    }
}

fn flags(drop: &Drop, edit: &Callback<Edit>) -> Html {
    html! {
        <div class="SlipTicks">
            <Tick label="Outdoors" ticked={drop.outdoors}
                onset={set(drop, edit, |drop, outdoors| Drop { outdoors, ..drop })} />
            <Tick label="Buried until trim-out" ticked={drop.buried}
                onset={set(drop, edit, |drop, buried| Drop { buried, ..drop })} />
            <Tick label="Spare" ticked={drop.spare}
                onset={set(drop, edit, |drop, spare| Drop { spare, ..drop })} />
        </div>
    }
}

fn set<T: 'static>(
    drop: &Drop,
    edit: &Callback<Edit>,
    make: impl Fn(Drop, T) -> Drop + 'static,
) -> Callback<T> {
    let drop = drop.clone();
    edit.reform(move |given| Edit::SetDrop(make(drop.clone(), given)))
}
