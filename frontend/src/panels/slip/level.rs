//! A level: its name and height, what lies below and above, its joists.

use borewright_core::plan::edit::Edit;
use borewright_core::plan::{Above, Below, Floor, Level, LevelId, Rafters, Trusses};
use borewright_core::shape::Direction;
use borewright_core::units::Mm;
use yew::prelude::*;

use super::floor::{FloorFields, RafterFields, directions, layout};
use super::{Head, use_edit};
use crate::hooks::use_desk;
use crate::panels::icons;
use crate::panels::length_field::LengthField;
use crate::parts::{Field, Pick, Press};

/// Which level.
#[derive(Properties, PartialEq)]
pub struct LevelSlipProps {
    /// Its identity.
    pub id: LevelId,
}

/// The slip of a level.
#[component]
pub fn LevelSlip(props: &LevelSlipProps) -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let plan = desk.session.shown_plan();
    let Some(level) = plan.level(props.id) else {
        return html! {};
    };
    let framed = desk.session.design.framing.level(props.id);
    let is_bare = framed.is_some_and(|level| level.bare.is_some());
    let number = plan.levels.len() + 1;
    let onadd = edit.reform(move |()| Edit::AddLevel {
        name: format!("Level {number}"),
        floor: Floor::sawn(Direction::ALONG_Y),
    });
    html! {
        <>
            <Head title={level.name.clone()} line="What is under and over this level decides where cable can run." />
            { name_fields(level, &edit) }
            { below(level, &edit) }
            { above(level, is_bare, &edit) }
            <Press label="Add a level on top" icon={icons::LARGER} onpress={onadd} />
            if plan.levels.len() > 1 {
                <Press label={format!("Remove {}", level.name)} icon={icons::REMOVE}
                    onpress={let_id(level.id, &edit)} />
            }
        </>
    }
}

fn let_id(id: LevelId, edit: &Callback<Edit>) -> Callback<()> {
    edit.reform(move |()| Edit::RemoveLevel(id))
}

fn name_fields(level: &Level, edit: &Callback<Edit>) -> Html {
    let (id, name, ceiling) = (level.id, level.name.clone(), level.ceiling);
    let onname = edit.reform(move |name| Edit::SetLevel {
        level: id,
        name,
        ceiling,
    });
    let onceiling = edit.reform(move |ceiling: Mm| Edit::SetLevel {
        level: id,
        name: name.clone(),
        ceiling,
    });
    html! {
        <div class="SlipRow">
            <Field label="Name" value={level.name.clone()} onset={onname} />
            <LengthField label="Floor to ceiling" value={level.ceiling} onset={onceiling} />
        </div>
    }
}

fn below(level: &Level, edit: &Callback<Edit>) -> Html {
    let id = level.id;
    let (chosen, floor) = match level.below {
        Below::Slab => (0, None),
        Below::Crawl(floor) => (1, Some(floor)),
        Below::Level(floor) => (2, Some(floor)),
    };
    let options = [
        "Slab, no way",
        "Crawl space",
        "Floor over the level beneath",
    ]
    .map(AttrValue::from)
    .to_vec();
    let usual = floor.unwrap_or_else(|| Floor::sawn(Direction::ALONG_Y));
    let make = move |place: usize, floor: Floor| match place {
        0 => Below::Slab,
        1 => Below::Crawl(floor),
        _ => Below::Level(floor),
    };
    let onpick = edit.reform(move |place: usize| Edit::SetBelow(id, make(place, usual)));
    let onfloor = edit.reform(move |floor: Floor| Edit::SetBelow(id, make(chosen, floor)));
    html! {
        <section class="SlipGroup">
            <Pick label="Under it" {options} chosen={Some(chosen)} {onpick} />
            if let Some(floor) = floor { <FloorFields {floor} onset={onfloor} /> }
        </section>
    }
}

fn above(level: &Level, is_bare: bool, edit: &Callback<Edit>) -> Html {
    let id = level.id;
    let chosen = match level.above {
        Above::AtticTrusses(_) => 0,
        Above::AtticJoists(_) => 1,
        Above::Level { open: false, .. } => 2,
        Above::Level { open: true, .. } => 3,
        Above::ClosedRoof(_) => 4,
    };
    let options = [
        "Attic over trusses",
        "Attic over joists",
        "The next level",
        "The next level, its joists open",
        "Closed roof",
    ];
    let beside = match level.above {
        Above::Level { beside, .. } => beside,
        _ => None,
    };
    let onpick = edit.reform(move |place: usize| {
        Edit::SetAbove(
            id,
            match place {
                0 => Above::attic_over_trusses(Direction::ALONG_Y),
                1 => Above::AtticJoists(Floor::sawn(Direction::ALONG_Y)),
                2 | 3 => Above::Level {
                    open: place == 3,
                    beside,
                },
                _ => Above::CLOSED,
            },
        )
    });
    html! {
        <section class="SlipGroup">
            <Pick label="Over it" options={options.map(AttrValue::from).to_vec()} chosen={Some(chosen)} {onpick} />
            { above_fields(level, is_bare, edit) }
        </section>
    }
}

/// What lies over the part of a level that the next one does not stand on.
fn roof_beside(beside: Option<Trusses>, onset: &Callback<Option<Trusses>>) -> Html {
    let options = ["Not stated, no way", "Attic over trusses"];
    let onpick = onset.reform(|place: usize| match place {
        0 => None,
        _ => Some(Trusses::spanning(Direction::ALONG_Y)),
    });
    let fields = beside.map(|trusses| truss_fields(trusses, &onset.reform(Some)));
    html! {
        <>
            <Pick label="Over the part beside it" options={options.map(AttrValue::from).to_vec()}
                chosen={Some(usize::from(beside.is_some()))} {onpick} />
            { fields.unwrap_or_default() }
        </>
    }
}

/// Which way trusses span, and the side they are laid out from.
fn truss_fields(trusses: Trusses, onset: &Callback<Trusses>) -> Html {
    let ondirection = onset.reform(move |direction| Trusses {
        direction,
        ..trusses
    });
    let onlayout = onset.reform(move |layout| Trusses { layout, ..trusses });
    html! {
        <>
            { directions("Trusses span", trusses.direction, &ondirection) }
            { layout(trusses.direction, trusses.layout, &onlayout) }
        </>
    }
}

/// The rafters of a closed roof: no cable comes to its ceiling until somebody says how they run.
fn closed_roof(rafters: Option<Rafters>, onset: &Callback<Option<Rafters>>) -> Html {
    let options = ["Not stated, no way", "Along its rafter bays"];
    let onpick = onset.reform(|place: usize| match place {
        0 => None,
        _ => Some(Rafters::along(Direction::ALONG_Y)),
    });
    let onrafters = onset.reform(Some);
    html! {
        <>
            <Pick label="To what hangs on its ceiling" options={options.map(AttrValue::from).to_vec()}
                chosen={Some(usize::from(rafters.is_some()))} {onpick} />
            if let Some(rafters) = rafters { <RafterFields {rafters} onset={onrafters} /> }
        </>
    }
}

fn above_fields(level: &Level, is_bare: bool, edit: &Callback<Edit>) -> Html {
    let id = level.id;
    match level.above {
        Above::AtticTrusses(trusses) => {
            let set = move |trusses| Edit::SetAbove(id, Above::AtticTrusses(trusses));
            truss_fields(trusses, &edit.reform(set))
        }
        Above::AtticJoists(floor) => {
            let onset = edit.reform(move |floor| Edit::SetAbove(id, Above::AtticJoists(floor)));
            html! { <FloorFields {floor} {onset} /> }
        }
        Above::Level { open, beside } if is_bare || beside.is_some() => {
            let set = move |beside| Edit::SetAbove(id, Above::Level { open, beside });
            roof_beside(beside, &edit.reform(set))
        }
        Above::ClosedRoof(rafters) => {
            let set = move |rafters| Edit::SetAbove(id, Above::ClosedRoof(rafters));
            closed_roof(rafters, &edit.reform(set))
        }
        Above::Level { .. } => html! {},
    }
}
