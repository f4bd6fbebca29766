//! The closet every cable comes home to.

use borewright_core::framing::wall_words;
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{Closet, ClosetPlace, Entry, Item};
use borewright_core::units::Mm;
use yew::prelude::*;

use super::agreements::Stands;
use super::{Head, Remove, use_edit};
use crate::hooks::use_desk;
use crate::panels::length_field::LengthField;
use crate::panels::words::capital;
use crate::parts::{Fact, Facts, Pick};

const ENTRIES: [Entry; 3] = [Entry::Above, Entry::Below, Entry::Either];

/// The slip of the closet.
#[component]
pub fn ClosetSlip() -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let plan = desk.session.shown_plan();
    let Some(closet) = plan.closet else {
        return html! {};
    };
    let totals = &desk.session.shown_design().totals;
    let line = match closet.place {
        ClosetPlace::Wall { wall, offset, .. } => {
            let framing = &desk.session.shown_design().framing;
            format!("on {}", wall_words(plan, framing, wall, offset))
        }
        ClosetPlace::Point(_) => String::from("free-standing"),
    };
    let entries = ENTRIES
        .map(|entry| AttrValue::from(capital(entry.name())))
        .to_vec();
    let onentry = edit.reform(move |place: usize| {
        let entry = ENTRIES.get(place).copied().unwrap_or(closet.entry);
        Edit::SetCloset(Some(Closet { entry, ..closet }))
    });
    let onheight = edit.reform(move |panel_height: Mm| {
        Edit::SetCloset(Some(Closet {
            panel_height,
            ..closet
        }))
    });
    html! {
        <>
            <Head title="Closet" {line} />
            <Stands item={Item::Closet} />
            <Facts>
                <Fact name="Cables home" value={totals.cables.to_string()} />
                <Fact name="Drops" value={totals.drops.to_string()} />
            </Facts>
            <Pick label="Cable comes in" options={entries} onpick={onentry}
                chosen={ENTRIES.iter().position(|entry| *entry == closet.entry)} />
            <LengthField label="Panel height" value={closet.panel_height} height=true onset={onheight} />
            <Remove label="Remove the closet" />
        </>
    }
}
