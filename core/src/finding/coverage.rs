//! Findings about forgotten drops: rooms without any. Outside faces are not looked at.
//!
//! TIA/EIA-570-A wants an outlet in the kitchen, each bedroom, the family or great room, and the den or study.

use super::{Finding, Severity, Subject};
use crate::framing::drop_room;
use crate::plan::{Level, Plan, Room};
use crate::rules::trade::PRACTICE;

/// Rooms nobody puts an outlet in.
const NO_OUTLET: [&str; 10] = [
    "hall", "closet", "bath", "stair", "porch", "attic", "laundry", "utility", "pantry", "mech",
];

/// How the words begin by which a room in the source's list is named.
const LISTED: [&str; 6] = ["kitchen", "bed", "family", "great", "den", "study"];

pub(super) fn check(plan: &Plan) -> Vec<Finding> {
    if plan.drops.is_empty() {
        return Vec::new();
    }
    let served: Vec<_> = plan
        .drops
        .iter()
        .filter_map(|drop| drop_room(plan, drop))
        .map(|room| room.id)
        .collect();
    let rooms = plan
        .levels
        .iter()
        .flat_map(|level| level.rooms.iter().map(move |room| (level, room)));
    let bare = rooms.filter(|(_, room)| !served.contains(&room.id) && wants_outlet(room));
    bare.map(|(level, room)| forgotten(level, room)).collect()
}

fn wants_outlet(room: &Room) -> bool {
    let name = room.name.to_lowercase();
    !NO_OUTLET.iter().any(|word| name.contains(word))
}

fn forgotten(level: &Level, room: &Room) -> Finding {
    Finding::new(
        format!("no-drop:R{}", room.id.0),
        Severity::Note,
        Subject::Level(level.id),
    )
    .at(level.id, room.at.pos())
    .says(
        format!("{} has no drop.", room.name),
        "Ask the owner whether it should have one.",
    )
    .by(match is_listed(&room.name) {
        true => "TIA/EIA-570-A, outlet locations",
        false => PRACTICE,
    })
}

/// Whether a room's name is one of those the source lists: "Bed 1", "Bedroom", "Den", not "Garden room".
fn is_listed(name: &str) -> bool {
    let name = name.to_lowercase();
    let mut words = name.split(|letter: char| !letter.is_alphabetic());
    words.any(|word| LISTED.contains(&word) || word.starts_with("bedroom"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_rooms_in_the_list_of_the_source_cite_it() {
        for name in [
            "Kitchen",
            "Bed 2",
            "Guest bedroom",
            "Great room",
            "DEN",
            "Study/office",
        ] {
            assert!(is_listed(name), "{name}");
        }
        for name in ["Living", "Garden room", "Garage", "Dining", "Office", ""] {
            assert!(!is_listed(name), "{name}");
        }
    }
}
