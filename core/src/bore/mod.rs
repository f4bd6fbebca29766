//! From ways to holes: which bit, how full, what the member allows, and what protects it.

mod row;

pub use row::{DrillRow, drill_list};

use crate::plan::CableId;
use crate::units::Size;

/// One hole to drill, through one crossing.
#[derive(Clone, Debug, PartialEq)]
pub struct Bore {
    /// The number people call it by; bores of a straight row share it.
    pub number: u32,
    /// What it goes through, as an index into [`crate::route::Ways::crossings`].
    pub crossing: usize,
    /// Which of the crossing's bores this is, from 0; more than one where the bundle is split.
    pub part: usize,
    /// Members it goes through one after the other.
    pub members: u32,
    /// The bit.
    pub bit: Size,
    /// Cables through it.
    pub cables: Vec<CableId>,
    /// Sum of cable areas over the area of the bore, 0 to 1 and beyond.
    pub fill: f64,
    /// Diameter of the tightest circle around the bundle.
    pub bundle: Size,
    /// The largest bit the member allows; `None` where nothing limits it.
    pub largest: Option<Size>,
    /// Steel plates to nail in front of it, over all its members.
    pub nail_plates: u32,
    /// Whether the plate it weakens gets a tie.
    pub tie: bool,
    /// Whether it is sealed afterwards.
    pub seal: bool,
    /// Whether all of it stays within the rules; findings say what does not.
    pub within_rules: bool,
}

/// Every hole of a plan, numbered.
pub fn size(
    plan: &crate::plan::Plan,
    framing: &crate::framing::Framing,
    ways: &crate::route::Ways,
) -> Vec<Bore> {
    let _ = (plan, framing, ways);
    Vec::new()
}
