//! Members in words: what is bored, and what it is.

use crate::framing::{Framing, SpaceKind};
use crate::plan::{JoistKind, Plan};
use crate::route::{Crossing, Member};

/// What is bored: "5 studs", "top plates", "8 joists, crawl space".
pub fn what_name(framing: &Framing, member: &Member, members: u32) -> String {
    let among = |one: &str, space: usize| {
        let name = framing
            .spaces
            .get(space)
            .map_or("", |space| space.kind.name());
        let many = if members == 1 { "" } else { "s" };
        format!("{members} {one}{many}, {name}")
    };
    match member {
        Member::Studs(_) if members == 1 => String::from("1 stud"),
        Member::Studs(_) => format!("{members} studs"),
        Member::Corner { count, .. } => format!("corner, {count} studs"),
        Member::TopPlates(_) => String::from("top plates"),
        Member::BottomPlates(_) => String::from("bottom plate and floor"),
        Member::Joist { space } => among("joist", *space),
        Member::Web { space } => among("I-joist web", *space),
        Member::Sheathing => String::from("outside wall"),
        Member::Soffit => String::from("soffit"),
    }
}

/// What the member is: "bearing 2x6", "sawn joist 9-1/4 in".
pub fn member_name(plan: &Plan, framing: &Framing, crossing: &Crossing) -> String {
    if crossing.member == Member::Soffit {
        return String::from("eaves or gable");
    }
    if let Some((_, wall)) = crossing.wall.and_then(|id| plan.wall(id)) {
        let doubled = match crossing.member {
            Member::Studs(_) if wall.doubled => "doubled ",
            _ => "",
        };
        return format!("{} {doubled}{}", wall.role.name(), wall.lumber.name());
    }
    let (Member::Joist { space } | Member::Web { space }) = crossing.member else {
        return String::new();
    };
    let Some(space) = framing.spaces.get(space) else {
        return String::new();
    };
    let depth = plan.units.size(crate::units::Size(space.depth));
    match space.kind {
        SpaceKind::Floor(JoistKind::IJoist) | SpaceKind::Crawl(JoistKind::IJoist) => {
            format!("I-joist {depth}, maker's chart")
        }
        _ => format!("sawn joist {depth}"),
    }
}
