//! The cut list: every cable's length, and the reel it comes from.

use crate::plan::{CableId, CableKindId, Drop, DropId, DropKind, Plan};
use crate::route::{MoveKind, Way, Ways};
use crate::rules::RuleId;
use crate::units::{Mm, Units};

/// Every cable with its length to cut.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CutList {
    /// One a cable that has a way, by kind and pull group, longest first within each.
    pub cuts: Vec<Cut>,
    /// Reels in order of use, over all kinds.
    pub reels: Vec<Reel>,
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
    /// Cables pulled together carry the same group number, from 1.
    pub group: u32,
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

impl CutList {
    /// Works out lengths and assigns reels.
    pub(crate) fn of(plan: &Plan, ways: &Ways) -> Self {
        let mut list = Self::default();
        for way in ways.ways.iter().filter(|way| way.trouble.is_none()) {
            if let Some((drop, cable)) = plan.cable(way.cable) {
                list.cuts.push(cut(plan, way, drop, cable.kind));
            }
        }
        list.cuts.sort_by(|a, b| {
            (a.kind, a.group)
                .cmp(&(b.kind, b.group))
                .then(b.length.cmp(&a.length))
                .then(a.cable.cmp(&b.cable))
        });
        list.assign(plan);
        list
    }

    /// Assigns reels kind by kind: each cable to the fullest reel that still holds it, part reels
    /// first, longest cable first.
    fn assign(&mut self, plan: &Plan) {
        for (place, spec) in plan.catalogue.cables.iter().enumerate() {
            let kind = CableKindId(place as u16);
            let mut order: Vec<usize> = (0..self.cuts.len())
                .filter(|cut| self.cuts[*cut].kind == kind)
                .collect();
            order.sort_by(|a, b| {
                self.cuts[*b]
                    .length
                    .cmp(&self.cuts[*a].length)
                    .then(self.cuts[*a].cable.cmp(&self.cuts[*b].cable))
            });
            let first = self.reels.len();
            for part in &spec.part_reels {
                self.open(kind, &spec.name, *part, true, first);
            }
            for cut in order {
                let length = self.cuts[cut].length;
                let holding =
                    (first..self.reels.len()).filter(|reel| self.reels[*reel].left >= length);
                let tightest = holding
                    .min_by_key(|reel| (!self.reels[*reel].part, self.reels[*reel].left, *reel));
                let reel = match tightest {
                    Some(reel) => reel,
                    None if length <= spec.reel => {
                        self.open(kind, &spec.name, spec.reel, false, first)
                    }
                    None => continue,
                };
                self.reels[reel].left = self.reels[reel].left - length;
                self.cuts[cut].reel = Some(reel);
            }
        }
    }

    fn open(
        &mut self,
        kind: CableKindId,
        name: &str,
        length: Mm,
        part: bool,
        first: usize,
    ) -> usize {
        let number = self.reels.len() - first + 1;
        let word = if part { "part reel" } else { "reel" };
        let name = format!("{name} {word} {number}");
        self.reels.push(Reel {
            name,
            kind,
            length,
            left: length,
            part,
        });
        self.reels.len() - 1
    }

    /// The cut of a cable.
    pub fn cut(&self, cable: CableId) -> Option<&Cut> {
        self.cuts.iter().find(|cut| cut.cable == cable)
    }
}

fn cut(plan: &Plan, way: &Way, drop: &Drop, kind: CableKindId) -> Cut {
    let rules = &plan.rules;
    let slack = rules.length(RuleId::SlackCloset) + rules.length(slack_rule(drop.kind));
    let waste = Mm::rounded((way.length.f64() * rules.share(RuleId::Waste)).ceil());
    let length = round_up(plan.units, way.length + slack + waste);
    let group = group(way);
    Cut {
        cable: way.cable,
        drop: drop.id,
        kind,
        path: way.length,
        slack,
        waste,
        length,
        group,
        reel: None,
    }
}

/// The rule that says how much slack a drop of this kind gets.
pub fn slack_rule(kind: DropKind) -> RuleId {
    match kind {
        DropKind::Television => RuleId::SlackTelevision,
        DropKind::CeilingAccessPoint | DropKind::WallAccessPoint => RuleId::SlackAccessPoint,
        DropKind::Camera => RuleId::SlackCamera,
        DropKind::Data | DropKind::Doorbell | DropKind::Other => RuleId::SlackBox,
    }
}

/// A length to cut, rounded up to a whole foot or a tenth of a metre.
fn round_up(units: Units, length: Mm) -> Mm {
    match units {
        Units::Imperial => Mm::feet(units.whole(length) as f64),
        Units::Metric => Mm((length.0 + 99).div_euclid(100) * 100),
    }
}

/// Cables that leave the closet through the same last bore are pulled together.
fn group(way: &Way) -> u32 {
    let through = |kind: MoveKind| !matches!(kind, MoveKind::InBay { .. });
    let last = way
        .moves
        .iter()
        .rev()
        .filter(|step| through(step.kind))
        .find_map(|step| step.crossing);
    last.map_or(0, |crossing| crossing as u32 + 1)
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
