//! A wall: its framing, flags, and elevation.

use borewright_core::framing::WallFraming;
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{Item, LayoutEnd, Lumber, Role, Wall, WallId};
use borewright_core::units::{Mm, Size, counted};
use yew::prelude::*;

use super::agreements::Stands;
use super::lane::LaneFields;
use super::{Head, Remove, use_edit};
use crate::hooks::use_desk;
use crate::panels::elevation::Elevation;
use crate::panels::words::capital;
use crate::parts::{Pick, Segments, Tick};

/// Which wall.
#[derive(Properties, PartialEq)]
pub struct WallSlipProps {
    /// Its identity.
    pub id: WallId,
}

const ROLES: [Role; 3] = [Role::Exterior, Role::Bearing, Role::Partition];
const LUMBER: [Lumber; 3] = [Lumber::TwoByFour, Lumber::TwoBySix, Lumber::TwoByEight];
const SPACINGS: [f64; 4] = [12.0, 16.0, 19.2, 24.0];

/// The slip of a wall.
#[component]
pub fn WallSlip(props: &WallSlipProps) -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let plan = desk.session.shown_plan();
    let Some((_, wall)) = plan.wall(props.id) else {
        return html! {};
    };
    let framing = desk.session.shown_design().framing.wall(props.id);
    let length = framing.map_or(wall.from.distance(wall.to), |framing| {
        Mm::rounded(framing.end - framing.start)
    });
    let length = plan.units.position(length);
    let studs = framing.map_or(0, |framing| framing.studs.len());
    let line = format!(
        "{} {}, plates {length}, {}",
        wall.role.name(),
        wall.lumber.name(),
        counted(studs, "stud")
    );
    html! {
        <>
            <Head title={format!("Wall {}", wall.label())} {line} />
            <Stands item={Item::Wall(props.id)} />
            <Elevation wall={props.id} />
            { framing_fields(wall, framing, &edit) }
            { flags(wall, &edit) }
            <LaneFields wall={props.id} />
            <Remove label={format!("Remove {}", wall.label())} />
        </>
    }
}

fn framing_fields(wall: &Wall, framing: Option<&WallFraming>, edit: &Callback<Edit>) -> Html {
    let roles = ROLES
        .map(|role| AttrValue::from(capital(role.name())))
        .to_vec();
    let onrole = set(wall, edit, |wall, place: usize| Wall {
        role: ROLES.get(place).copied().unwrap_or(wall.role),
        ..wall
    });
    let boards = LUMBER.map(|board| AttrValue::from(board.name())).to_vec();
    let onboard = set(wall, edit, |wall, place: usize| Wall {
        lumber: LUMBER.get(place).copied().unwrap_or(wall.lumber),
        ..wall
    });
    html! {
        <>
            <Segments label="Role" options={roles} onpick={onrole}
                chosen={ROLES.iter().position(|role| *role == wall.role)} />
            <Segments label="Lumber" options={boards} onpick={onboard}
                chosen={LUMBER.iter().position(|board| *board == wall.lumber)} />
            <div class="SlipRow">{ spacing(wall, edit) }{ layout(wall, framing, edit) }</div>
        </>
    }
}

fn spacing(wall: &Wall, edit: &Callback<Edit>) -> Html {
    let options = SPACINGS
        .map(|inches| AttrValue::from(format!("{inches} in o.c.")))
        .to_vec();
    let same = |inches: &f64| (wall.spacing.in_inches() - inches).abs() < 0.01;
    let onpick = set(wall, edit, |wall, place: usize| Wall {
        spacing: SPACINGS
            .get(place)
            .map_or(wall.spacing, |inches| Size::inches(*inches)),
        ..wall
    });
    html! { <Pick label="Studs" {options} chosen={SPACINGS.iter().position(same)} {onpick} /> }
}

fn layout(wall: &Wall, framing: Option<&WallFraming>, edit: &Callback<Edit>) -> Html {
    let name = |first| framing.map_or_else(String::new, |framing| framing.end_name(first));
    let options = [true, false].map(|first| AttrValue::from(capital(&name(first))));
    let options = options.to_vec();
    let chosen = Some(usize::from(wall.layout == LayoutEnd::Second));
    let onpick = set(wall, edit, |wall, place: usize| Wall {
        layout: if place == 0 {
            LayoutEnd::First
        } else {
            LayoutEnd::Second
        },
        ..wall
    });
    html! { <Pick label="Laid out from" {options} {chosen} {onpick} /> }
}

fn flags(wall: &Wall, edit: &Callback<Edit>) -> Html {
    html! {
        <div class="SlipTicks">
            <Tick label="Studs doubled" ticked={wall.doubled}
                onset={set(wall, edit, |wall, doubled| Wall { doubled, ..wall })} />
            <Tick label="Never drill" ticked={wall.never_drill}
                onset={set(wall, edit, |wall, never_drill| Wall { never_drill, ..wall })} />
            <Tick label="Separates the garage" ticked={wall.garage}
                onset={set(wall, edit, |wall, garage| Wall { garage, ..wall })} />
        </div>
    }
}

fn set<T: 'static>(
    wall: &Wall,
    edit: &Callback<Edit>,
    make: impl Fn(Wall, T) -> Wall + 'static,
) -> Callback<T> {
    let wall = *wall;
    edit.reform(move |given| Edit::SetWall(make(wall, given)))
}
