//! Members in words: what is bored, and what it is.

use crate::framing::{Framing, SpaceKind, is_in_gable};
use crate::plan::{JoistKind, Plan};
use crate::route::{Crossing, Member};

/// What is bored: "5 studs", "top plates", "8 joists, crawl space", "3 joists overhead".
pub fn what_name(plan: &Plan, framing: &Framing, crossing: &Crossing, members: u32) -> String {
    let among = |one: &str, place: usize| {
        let many = if members == 1 { "" } else { "s" };
        let of = format!("{members} {one}{many}");
        let kind = framing.spaces.get(place).map(|space| space.kind);
        let level = framing.level(crossing.level);
        let is_below = level.is_some_and(|level| level.below == Some(place));
        match kind {
            // The floor they carry may be over the crew or under it.
            Some(SpaceKind::Floor(_)) if is_below => format!("{of} underfoot"),
            Some(SpaceKind::Floor(_)) => format!("{of} overhead"),
            other => format!("{of}, {}", other.map_or("", SpaceKind::name)),
        }
    };
    match &crossing.member {
        Member::Studs(_) if members == 1 => String::from("1 stud"),
        Member::Studs(_) => format!("{members} studs"),
        Member::Corner { count, .. } => format!("corner, {count} studs"),
        Member::TopPlates(_) => String::from("top plates"),
        Member::BottomPlates(_) => String::from("bottom plate and floor"),
        Member::Joist { space } => among("joist", *space),
        Member::Web { space } => among("I-joist web", *space),
        Member::Sheathing => String::from("outside wall"),
        Member::Soffit if is_gable(plan, framing, crossing) => String::from("gable"),
        Member::Soffit => String::from("soffit"),
    }
}

/// Whether a hole over the plates is in a gable, not under eaves.
pub fn is_gable(plan: &Plan, framing: &Framing, crossing: &Crossing) -> bool {
    let wall = crossing.wall;
    wall.is_some_and(|wall| is_in_gable(plan, framing, wall, crossing.offset))
}

/// What the member is: "bearing 2x6", "sawn joist 9-1/4 in".
pub fn member_name(plan: &Plan, framing: &Framing, crossing: &Crossing) -> String {
    if crossing.member == Member::Soffit {
        let gable = is_gable(plan, framing, crossing);
        return String::from(if gable { "gable" } else { "eaves" });
    }
    if let Some((_, wall)) = crossing.wall.and_then(|id| plan.wall(id)) {
        let doubled = match crossing.member {
            Member::Studs(_) if wall.doubled => "doubled ",
            _ => "",
        };
        let one = format!("{} {doubled}{}", wall.role.name(), wall.lumber.name());
        let other = match crossing.member {
            Member::Corner { to, .. } => plan.wall(to),
            _ => None,
        };
        // A corner is bored in two walls, and the stricter of them decides.
        return match other.map(|(_, other)| (other.role.name(), other.lumber.name())) {
            Some((role, lumber)) => format!("{one}; {role} {lumber}"),
            None => one,
        };
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
