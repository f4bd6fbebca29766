//! Where a drop is, in words that tell it from every other drop of the job.

use std::collections::BTreeMap;

use crate::framing::{Framing, drop_room};
use crate::plan::{Drop, DropId, Place, Plan};
use crate::schedule::{RoomRow, room_list};

/// The words of every drop.
pub(super) struct Whither {
    words: BTreeMap<DropId, String>,
}

impl Whither {
    /// The words of every drop of a plan: its room; its wall where the room has more than one like it;
    /// its height, and its distance along the wall, where that does not tell it either.
    pub fn of(plan: &Plan, framing: &Framing) -> Self {
        let rows = room_list(plan, framing);
        let row = |drop: &Drop| rows.iter().find(|row| row.drop == drop.id);
        let forms: [&dyn Fn(&Drop) -> String; 4] = [
            &|drop| plain(plan, drop),
            &|drop| walled(plan, drop),
            &|drop| at_height(plan, drop),
            &|drop| measured(plan, drop, row(drop)),
        ];
        let mut words: BTreeMap<DropId, String> = BTreeMap::new();
        for form in forms {
            let said: Vec<(DropId, String)> = plan.drops.iter().map(|d| (d.id, form(d))).collect();
            let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
            for (_, said) in &said {
                *counts.entry(said).or_default() += 1;
            }
            for (id, said) in &said {
                if counts.get(said.as_str()) == Some(&1) {
                    words.entry(*id).or_insert_with(|| said.clone());
                }
            }
        }
        // Two at one place are told as far as can be told.
        for drop in &plan.drops {
            words
                .entry(drop.id)
                .or_insert_with(|| measured(plan, drop, row(drop)));
        }
        Self { words }
    }

    /// "Bed 1, television", "outdoors, W2, camera 102 in".
    pub fn words(&self, drop: &Drop) -> String {
        self.words.get(&drop.id).cloned().unwrap_or_default()
    }
}

/// "Bed 1, outlet 16 in": as far as it has to be told beside the drop's label.
pub(super) fn destination(plan: &Plan, drop: &Drop) -> String {
    joined([room(plan, drop), Some(what(plan, drop)), None, None])
}

/// "outlet 16 in".
fn what(plan: &Plan, drop: &Drop) -> String {
    match drop.height() {
        Some(height) => format!("{} {}", drop.kind.name(), plan.units.height(height)),
        None => drop.kind.name().to_string(),
    }
}

/// The name of a drop's room, or "outdoors"; `None` where no room is named.
pub(super) fn room(plan: &Plan, drop: &Drop) -> Option<String> {
    match drop.outdoors {
        true => Some(String::from("outdoors")),
        false => drop_room(plan, drop).map(|room| room.name.clone()),
    }
}

fn joined(parts: [Option<String>; 4]) -> String {
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    parts.join(", ")
}

fn plain(plan: &Plan, drop: &Drop) -> String {
    let place = room(plan, drop).or_else(|| wall(drop));
    joined([place, Some(drop.kind.name().to_string()), None, None])
}

fn walled(plan: &Plan, drop: &Drop) -> String {
    let kind = drop.kind.name().to_string();
    joined([room(plan, drop), wall(drop), Some(kind), None])
}

fn at_height(plan: &Plan, drop: &Drop) -> String {
    joined([room(plan, drop), wall(drop), Some(what(plan, drop)), None])
}

/// "W2".
fn wall(drop: &Drop) -> Option<String> {
    match drop.place {
        Place::Wall { wall, .. } | Place::Outside { wall, .. } => Some(format!("W{}", wall.0)),
        Place::Ceiling { .. } | Place::Adrift { .. } => None,
    }
}

/// Facing the wall: "Bed 1, W7, outlet 16 in, 3' 2\" from left".
fn measured(plan: &Plan, drop: &Drop, row: Option<&RoomRow>) -> String {
    let from = |length: Option<crate::units::Mm>, side: &str| {
        length.map(|length| format!("{} from {side}", plan.units.position(length)))
    };
    let left = row.and_then(|row| from(row.left, "left").or_else(|| from(row.right, "right")));
    joined([room(plan, drop), wall(drop), Some(what(plan, drop)), left])
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::picture::sample;
    use crate::plan::edit::Edit;

    #[test]
    fn no_two_drops_are_told_in_the_same_words_unless_they_are_at_one_place() {
        let random = (0..24).map(|seed| crate::plan::edit::sample::plan(seed, 160));
        for plan in random.chain([sample::house()]) {
            let framing = Framing::of(&plan);
            let whither = Whither::of(&plan, &framing);
            let rows = room_list(&plan, &framing);
            let mut known = BTreeSet::new();
            let mut places = BTreeSet::new();
            for drop in &plan.drops {
                let row = rows.iter().find(|row| row.drop == drop.id).unwrap();
                let measured = row.left.is_some() || row.right.is_some();
                let place = (
                    row.room, row.wall, row.left, row.right, row.height, drop.kind,
                );
                let is_alone = places.insert(format!("{place:?} {}", drop.level.0));
                if is_alone && measured && plan.levels.len() == 1 {
                    let words = whither.words(drop);
                    assert!(known.insert(words.clone()), "{words}");
                }
            }
        }
    }

    #[test]
    fn short_words_are_kept_where_they_are_enough() {
        let plan = sample::house();
        let whither = Whither::of(&plan, &Framing::of(&plan));
        let said: Vec<String> = plan.drops.iter().map(|drop| whither.words(drop)).collect();
        assert!(
            said.iter().any(|words| words == "Bed 1, television"),
            "{said:?}"
        );
        assert!(said.iter().any(|words| words.contains(", W")), "{said:?}");
    }

    #[test]
    fn a_drop_without_a_room_is_told_by_its_wall() {
        let plan = sample::house();
        let rooms = plan.levels[0].rooms.iter();
        let rooms = rooms.map(|room| Edit::RemoveRoom(room.id));
        let bare = plan.apply(&Edit::Together(rooms.collect())).unwrap();
        let whither = Whither::of(&bare, &Framing::of(&bare));
        let words = whither.words(&bare.drops[1]);
        assert!(words.starts_with("W6, outlet"), "{words}");
    }
}
