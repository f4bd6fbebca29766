//! The way of the chosen cable, in the signal colour, under the symbols and over everything else.

use borewright_core::design::Design;
use borewright_core::desk::Choice;
use borewright_core::picture::way_pieces;
use borewright_core::plan::{CableId, LevelId, Plan};

use super::ink::chain;

/// Path data of the way of the chosen cable, or of every cable of the chosen drop.
pub fn chosen_ways(plan: &Plan, design: &Design, level: LevelId, chosen: Option<Choice>) -> String {
    let cables: Vec<CableId> = match chosen {
        Some(Choice::Cable(cable)) => vec![cable],
        Some(Choice::Drop(drop)) => {
            let drop = plan.drops.iter().find(|one| one.id == drop);
            drop.map(|drop| drop.cables.iter().map(|cable| cable.id).collect())
                .unwrap_or_default()
        }
        _ => Vec::new(),
    };
    let pieces = cables
        .into_iter()
        .flat_map(|cable| way_pieces(plan, design, level, cable));
    pieces.map(|piece| chain(&piece)).collect()
}
