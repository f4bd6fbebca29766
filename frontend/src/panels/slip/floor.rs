//! The joists of a floor or ceiling: kind, depth, spacing, direction, layout.

use borewright_core::plan::{Floor, JoistKind, LayoutSide, Rafters};
use borewright_core::shape::Direction;
use borewright_core::units::{Size, read_size};
use yew::prelude::*;

use crate::hooks::use_desk;
use crate::panels::words::capital;
use crate::parts::{Field, FieldKind, Pick, Segments};

/// What [`FloorFields`] show and change.
#[derive(Properties, PartialEq)]
pub struct FloorFieldsProps {
    /// The joists.
    pub floor: Floor,
    /// Called with other joists.
    pub onset: Callback<Floor>,
}

const KINDS: [(JoistKind, &str); 3] = [
    (JoistKind::Sawn, "Sawn lumber"),
    (JoistKind::IJoist, "I-joists"),
    (JoistKind::OpenWeb, "Open-web trusses"),
];

/// The fields of a floor.
#[component]
pub fn FloorFields(props: &FloorFieldsProps) -> Html {
    let units = use_desk().session.plan.units;
    let floor = props.floor;
    let options = KINDS.map(|(_, name)| AttrValue::from(name)).to_vec();
    let onkind = props.onset.reform(move |place: usize| Floor {
        kind: KINDS.get(place).map_or(floor.kind, |(kind, _)| *kind),
        ..floor
    });
    let size = |value: Size, make: fn(Floor, Size) -> Floor| {
        let set = props.onset.clone();
        let onset = Callback::from(move |text: String| {
            if let Ok(size) = read_size(&text, units) {
                set.emit(make(floor, size));
            }
        });
        (units.size(value), onset)
    };
    let (depth, ondepth) = size(floor.depth, |floor, depth| Floor { depth, ..floor });
    let (spacing, onspacing) = size(floor.spacing, |floor, spacing| Floor { spacing, ..floor });
    let ondirection = props
        .onset
        .reform(move |direction| Floor { direction, ..floor });
    let onlayout = props.onset.reform(move |layout| Floor { layout, ..floor });
    html! {
        <>
            <Pick label="Joists" {options} onpick={onkind}
                chosen={KINDS.iter().position(|(kind, _)| *kind == floor.kind)} />
            <div class="SlipRow">
                <Field label="Depth" kind={FieldKind::Figure} value={depth} onset={ondepth} />
                <Field label="On centre" kind={FieldKind::Figure} value={spacing} onset={onspacing} />
            </div>
            { directions("Joists run", floor.direction, &ondirection) }
            { layout(floor.direction, floor.layout, &onlayout) }
        </>
    }
}

/// What [`RafterFields`] show and change.
#[derive(Properties, PartialEq)]
pub struct RafterFieldsProps {
    /// The rafters.
    pub rafters: Rafters,
    /// Called with other rafters.
    pub onset: Callback<Rafters>,
}

/// The fields of a closed roof's rafters.
#[component]
pub fn RafterFields(props: &RafterFieldsProps) -> Html {
    let units = use_desk().session.plan.units;
    let rafters = props.rafters;
    let set = props.onset.clone();
    let onspacing = Callback::from(move |text: String| {
        if let Ok(spacing) = read_size(&text, units) {
            set.emit(Rafters { spacing, ..rafters });
        }
    });
    let set = props.onset.clone();
    let onpitch = Callback::from(move |text: String| {
        if let Ok(pitch) = text.trim().parse() {
            set.emit(Rafters { pitch, ..rafters });
        }
    });
    let ondirection = props.onset.reform(move |direction| Rafters {
        direction,
        ..rafters
    });
    let onlayout = props
        .onset
        .reform(move |layout| Rafters { layout, ..rafters });
    let spacing = units.size(rafters.spacing);
    html! {
        <>
            <div class="SlipRow">
                <Field label="On centre" kind={FieldKind::Figure} value={spacing} onset={onspacing} />
                <Field label="Rise in 12" kind={FieldKind::Figure} value={rafters.pitch.to_string()} onset={onpitch} />
            </div>
            { directions("Rafters run", rafters.direction, &ondirection) }
            { layout(rafters.direction, rafters.layout, &onlayout) }
        </>
    }
}

/// Across or down the sheet; any other direction is drawn with the tool for it.
pub fn directions(label: &'static str, direction: Direction, onset: &Callback<Direction>) -> Html {
    let onpick = onset.reform(|place: usize| {
        if place == 0 {
            Direction::ALONG_X
        } else {
            Direction::ALONG_Y
        }
    });
    let chosen = match (direction.dx, direction.dy) {
        (0, 0) => None,
        (_, 0) => Some(0),
        (0, _) => Some(1),
        _ => None,
    };
    let options = ["Across the sheet", "Down the sheet"]
        .map(AttrValue::from)
        .to_vec();
    html! {
        <div class="Field">
            <span class="FieldLabel">{ label }</span>
            <Segments {label} {options} {chosen} {onpick} />
        </div>
    }
}

/// The side of the house that joists or trusses are laid out from.
pub fn layout(direction: Direction, side: LayoutSide, onset: &Callback<LayoutSide>) -> Html {
    let sides = LayoutSide::both(direction);
    let options = sides.map(|(_, name)| AttrValue::from(capital(name)));
    let options = options.to_vec();
    let chosen = sides.iter().position(|(known, _)| *known == side);
    let onpick = onset.reform(move |place: usize| sides.get(place).map_or(side, |(side, _)| *side));
    html! { <Pick label="Laid out from" {options} {chosen} {onpick} /> }
}
