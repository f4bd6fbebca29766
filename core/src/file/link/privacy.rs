//! What a link tells about people: everything, or the house alone.

use super::without_drawings;
use super::words::is_usual;
use crate::plan::{Plan, Reply, Said};

/// What goes into a link.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Privacy {
    /// Everything but the drawings.
    #[default]
    Everything,
    /// Neither the job's name nor the note; no notes at drops; levels and rooms keep names that
    /// are made of usual words, the others get numbers. Reasons for findings set aside and questions
    /// in replies stay out, and who replied.
    WithoutNames,
}

/// What a job is called in a link without names.
pub const NAMELESS: &str = "House";

/// The plan as far as it is told.
pub(super) fn kept(plan: &Plan, privacy: Privacy) -> Plan {
    let mut plan = without_drawings(plan);
    if privacy == Privacy::WithoutNames {
        forget_names(&mut plan);
    }
    plan
}

fn forget_names(plan: &mut Plan) {
    plan.title = String::from(NAMELESS);
    plan.note.clear();
    plan.dismissed
        .iter_mut()
        .for_each(|dismissal| dismissal.reason = String::from("left out"));
    plan.drops.iter_mut().for_each(|drop| drop.note.clear());
    plan.replies.iter_mut().for_each(forget_name);
    // Without their names two may say the same.
    let mut told: Vec<Reply> = Vec::new();
    for reply in plan.replies.drain(..) {
        if !told.contains(&reply) {
            told.push(reply);
        }
    }
    plan.replies = told;
    for (place, level) in plan.levels.iter_mut().enumerate() {
        if !is_usual(&level.name) {
            level.name = format!("Level {}", place + 1);
        }
        for room in level.rooms.iter_mut().filter(|room| !is_usual(&room.name)) {
            room.name = format!("Room {}", room.id.0);
        }
    }
}

fn forget_name(reply: &mut Reply) {
    reply.name = String::from("left out");
    reply.job = String::from("House");
    for answer in &mut reply.answers {
        if let Said::Asked(question) = &mut answer.said {
            *question = String::from("left out");
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::Room;
    use crate::plan::RoomId;
    use crate::shape::Point;

    #[test]
    fn names_stay_out_and_rooms_keep_their_use() {
        let mut plan = Plan::new();
        plan.title = String::from("The Example family");
        plan.note = String::from("1 Example Street");
        let names = ["Bedroom 2", "Ann's room", "GARAGE"];
        for (id, name) in (1..).zip(names) {
            plan.levels[0].rooms.push(Room {
                id: RoomId(id),
                name: name.to_string(),
                at: Point::new(0, 0),
            });
        }
        let kept = kept(&plan, Privacy::WithoutNames);
        assert_eq!((kept.title.as_str(), kept.note.as_str()), ("House", ""));
        let rooms: Vec<&str> = kept.levels[0]
            .rooms
            .iter()
            .map(|r| r.name.as_str())
            .collect();
        assert_eq!(rooms, ["Bedroom 2", "Room 2", "GARAGE"]);
    }
}
