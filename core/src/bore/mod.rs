//! From ways to holes: which bit, how full, what the member allows, and what protects it.
//!
//! [`size`] turns every crossing into one bore or, where no bit holds the bundle, into several;
//! [`drill_list`] collapses straight rows of bores into one line each. How tightly a bundle packs
//! is asked of [`crate::shape::packing`]; what a member allows, of [`crate::rules`].

mod bearing;
mod corner;
mod cut;
mod fit;
mod joist;
mod limit;
mod member;
mod number;
mod offer;
mod place;
mod printed;
mod row;
mod share;
mod whereabouts;

pub use crate::route::Limit;
pub use bearing::{Share, bearing_words, rules_of_rows, share};
pub use corner::{Corner, Half, Lie};
pub use joist::{from_joist, in_joists};
pub use limit::{limit, rules_of};
pub use member::{is_gable, member_name, what_name};
pub use place::{Close, in_the_way, near_cuts, too_close};
pub use printed::{SincePrinted, hole, rows, sum};
pub use row::{DrillRow, drill_list};
pub use whereabouts::{Across, Along, Face, Past, Whereabouts, Which, count_words, of_closet};

use serde::{Deserialize, Serialize};

use crate::framing::Framing;
use crate::plan::{CableId, Plan};
use crate::route::{Bits, Ways};
use crate::units::Size;

/// One hole to drill, through one crossing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Bore {
    /// The number people call it by; bores of a straight row share it.
    pub number: u32,
    /// What it goes through, as an index into [`crate::route::Ways::crossings`].
    pub crossing: usize,
    /// Which of the crossing's bores this is, from 0; more than one where the bundle is split.
    pub part: usize,
    /// Offset along the wall, or coordinate along the joist, millimetres.
    pub offset: f64,
    /// Its middle above the level's finished floor, millimetres.
    pub height: f64,
    /// Members it goes through one after the other.
    pub members: u32,
    /// The bit.
    pub bit: Size,
    /// Cables through it.
    pub cables: Vec<CableId>,
    /// Sum of cable areas over the area of the bore, 0 to 1 and beyond.
    pub fill: f64,
    /// The largest bore the member allows; `None` where no rule limits it.
    pub largest: Option<Size>,
    /// Steel plates to nail in front of it, over all its members.
    pub nail_plates: u32,
    /// Whether the plate it weakens gets a tie.
    pub tie: bool,
    /// Whether it is sealed afterwards.
    pub seal: bool,
    /// What drilling it takes, with its seal and steel, in thousandths of a minute of work; of one that is not
    /// within the rules, what the widest lawful one takes.
    pub price: u32,
    /// Whether fill, packing and the member's limit all hold; findings say what does not.
    pub within_rules: bool,
    /// Why the bundle was split, or why it was not although it needs steel, with what the other way
    /// would take; empty where there was nothing to choose.
    pub reason: String,
}

#[cfg(test)]
impl Bore {
    /// Through this crossing with this bit, at the origin, empty and within the rules; for tests.
    pub(crate) fn of(crossing: usize, bit: Size) -> Self {
        Self {
            number: 0,
            crossing,
            part: 0,
            offset: 0.0,
            height: 0.0,
            members: 1,
            bit,
            cables: Vec::new(),
            fill: 0.0,
            largest: None,
            nail_plates: 0,
            tie: false,
            seal: false,
            price: 0,
            within_rules: true,
            reason: String::new(),
        }
    }
}

/// Every hole of a plan, numbered along walls so that a straight row shares one number.
pub fn size(plan: &Plan, framing: &Framing, ways: &Ways) -> Vec<Bore> {
    let mut bores = Vec::new();
    let mut bits = Bits::of(plan);
    for place in 0..ways.crossings.len() {
        bores.extend(fit::bores(plan, framing, ways, &mut bits, place));
    }
    place::place(plan, framing, ways, &mut bores);
    number(plan, framing, ways, &mut bores);
    bores
}

/// Numbers bores anew, in the order of the drill list: those at places that are printed as they are
/// on paper.
pub fn number(plan: &Plan, framing: &Framing, ways: &Ways, bores: &mut [Bore]) {
    number::number(plan, framing, ways, bores);
}
