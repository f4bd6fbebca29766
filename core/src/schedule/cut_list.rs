//! The cut list: every cable's length, the pull it goes with, and the reel it comes from.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::pulls::{self, AtHand, Pull, PullTally, Stretches};
use super::reels::{self, Look, Piece, ReelPlan, ReelProblem, Stock};
use crate::plan::{CableId, CableKindId, CableSpec, Drop, DropId, Plan};
use crate::route::{MoveKind, Way, Ways};
use crate::rules::RuleId;
use crate::units::{Mm, Units};

/// Every cable with its length to cut.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct CutList {
    /// One a cable that has a way, in the order of pulling: pull by pull, and box by box in each, the
    /// farthest first.
    pub cuts: Vec<Cut>,
    /// The pulls, in their order.
    pub pulls: Vec<Pull>,
    /// Reels over all kinds: the part reels in the van, then the new ones.
    pub reels: Vec<Reel>,
    /// How the reels of each kind in use came out.
    pub kinds: Vec<KindOfReels>,
}

/// One cable to cut.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
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
    /// The pull it goes with, from 1 in the order of pulling. Cables of one kind in one pull come from
    /// different reels.
    pub pull: u32,
    /// The last crossing before the closet, as an index into
    /// [`Ways::crossings`](crate::route::Ways::crossings); `None` for a cable that crosses nothing.
    pub trunk: Option<usize>,
    /// The reel it comes from, as an index into [`CutList::reels`]; `None` if no reel holds it.
    pub reel: Option<usize>,
}

/// One reel.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
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
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
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
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
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
    /// Works out lengths, puts the cables in the order of pulling and gives each its reel.
    pub(crate) fn of(plan: &Plan, ways: &Ways, look: Look) -> Self {
        let mut cuts = Vec::new();
        for way in ways.ways.iter().filter(|way| way.trouble.is_none()) {
            if let Some((drop, cable)) = plan.cable(way.cable) {
                cuts.push(cut(plan, way, drop, cable.kind));
            }
        }
        // By identity, so that the order of drawing decides nothing.
        cuts.sort_by_key(|cut| cut.cable);
        let stocks: BTreeMap<CableKindId, Stock> = (0..)
            .map(CableKindId)
            .zip(&plan.catalogue.cables)
            .filter(|(kind, _)| cuts.iter().any(|cut| cut.kind == *kind))
            .map(|(kind, spec)| (kind, stock(spec)))
            .collect();
        // A kind that the catalogue does not know has no reel to come from.
        cuts.retain(|cut| stocks.contains_key(&cut.kind));
        let at_hand = stocks.iter().map(|(kind, stock)| {
            let of_kind: Vec<Piece> = cuts.iter().filter(|c| c.kind == *kind).map(piece).collect();
            (*kind, at_hand(stock, &of_kind, look))
        });
        let at_hand: BTreeMap<CableKindId, AtHand> = at_hand.collect();
        let stretches = Stretches::of(ways);
        let mut list = Self {
            cuts: in_pull_order(&cuts, pulls::group(&stretches, &cuts, &at_hand)),
            ..Self::default()
        };
        for (kind, stock) in &stocks {
            list.assign(plan, *kind, stock, &at_hand[kind], look);
        }
        list.pulls = pulls::told(plan, &stretches, &list.cuts);
        list
    }

    /// Gives the cables of one kind their reels.
    fn assign(
        &mut self,
        plan: &Plan,
        kind: CableKindId,
        stock: &Stock,
        at_hand: &AtHand,
        look: Look,
    ) {
        let places: Vec<usize> = (0..self.cuts.len())
            .filter(|at| self.cuts[*at].kind == kind)
            .collect();
        let of_kind: Vec<&Cut> = places.iter().map(|at| &self.cuts[*at]).collect();
        let pieces: Vec<Piece> = of_kind.iter().map(|cut| piece(cut)).collect();
        let answer = reels::assign(&pieces, stock, look);
        let told = outcome(kind, stock, at_hand, &answer, &of_kind);
        self.kinds.push(told);
        let name = plan
            .catalogue
            .cable(kind)
            .map_or("Cable", |spec| spec.name.as_str());
        self.take_reels(kind, name, &answer, &places);
    }

    fn take_reels(&mut self, kind: CableKindId, name: &str, answer: &ReelPlan, places: &[usize]) {
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
                let place = places.get(*piece);
                if let Some(cut) = place.and_then(|place| self.cuts.get_mut(*place)) {
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

    /// The pull with a number.
    pub fn pull(&self, number: u32) -> Option<&Pull> {
        self.pulls.iter().find(|pull| pull.number == number)
    }

    /// What the pulls take.
    pub fn tally(&self, plan: &Plan, ways: &Ways) -> PullTally {
        let drawn = |pull: &[Cut]| pull.iter().map(|cut| (cut.cable, cut.reel)).collect();
        let pulls = self.cuts.chunk_by(|a, b| a.pull == b.pull).map(drawn);
        PullTally::of(plan, ways, &pulls.collect::<Vec<_>>())
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

/// The cuts in the order of pulling, with the numbers of their pulls.
fn in_pull_order(cuts: &[Cut], pulls: Vec<Vec<usize>>) -> Vec<Cut> {
    let numbered = (1..).zip(pulls).flat_map(|(number, pull)| {
        let with_number = move |at: usize| Cut {
            pull: number,
            ..cuts[at].clone()
        };
        pull.into_iter().map(with_number)
    });
    numbered.collect()
}

fn stock(spec: &CableSpec) -> Stock {
    Stock {
        part_reels: spec.part_reels.clone(),
        new_reel: spec.reel,
        on_hand: usize::from(spec.on_hand),
    }
}

/// The reels one pull can draw from: part reels, and as many new ones as the lengths need or as are in the
/// van.
fn at_hand(stock: &Stock, pieces: &[Piece], look: Look) -> AtHand {
    AtHand {
        part_reels: stock.part_reels.clone(),
        new_reel: stock.new_reel,
        new_reels: reels::fewest_by_length(pieces, stock, look).max(stock.on_hand),
    }
}

fn piece(cut: &Cut) -> Piece {
    Piece {
        length: cut.length,
        pull: cut.pull,
    }
}

/// Trunks of more cables of a kind than there are reels to draw from, by their last crossing.
fn split(cuts: &[&Cut], at_hand: usize) -> Vec<SplitTrunk> {
    let mut crossings: Vec<usize> = Vec::new();
    for crossing in cuts.iter().filter_map(|cut| cut.trunk) {
        if !crossings.contains(&crossing) {
            crossings.push(crossing);
        }
    }
    let trunk = |crossing: usize| {
        let through = cuts.iter().filter(|cut| cut.trunk == Some(crossing));
        let mut pulls: Vec<u32> = through.map(|cut| cut.pull).collect();
        let cables = pulls.len();
        pulls.dedup();
        SplitTrunk {
            crossing,
            cables,
            pulls: pulls.len(),
        }
    };
    let trunks = crossings.into_iter().map(trunk);
    trunks
        .filter(|trunk| trunk.cables > at_hand && trunk.pulls > 1)
        .collect()
}

fn outcome(
    kind: CableKindId,
    stock: &Stock,
    at_hand: &AtHand,
    answer: &ReelPlan,
    cuts: &[&Cut],
) -> KindOfReels {
    let at_hand = stock.part_reels.len() + at_hand.new_reels;
    let mut told = KindOfReels {
        kind,
        new_reels: answer.new_reels,
        fewest_possible: answer.fewest_possible,
        at_hand,
        split: split(cuts, at_hand),
        for_pulls: 0,
        too_long: Vec::new(),
        longest: stock
            .part_reels
            .iter()
            .copied()
            .fold(stock.new_reel, Mm::max),
    };
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
        pull: 0,
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
