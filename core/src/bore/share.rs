//! Which cables of a split bundle go through which of its bores: those of one box through the same, as far
//! as the bores hold. Sizes nothing: each bore keeps its number of cables of every thickness.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

use crate::plan::{CableId, DropId, Plan};
use crate::route::Ways;
use crate::units::Size;

/// The same bores with their cables given anew, whole boxes first, those with cables of several thicknesses
/// and with most cables before others, for they find room hardest; then branch by branch from the closet, so
/// that what parts from the trunk together goes through it together. A
/// box that no bore has room for goes through several: the bundle is split because one bore is too full
/// for it, and a bore that is larger for the sake of a box would take more wood.
pub(super) fn by_box(
    plan: &Plan,
    ways: &Ways,
    parts: &[Vec<CableId>],
    thick: impl Fn(CableId) -> Size,
) -> Vec<Vec<CableId>> {
    if parts.len() < 2 {
        return parts.to_vec();
    }
    let thick = &|cable: &CableId| thick(*cable).micrometres();
    let of_part = |part: &Vec<CableId>| {
        let mut room: BTreeMap<i64, usize> = BTreeMap::new();
        part.iter()
            .for_each(|cable| *room.entry(thick(cable)).or_default() += 1);
        room
    };
    let mut room: Vec<BTreeMap<i64, usize>> = parts.iter().map(of_part).collect();
    let mut given: Vec<Vec<CableId>> = vec![Vec::new(); parts.len()];
    let mut give = |cables: &[CableId]| {
        let Some(part) = room.iter().position(|room| holds(room, cables, thick)) else {
            return false;
        };
        for cable in cables {
            if let Some(free) = room[part].get_mut(&thick(cable)) {
                *free -= 1;
            }
            given[part].push(*cable);
        }
        true
    };
    let mut parted = boxes(plan, ways, parts);
    let sizes = |cables: &Vec<CableId>| {
        let sizes: BTreeSet<i64> = cables.iter().map(thick).collect();
        sizes.len()
    };
    parted.sort_by_key(|cables| Reverse((sizes(cables), cables.len())));
    parted.retain(|cables| !give(cables));
    for cable in parted.into_iter().flatten() {
        give(&[cable]);
    }
    given.iter_mut().for_each(|part| part.sort());
    given
}

/// Whether there is room for cables, by how many of each thickness are still free.
fn holds(room: &BTreeMap<i64, usize>, cables: &[CableId], thick: impl Fn(&CableId) -> i64) -> bool {
    cables.iter().all(|cable| {
        let alike = cables.iter().filter(|other| thick(other) == thick(cable));
        room.get(&thick(cable))
            .is_some_and(|free| *free >= alike.count())
    })
}

/// The cables of a bundle box by box, in the order in which their ways branch from the closet on.
fn boxes(plan: &Plan, ways: &Ways, parts: &[Vec<CableId>]) -> Vec<Vec<CableId>> {
    let mut boxes: BTreeMap<Option<DropId>, Vec<CableId>> = BTreeMap::new();
    for cable in parts.iter().flatten() {
        let drop = plan.cable(*cable).map(|(drop, _)| drop.id);
        boxes.entry(drop).or_default().push(*cable);
    }
    let mut boxes: Vec<Vec<CableId>> = boxes.into_values().collect();
    boxes.iter_mut().for_each(|cables| cables.sort());
    let branch = |cables: &Vec<CableId>| {
        let way = ways.way(*cables.first()?)?;
        let crossed = way.moves.iter().rev().filter_map(|step| step.crossing);
        Some(crossed.collect::<Vec<usize>>())
    };
    boxes.sort_by_cached_key(branch);
    boxes
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::sample;

    /// The cables of the sample house dealt out one by one.
    fn dealt(plan: &Plan, parts: usize) -> Vec<Vec<CableId>> {
        let mut dealt = vec![Vec::new(); parts];
        for (place, (_, cable)) in plan.cables().enumerate() {
            dealt[place % parts].push(cable.id);
        }
        dealt
    }

    fn thick(plan: &Plan, cable: CableId) -> Size {
        let (_, cable) = plan.cable(cable).unwrap();
        plan.catalogue.diameter(cable.kind)
    }

    #[test]
    fn every_bore_keeps_its_number_of_cables_of_every_thickness() {
        let plan = sample::house();
        for count in 2..6 {
            let parts = dealt(&plan, count);
            let shared = by_box(&plan, &Ways::default(), &parts, |cable| thick(&plan, cable));
            let sizes = |part: &Vec<CableId>| {
                let sizes = part.iter().map(|cable| thick(&plan, *cable).micrometres());
                let mut sizes: Vec<i64> = sizes.collect();
                sizes.sort_unstable();
                sizes
            };
            let all = |parts: &[Vec<CableId>]| parts.iter().map(sizes).collect::<Vec<_>>();
            assert_eq!(all(&shared), all(&parts));
            let mut cables: Vec<CableId> = shared.into_iter().flatten().collect();
            cables.sort();
            let mut drawn: Vec<CableId> = plan.cables().map(|(_, cable)| cable.id).collect();
            drawn.sort();
            assert_eq!(cables, drawn);
        }
    }

    #[test]
    fn boxes_are_parted_only_where_no_bore_has_room() {
        let plan = sample::house();
        let pairs: Vec<&crate::plan::Drop> =
            plan.drops.iter().filter(|d| d.cables.len() == 2).collect();
        let alike = pairs
            .iter()
            .filter(|d| d.cables[0].kind == d.cables[1].kind);
        let alike: Vec<_> = alike.take(4).collect();
        assert_eq!(alike.len(), 4);
        let mut parts = vec![Vec::new(), Vec::new()];
        for drop in &alike {
            parts[0].push(drop.cables[0].id);
            parts[1].push(drop.cables[1].id);
        }
        let shared = by_box(&plan, &Ways::default(), &parts, |cable| thick(&plan, cable));
        let parted = |shared: &[Vec<CableId>]| {
            let holds = |part: usize, id| shared[part].contains(&id);
            let pairs = alike.iter();
            pairs
                .filter(|d| holds(0, d.cables[0].id) != holds(0, d.cables[1].id))
                .count()
        };
        assert_eq!(parted(&shared), 0);
        // Three to five: one box has to part.
        let moved = parts[0].pop().unwrap();
        parts[1].push(moved);
        let shared = by_box(&plan, &Ways::default(), &parts, |cable| thick(&plan, cable));
        assert_eq!(parted(&shared), 1);
    }
}
