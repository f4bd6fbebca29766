//! The tally: every count of the job, always true.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{CutList, Hours, Price};
use crate::bore::Bore;
use crate::framing::{Framing, Hang, hang_of};
use crate::plan::{BoxKind, CableKindId, Plan};
use crate::route::Ways;
use crate::rules::RuleId;
use crate::units::{Mm, Size};

/// The counts of a job.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Totals {
    /// Drops.
    pub drops: u32,
    /// Cables.
    pub cables: u32,
    /// Length to cut of each kind of cable that is used, in order of the catalogue.
    pub cable: Vec<CableTotal>,
    /// New reels to open, over all kinds.
    pub reels: u32,
    /// Holes to drill: each member of each bore.
    pub bores: u32,
    /// Holes by bit, smallest first.
    pub by_bit: Vec<(Size, u32)>,
    /// Steel nail plates.
    pub nail_plates: u32,
    /// Plate ties.
    pub ties: u32,
    /// Seals.
    pub seals: u32,
    /// Supports.
    pub supports: u32,
    /// Brackets to set, by gangs (1 to 4).
    pub brackets: [u32; 4],
    /// Brackets that hang between two studs, on a piece of blocking each.
    pub blocking: u32,
    /// Boxes set by others.
    pub boxes_by_others: u32,
    /// Faceplates by gangs (1 to 4).
    pub faceplates: [u32; 4],
    /// Jacks.
    pub keystones: u32,
    /// Hours of work.
    pub hours: f64,
    /// What the finished bores cost, beside what the ways were sought by.
    pub price: Price,
}

/// The total of one kind of cable.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CableTotal {
    /// Which kind.
    pub kind: CableKindId,
    /// Cables of this kind.
    pub cables: u32,
    /// Length to cut, slack and waste included.
    pub length: Mm,
    /// New reels to open.
    pub reels: u32,
}

impl Totals {
    /// Counts a job.
    pub(crate) fn of(
        plan: &Plan,
        framing: &Framing,
        ways: &Ways,
        bores: &[Bore],
        cuts: &CutList,
    ) -> Self {
        let mut totals = Self {
            drops: plan.drops.len() as u32,
            cables: plan.cables().count() as u32,
            cable: cable_totals(plan, cuts),
            reels: cuts.reels.iter().filter(|reel| !reel.part).count() as u32,
            supports: supports(plan, ways),
            price: Price::of(ways, bores),
            blocking: blocking(plan, framing).iter().map(|(_, count)| count).sum(),
            ..Self::default()
        };
        totals.count_bores(bores);
        totals.count_boxes(plan);
        totals.hours = Hours::of(plan, ways, bores, &totals).all();
        totals
    }

    fn count_bores(&mut self, bores: &[Bore]) {
        for bore in bores {
            self.bores += bore.members;
            self.nail_plates += bore.nail_plates;
            self.ties += u32::from(bore.tie);
            self.seals += u32::from(bore.seal);
            match self.by_bit.iter_mut().find(|(bit, _)| *bit == bore.bit) {
                Some((_, count)) => *count += bore.members,
                None => self.by_bit.push((bore.bit, bore.members)),
            }
        }
        self.by_bit.sort_by(|a, b| a.0.0.total_cmp(&b.0.0));
    }

    fn count_boxes(&mut self, plan: &Plan) {
        for drop in &plan.drops {
            let gang = usize::from(drop.gangs.clamp(1, 4)) - 1;
            match drop.fixing {
                BoxKind::Bracket => {
                    self.brackets[gang] += 1;
                    self.faceplates[gang] += 1;
                    self.keystones += drop.cables.len() as u32;
                }
                BoxKind::ByOthers => self.boxes_by_others += 1,
                BoxKind::None => {}
            }
        }
    }
}

/// How many pieces of blocking the brackets take that hang between two studs, by the lumber of their walls.
pub fn blocking(plan: &Plan, framing: &Framing) -> Vec<(String, u32)> {
    let ours = plan
        .drops
        .iter()
        .filter(|drop| drop.fixing == BoxKind::Bracket);
    let between =
        ours.filter(|drop| matches!(hang_of(plan, framing, drop), Some(Ok(Hang::Between(..)))));
    let walls = between.filter_map(|drop| plan.wall(drop.place.on_wall()?.0));
    let mut counts: BTreeMap<String, u32> = BTreeMap::new();
    for (_, wall) in walls {
        *counts.entry(wall.lumber.name().to_string()).or_default() += 1;
    }
    counts.into_iter().collect()
}

fn cable_totals(plan: &Plan, cuts: &CutList) -> Vec<CableTotal> {
    let of = |place: usize| {
        let kind = CableKindId(place as u16);
        let cables = plan
            .cables()
            .filter(|(_, cable)| cable.kind == kind)
            .count() as u32;
        let length = cuts
            .cuts
            .iter()
            .filter(|cut| cut.kind == kind)
            .map(|cut| cut.length)
            .sum();
        let reels = cuts
            .reels
            .iter()
            .filter(|reel| reel.kind == kind && !reel.part)
            .count() as u32;
        CableTotal {
            kind,
            cables,
            length,
            reels,
        }
    };
    (0..plan.catalogue.cables.len())
        .map(of)
        .filter(|total| total.cables > 0)
        .collect()
}

/// Supports along what runs in the open: one at the start and one each full spacing.
fn supports(plan: &Plan, ways: &Ways) -> u32 {
    let spacing = plan.rules.value(RuleId::Support).max(1.0);
    (ways.supported.f64() / spacing).ceil() as u32
}
