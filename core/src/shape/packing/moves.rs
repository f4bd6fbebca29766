//! The moves of the search: who changes places, who leaves a tight spot, when to shake.
//!
//! A move only suggests; the search decides whether to keep what comes of it.

use super::chance::Chance;
use super::energy::{Energy, Point, between, length};

/// Sizes apart that two circles may be and still change places.
const STEPS_APART: usize = 4;

/// Spots tried for a circle that leaves a tight one.
const SPOTS: usize = 30;

/// How far a shake moves a circle, in radii of the largest.
const SHAKE: f64 = 0.8;

/// Chooses and makes moves, with its buffer.
#[derive(Clone, Debug, Default)]
pub(super) struct Moves {
    squeeze: Vec<f64>,
}

impl Moves {
    /// Eight moves in ten exchange two circles, one takes one elsewhere, one shakes all: by trial.
    pub(super) fn make_one(
        &mut self,
        energy: &mut Energy,
        centres: &mut [Point],
        chance: &mut Chance,
    ) {
        match chance.below(10) {
            0..8 => exchange(&energy.radii, centres, chance),
            8 => self.take_elsewhere(energy, centres, chance),
            _ => shake(centres, SHAKE, chance),
        }
    }

    /// Takes the most squeezed of a few circles to the roomiest of some spots.
    fn take_elsewhere(&mut self, energy: &mut Energy, centres: &mut [Point], chance: &mut Chance) {
        energy.squeeze(centres, &mut self.squeeze);
        let pain = |index: usize| self.squeeze[index] / energy.radii[index];
        let mut worst = chance.below(centres.len());
        for _ in 0..3 {
            let other = chance.below(centres.len());
            if pain(other) > pain(worst) {
                worst = other;
            }
        }
        centres[worst] = roomiest(energy, centres, worst, chance);
    }
}

/// Two circles of neighbouring sizes change places; equal circles are shaken instead.
fn exchange(radii: &[f64], centres: &mut [Point], chance: &mut Chance) {
    let count = radii.len();
    let first = chance.below(count);
    let ahead = chance.below(STEPS_APART);
    let smaller = (first + 1..count).find(|other| radii[*other] < radii[first]);
    match smaller {
        Some(next) => centres.swap(first, (next + ahead).min(count - 1)),
        None => shake(centres, SHAKE, chance),
    }
}

fn roomiest(energy: &mut Energy, centres: &[Point], who: usize, chance: &mut Chance) -> Point {
    let reach = (energy.bore - energy.radii[who]).max(0.0);
    let mut best = centres[who];
    let mut most = f64::NEG_INFINITY;
    for _ in 0..SPOTS {
        let [x, y] = chance.in_unit_circle();
        let spot = [x * reach, y * reach];
        let room = room(&energy.radii, centres, spot, who);
        if room > most {
            (best, most) = (spot, room);
        }
    }
    energy.checks += (SPOTS * centres.len()) as u64;
    best
}

/// Distance to the nearest other circle, less than zero inside one.
fn room(radii: &[f64], centres: &[Point], spot: Point, except: usize) -> f64 {
    let mut room = f64::INFINITY;
    for (index, (centre, radius)) in centres.iter().zip(radii).enumerate() {
        if index != except {
            room = room.min(length(between(spot, *centre)) - radius);
        }
    }
    room
}

/// Moves every circle a little.
pub(super) fn shake(centres: &mut [Point], far: f64, chance: &mut Chance) {
    for centre in centres {
        let [dx, dy] = chance.in_unit_circle();
        *centre = [centre[0] + far * dx, centre[1] + far * dy];
    }
}

/// Exchanges about a third of the circles, whatever their sizes, and shakes all.
pub(super) fn stir(centres: &mut [Point], chance: &mut Chance) {
    for index in 0..centres.len() {
        if chance.below(3) == 0 {
            centres.swap(index, chance.below(centres.len()));
        }
    }
    shake(centres, 0.6 * SHAKE, chance);
}

/// Throws the circles anywhere into the bore.
pub(super) fn throw(centres: &mut [Point], bore: f64, chance: &mut Chance) {
    centres.fill([0.0; 2]);
    shake(centres, bore, chance);
}
