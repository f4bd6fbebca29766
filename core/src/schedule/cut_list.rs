//! The cut list: every cable's length, the pull it goes with, and the reel it comes from.

use super::reels::{self, Look, Piece, ReelPlan, ReelProblem, Stock};
use crate::plan::{CableId, CableKindId, CableSpec, Drop, DropId, Plan};
use crate::route::{MoveKind, Way, Ways};
use crate::rules::RuleId;
use crate::units::{Mm, Units};

/// Every cable with its length to cut.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CutList {
    /// One a cable that has a way, in the order of pulling: by kind, then pull by pull, longest
    /// first within each.
    pub cuts: Vec<Cut>,
    /// Reels over all kinds: the part reels in the van, then the new ones.
    pub reels: Vec<Reel>,
    /// How the reels of each kind in use came out.
    pub kinds: Vec<KindOfReels>,
}

/// One cable to cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// Which cable.
    pub cable: CableId,
    /// Its drop.
    pub drop: DropId,
    /// Its kind.
    pub kind: CableKindId,
    /// Along the framing.
    pub path: Mm,
    /// At both ends.
    pub slack: Mm,
    /// Waste on the path.
    pub waste: Mm,
    /// What to cut: all of it, rounded up to a whole foot or a tenth of a metre.
    pub length: Mm,
    /// The pull it goes with, from 1 in the order of pulling. Cables of one pull come from
    /// different reels.
    pub group: u32,
    /// Its trunk: the last crossing before the closet, as an index into
    /// [`Ways::crossings`](crate::route::Ways::crossings); `None` for a cable that crosses nothing.
    pub trunk: Option<usize>,
    /// The reel it comes from, as an index into [`CutList::reels`]; `None` if no reel holds it.
    pub reel: Option<usize>,
}

/// One reel.
#[derive(Clone, Debug, PartialEq)]
pub struct Reel {
    /// What it is called on the pull sheet: "Cat 6 reel 1".
    pub name: String,
    /// Its kind of cable.
    pub kind: CableKindId,
    /// Its length before the first cut.
    pub length: Mm,
    /// What is left after the last.
    pub left: Mm,
    /// Whether it is a part reel from the van.
    pub part: bool,
}

impl Reel {
    /// Whether anything is cut from it.
    pub fn is_used(&self) -> bool {
        self.left < self.length
    }
}

/// How the reels of one kind of cable came out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KindOfReels {
    /// Which kind.
    pub kind: CableKindId,
    /// New reels to open.
    pub new_reels: usize,
    /// No assignment opens fewer; equal to `new_reels` where that is proved.
    pub fewest_possible: usize,
    /// Reels a pull can draw from at once: part reels, and new ones at hand.
    pub at_hand: usize,
    /// Trunks of more cables than there are reels at hand, split into several pulls.
    pub split: Vec<SplitTrunk>,
    /// New reels opened only so that cables of one pull come from different ones.
    pub for_pulls: usize,
    /// Cables longer than every reel.
    pub too_long: Vec<CableId>,
    /// The longest reel there is, new or part.
    pub longest: Mm,
}

/// A trunk that is pulled in several pulls, for want of reels to draw from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SplitTrunk {
    /// Its last crossing before the closet, as an index into
    /// [`Ways::crossings`](crate::route::Ways::crossings).
    pub crossing: usize,
    /// Its cables of this kind.
    pub cables: usize,
    /// The pulls they go in.
    pub pulls: usize,
}

impl KindOfReels {
    /// Whether no assignment opens fewer new reels.
    pub fn is_proved(&self) -> bool {
        self.new_reels == self.fewest_possible
    }
}

impl CutList {
    /// Works out lengths and assigns reels.
    pub(crate) fn of(plan: &Plan, ways: &Ways, look: Look) -> Self {
        let mut cuts = Vec::new();
        for way in ways.ways.iter().filter(|way| way.trouble.is_none()) {
            if let Some((drop, cable)) = plan.cable(way.cable) {
                cuts.push(cut(plan, way, drop, cable.kind));
            }
        }
        let mut list = Self::default();
        for (place, spec) in plan.catalogue.cables.iter().enumerate() {
            let kind = CableKindId(place as u16);
            let mut of_kind: Vec<Cut> = cuts
                .iter()
                .filter(|cut| cut.kind == kind)
                .cloned()
                .collect();
            // By identity, so that the order of drawing decides nothing.
            of_kind.sort_by_key(|cut| cut.cable);
            if !of_kind.is_empty() {
                list.assign(kind, spec, of_kind, look);
            }
        }
        list
    }

    /// Puts the cables of one kind in the order of pulling and gives each its reel.
    fn assign(&mut self, kind: CableKindId, spec: &CableSpec, cuts: Vec<Cut>, look: Look) {
        let stock = Stock {
            part_reels: spec.part_reels.clone(),
            new_reel: spec.reel,
            on_hand: usize::from(spec.on_hand),
        };
        let crossings = trunks(&cuts);
        let trunks: Vec<Piece> = cuts
            .iter()
            .map(|cut| piece(cut, trunk_number(cut, &crossings)))
            .collect();
        let pulls = reels::pulls(&trunks, &stock, look);
        let first_pull = self.cuts.last().map_or(1, |cut| cut.group + 1);
        let mut ordered = Vec::new();
        for (number, pull) in (first_pull..).zip(&pulls.pulls) {
            let with_pull = |cut: &Cut| Cut {
                group: number,
                ..cut.clone()
            };
            ordered.extend(pull.iter().filter_map(|at| cuts.get(*at)).map(with_pull));
        }
        let pieces: Vec<Piece> = ordered.iter().map(|cut| piece(cut, cut.group)).collect();
        let answer = reels::assign(&pieces, &stock, look);
        self.kinds.push(outcome(
            kind,
            &stock,
            (&pulls, &crossings),
            &answer,
            &ordered,
        ));
        self.take_reels(kind, &spec.name, &answer, &mut ordered);
        self.cuts.extend(ordered);
    }

    fn take_reels(&mut self, kind: CableKindId, name: &str, answer: &ReelPlan, cuts: &mut [Cut]) {
        let parts = answer
            .reels
            .iter()
            .filter(|reel| reel.part.is_some())
            .count();
        for (at, reel) in answer.reels.iter().enumerate() {
            let (word, number) = match reel.part {
                Some(part) => ("part reel", part + 1),
                None => ("reel", at - parts.min(at) + 1),
            };
            for piece in &reel.pieces {
                if let Some(cut) = cuts.get_mut(*piece) {
                    cut.reel = Some(self.reels.len());
                }
            }
            self.reels.push(Reel {
                name: format!("{name} {word} {number}"),
                kind,
                length: reel.length,
                left: reel.remainder,
                part: reel.part.is_some(),
            });
        }
    }

    /// The cut of a cable.
    pub fn cut(&self, cable: CableId) -> Option<&Cut> {
        self.cuts.iter().find(|cut| cut.cable == cable)
    }

    /// How the reels of a kind came out, if any of it is used.
    pub fn kind(&self, kind: CableKindId) -> Option<&KindOfReels> {
        self.kinds.iter().find(|of| of.kind == kind)
    }

    /// Whether every number of new reels is proved the fewest.
    pub fn is_proved(&self) -> bool {
        self.kinds.iter().all(KindOfReels::is_proved)
    }
}

fn piece(cut: &Cut, group: u32) -> Piece {
    Piece {
        length: cut.length,
        group,
    }
}

/// The trunks of some cables, each by its crossing, in the order in which they first occur.
fn trunks(cuts: &[Cut]) -> Vec<usize> {
    let mut crossings = Vec::new();
    for crossing in cuts.iter().filter_map(|cut| cut.trunk) {
        if !crossings.contains(&crossing) {
            crossings.push(crossing);
        }
    }
    crossings
}

/// Trunks by number, from 1; 0 is no trunk.
fn trunk_number(cut: &Cut, crossings: &[usize]) -> u32 {
    let place = crossings.iter().position(|at| Some(*at) == cut.trunk);
    place.map_or(0, |place| place as u32 + 1)
}

fn outcome(
    kind: CableKindId,
    stock: &Stock,
    (pulls, crossings): (&reels::Pulls, &[usize]),
    answer: &ReelPlan,
    cuts: &[Cut],
) -> KindOfReels {
    let mut told = KindOfReels {
        kind,
        new_reels: answer.new_reels,
        fewest_possible: answer.fewest_possible,
        at_hand: stock.part_reels.len() + pulls.new_reels,
        split: Vec::new(),
        for_pulls: 0,
        too_long: Vec::new(),
        longest: stock
            .part_reels
            .iter()
            .copied()
            .fold(stock.new_reel, Mm::max),
    };
    for &(trunk, cables, pulls) in &pulls.split {
        let place = trunk.saturating_sub(1) as usize;
        told.split.push(SplitTrunk {
            crossing: crossings.get(place).copied().unwrap_or_default(),
            cables,
            pulls,
        });
    }
    for problem in &answer.problems {
        match problem {
            ReelProblem::TooLong { piece, .. } => {
                told.too_long.extend(cuts.get(*piece).map(|cut| cut.cable));
            }
            ReelProblem::OpenedForGroups { reels } => told.for_pulls = *reels,
            // Pulls were split so that none is larger than the reels at hand.
            ReelProblem::GroupTooLarge { .. } => {}
        }
    }
    told
}

fn cut(plan: &Plan, way: &Way, drop: &Drop, kind: CableKindId) -> Cut {
    let rules = &plan.rules;
    let slack = drop.kind.slack(rules);
    let waste = Mm::rounded((way.length.f64() * rules.share(RuleId::Waste)).ceil());
    let length = round_up(plan.units, way.length + slack + waste);
    Cut {
        cable: way.cable,
        drop: drop.id,
        kind,
        path: way.length,
        slack,
        waste,
        length,
        group: 0,
        trunk: trunk(way),
        reel: None,
    }
}

/// A length to cut, rounded up to a whole foot or a tenth of a metre.
fn round_up(units: Units, length: Mm) -> Mm {
    match units {
        Units::Imperial => Mm::feet(units.whole(length) as f64),
        Units::Metric => Mm((length.0 + 99).div_euclid(100) * 100),
    }
}

/// Cables that come to the closet through the same last bore share a trunk.
fn trunk(way: &Way) -> Option<usize> {
    let through = |kind: MoveKind| !matches!(kind, MoveKind::InBay { .. });
    way.moves
        .iter()
        .rev()
        .filter(|step| through(step.kind))
        .find_map(|step| step.crossing)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_to_cut_are_rounded_up() {
        assert_eq!(round_up(Units::Imperial, Mm(3000)), Mm::feet(10.0));
        assert_eq!(round_up(Units::Imperial, Mm::feet(10.0)), Mm::feet(10.0));
        assert_eq!(round_up(Units::Metric, Mm(3001)), Mm(3100));
    }
}
