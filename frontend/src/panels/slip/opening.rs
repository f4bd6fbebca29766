//! A door, window or cased opening.

use borewright_core::plan::edit::Edit;
use borewright_core::plan::{Opening, OpeningId, OpeningKind};
use borewright_core::units::Mm;
use yew::prelude::*;

use super::{Head, Remove, use_edit};
use crate::hooks::use_desk;
use crate::panels::length_field::LengthField;
use crate::panels::words::capital;
use crate::parts::Segments;

/// Which opening.
#[derive(Properties, PartialEq)]
pub struct OpeningSlipProps {
    /// Its identity.
    pub id: OpeningId,
}

const KINDS: [OpeningKind; 3] = [OpeningKind::Door, OpeningKind::Window, OpeningKind::Cased];

/// The slip of an opening.
#[component]
pub fn OpeningSlip(props: &OpeningSlipProps) -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let plan = desk.session.shown_plan();
    let Some((_, opening)) = plan.opening(props.id) else {
        return html! {};
    };
    let opening = *opening;
    let set = |make: fn(Opening, Mm) -> Opening| {
        edit.reform(move |length| Edit::SetOpening(make(opening, length)))
    };
    let frame = desk.session.shown_design().framing.wall(opening.wall);
    let (start, end) = frame.map_or((0.0, String::from("first end")), |frame| {
        (frame.start, frame.end_name(true))
    });
    let from_end = Mm::rounded(opening.offset.f64() - start);
    let onfrom = edit.reform(move |from: Mm| {
        let offset = Mm::rounded(from.f64() + start);
        Edit::SetOpening(Opening { offset, ..opening })
    });
    let kinds = KINDS
        .map(|kind| AttrValue::from(capital(kind.name())))
        .to_vec();
    let onkind = edit.reform(move |place: usize| {
        let kind = KINDS.get(place).copied().unwrap_or(opening.kind);
        let sill = if kind == OpeningKind::Window {
            opening.sill
        } else {
            Mm(0)
        };
        Edit::SetOpening(Opening {
            kind,
            sill,
            ..opening
        })
    });
    html! {
        <>
            <Head title={capital(opening.kind.name())} line={format!("in W{}", opening.wall.0)} />
            <Segments label="Kind" options={kinds} onpick={onkind}
                chosen={KINDS.iter().position(|kind| *kind == opening.kind)} />
            <div class="SlipRow">
                <LengthField label="Width" value={opening.width} height=true
                    onset={set(|opening, width| Opening { width, ..opening })} />
                <LengthField label={format!("From its {end}")} value={from_end}
                    onset={onfrom} />
            </div>
            <div class="SlipRow">
                if opening.kind == OpeningKind::Window {
                    <LengthField label="Sill" value={opening.sill} height=true
                        onset={set(|opening, sill| Opening { sill, ..opening })} />
                }
                <LengthField label="Head" value={opening.head} height=true
                    onset={set(|opening, head| Opening { head, ..opening })} />
            </div>
            <Remove label={format!("Remove this {}", opening.kind.name())} />
        </>
    }
}
