//! Looks for the smallest bore: basin hopping inside a bore a little too small for the best so far.
//!
//! The same family as Ye, Huang and Lü, "Iterated tabu search algorithm for packing unequal
//! circles in a circle" (arXiv 1306.0694). Nothing here reads a clock: the effort is a number of
//! pairs looked at.

use super::chance::Chance;
use super::descent::{Descent, FITS, ROUGH};
use super::energy::{Energy, Point};
use super::moves::{self, Moves};
use super::repair::{FULL, Fitted, QUICK, polish, repair};
use super::start::{corner_by_corner, loose_order};

/// Part of the best bore taken away while looking for a better one.
const CLOSE: f64 = 0.015;

/// Places by which a circle may be late in a fresh start.
const LOOSE: usize = 4;

/// So near to enough, an arrangement is closed with full care at once.
const NEARLY: f64 = 1e-3;

/// What a search is asked: how long to look, and what would end it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Question {
    /// Most pairs to look at.
    pub(super) checks: u64,
    /// A bore at which there is nothing more to find.
    pub(super) enough: f64,
    /// Which row of chances to take.
    pub(super) seed: u64,
}

/// The best arrangement found of circles sorted largest first, the largest being about 1.
pub(super) fn search(radii: &[f64], question: Question) -> Fitted {
    let mut search = Search::new(radii, question);
    search.settle();
    while !search.is_over() {
        search.hop_until_stuck();
        search.start_over();
    }
    search.finish()
}

struct Search {
    energy: Energy,
    descent: Descent,
    moves: Moves,
    chance: Chance,
    question: Question,
    best: Fitted,
    /// Energy of the best in the bore now looked at: who comes lower may beat it.
    mark: f64,
    /// Where the search stands, and its energy.
    here: Vec<Point>,
    height: f64,
    trial: Vec<Point>,
}

impl Search {
    fn new(radii: &[f64], question: Question) -> Self {
        let order: Vec<usize> = (0..radii.len()).collect();
        let here = corner_by_corner(radii, &order);
        let checks = question.checks.min(look_through(radii.len()));
        Self {
            energy: Energy::new(radii),
            descent: Descent::new(radii.len()),
            moves: Moves::default(),
            chance: Chance::new(question.seed),
            question: Question { checks, ..question },
            best: repair(radii, &here).unwrap_or_else(|| in_a_row(radii)),
            mark: f64::INFINITY,
            height: f64::INFINITY,
            trial: here.clone(),
            here,
        }
    }

    fn is_over(&self) -> bool {
        self.energy.checks >= self.question.checks || self.best.bore <= self.question.enough
    }

    /// The best, closed as far as its own arrangement allows.
    fn finish(mut self) -> Fitted {
        if self.best.bore <= self.question.enough {
            return self.best;
        }
        let closed = polish(
            &mut self.energy,
            &mut self.descent,
            &self.best.centres,
            FULL,
        );
        closed
            .filter(|closed| closed.bore < self.best.bore)
            .unwrap_or(self.best)
    }

    /// Another place to hop from: built anew, thrown at random, or the best well shaken.
    fn start_over(&mut self) {
        let count = self.here.len();
        match self.chance.below(3) {
            0 => {
                let order = loose_order(count, LOOSE, &mut self.chance);
                self.here = corner_by_corner(&self.energy.radii, &order);
                self.energy.checks += (count * count) as u64;
            }
            1 => moves::throw(&mut self.here, self.best.bore, &mut self.chance),
            _ => {
                self.here.copy_from_slice(&self.best.centres);
                moves::stir(&mut self.here, &mut self.chance);
            }
        }
        self.settle();
    }

    fn settle(&mut self) {
        self.walk_here();
        self.close_if_promising();
    }

    /// Walks from `here` downhill inside a bore a little smaller than the best.
    fn walk_here(&mut self) {
        self.energy.bore = self.best.bore * (1.0 - CLOSE);
        let any = f64::INFINITY;
        self.height = self
            .descent
            .walk(&mut self.energy, &mut self.here, ROUGH, any);
    }

    /// Closes the bore on an arrangement that comes lower than the best did.
    fn close_if_promising(&mut self) {
        while self.height < self.mark && !self.is_over() {
            self.mark = self.height;
            let closed = polish(&mut self.energy, &mut self.descent, &self.here, QUICK);
            let Some(better) = closed.filter(|closed| closed.bore < self.best.bore) else {
                return;
            };
            self.best = self.closed_further(better);
            self.here.copy_from_slice(&self.best.centres);
            self.walk_here();
            self.mark = if self.height <= FITS {
                f64::INFINITY
            } else {
                self.height
            };
        }
        self.energy.bore = self.best.bore * (1.0 - CLOSE);
    }

    /// Near a bore that would be enough, the last thousandth decides.
    fn closed_further(&mut self, better: Fitted) -> Fitted {
        if better.bore > self.question.enough * (1.0 + NEARLY) {
            return better;
        }
        polish(&mut self.energy, &mut self.descent, &better.centres, FULL).unwrap_or(better)
    }

    fn hop_until_stuck(&mut self) {
        let patience = 10 + 6 * self.here.len();
        let mut idle = 0;
        while idle < patience && !self.is_over() {
            idle = if self.hop() { 0 } else { idle + 1 };
        }
    }

    /// One move and a walk downhill; kept when it ends lower.
    fn hop(&mut self) -> bool {
        self.energy.bore = self.best.bore * (1.0 - CLOSE);
        self.trial.copy_from_slice(&self.here);
        self.moves
            .make_one(&mut self.energy, &mut self.trial, &mut self.chance);
        let height = self
            .descent
            .walk(&mut self.energy, &mut self.trial, ROUGH, self.height);
        let lower = height < self.height * (1.0 - 1e-6);
        if lower {
            std::mem::swap(&mut self.here, &mut self.trial);
            self.height = height;
            self.close_if_promising();
        }
        lower
    }
}

/// Pairs after which a bundle of so many has been looked through: found by trial, with room.
fn look_through(count: usize) -> u64 {
    100 * (count as u64).saturating_pow(5)
}

/// All in a line: never good, always without overlap.
pub(super) fn in_a_row(radii: &[f64]) -> Fitted {
    let bore: f64 = radii.iter().sum();
    let mut edge = -bore;
    let place = |radius: &f64| {
        let centre = [edge + radius, 0.0];
        edge += 2.0 * radius;
        centre
    };
    Fitted {
        bore,
        centres: radii.iter().map(place).collect(),
    }
}
