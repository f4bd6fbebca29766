//! When so much lies on a screen that a part of it is left out. Paper shows everything.

use super::{LevelSheet, Stress};

/// More drops, bores, walls and rooms than this on a screen go without names. A house of 350 cables has a few
/// hundred.
const CROWD: usize = 900;
/// More moves of cables than this are not drawn on a screen, but for those of a cable that is chosen. A
/// house of 350 cables has 6,000.
const TANGLE: usize = 40_000;

impl LevelSheet<'_> {
    /// Whether so much lies on a screen that names would find no place and take too long to seek one.
    pub(super) fn is_crowded(&self) -> bool {
        let here = self.plan.drops.iter();
        let drops = here.filter(|drop| drop.level == self.level.id).count();
        let named = self.level.walls.len() + self.level.rooms.len();
        let many = drops + self.design.bores.len() + named;
        self.showing.stress != Stress::Paper && many > CROWD
    }

    /// Whether there are so many ways that nobody could follow one of them on a screen.
    pub(super) fn is_tangled(&self) -> bool {
        let moves: usize = self
            .design
            .ways
            .ways
            .iter()
            .map(|way| way.moves.len())
            .sum();
        self.showing.stress != Stress::Paper && moves > TANGLE
    }
}
