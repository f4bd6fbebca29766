//! Findings about forgotten drops: rooms without any. Outside faces are not looked at.

use super::{Finding, Severity, Subject};
use crate::framing::drop_room;
use crate::plan::{Level, Plan, Room};

/// Rooms nobody puts an outlet in.
const NO_OUTLET: [&str; 10] = [
    "hall", "closet", "bath", "stair", "porch", "attic", "laundry", "utility", "pantry", "mech",
];

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
    .by("TIA/EIA-570-A, outlet locations: one in each of the usual rooms")
}
