//! The crew's bits, and how much cable goes through what each bores: one rule for the router and for
//! bores. Chooses no bit.

use std::collections::BTreeMap;

use crate::plan::{Cable, CableId, Plan};
use crate::rules::{RuleId, RuleSet};
use crate::shape::packing::{self, Effort};
use crate::units::{Area, Size};

/// The most bundles that are made up to find what a bit holds, and the most that are packed: some
/// milliseconds of either.
const MOST_MADE: u32 = 4_000;
const MOST_TRIED: u32 = 40;

/// Hundredths of a square millimetre in one.
const HUNDREDTHS: f64 = 100.0;

/// The bits of a plan, and what was found of bundles and bores, so that nothing is sought twice.
#[derive(Clone, Debug)]
pub struct Bits {
    rules: RuleSet,
    owned: Vec<Size>,
    diameters: BTreeMap<CableId, Size>,
    /// Every thickness of cable that is used and how many cables have it, thickest first.
    used: Vec<(Size, usize)>,
    capacities: BTreeMap<i64, u32>,
    held: BTreeMap<(Vec<i64>, i64), bool>,
}

impl Bits {
    /// The bits and the cables of a plan.
    pub fn of(plan: &Plan) -> Self {
        let thick = |cable: &Cable| (cable.id, plan.catalogue.diameter(cable.kind));
        let diameters: BTreeMap<CableId, Size> =
            plan.cables().map(|(_, cable)| thick(cable)).collect();
        let mut sorted: Vec<i64> = diameters.values().map(|d| d.micrometres()).collect();
        sorted.sort_unstable_by(|a, b| b.cmp(a));
        let alike = sorted.chunk_by(|a, b| a == b);
        Self {
            rules: plan.rules.clone(),
            owned: plan.catalogue.bits.clone(),
            used: alike
                .map(|alike| (Size::from_micrometres(alike[0]), alike.len()))
                .collect(),
            diameters,
            capacities: BTreeMap::new(),
            held: BTreeMap::new(),
        }
    }

    /// The bits the crew owns, smallest first.
    pub fn owned(&self) -> &[Size] {
        &self.owned
    }

    /// A cable's diameter; zero for one that is not in the plan.
    pub fn diameter(&self, cable: CableId) -> Size {
        self.diameters.get(&cable).copied().unwrap_or_default()
    }

    /// Whether a bit's bore holds cables of these diameters: by fill, and by the tightest arrangement
    /// plus pulling room.
    pub fn holds(&mut self, diameters: &[Size], bit: Size) -> bool {
        let area: Area = diameters.iter().map(|diameter| diameter.circle()).sum();
        let full = area.0 / bit.circle().0;
        full <= self.rules.fill_limit(diameters.len()) + 1e-9
            && self.fits(diameters, self.opening(bit))
    }

    /// The cable area, in hundredths of a square millimetre, up to which a bit's bore holds every bundle of
    /// the cables that are used.
    ///
    /// By fill; and circles of at most half the area of an opening always fit it (see
    /// [`packing::fits`]), so that only fuller bundles, and pairs where fill goes by count, are tried.
    pub fn capacity(&mut self, bit: Size) -> u32 {
        let key = bit.micrometres();
        if let Some(known) = self.capacities.get(&key) {
            return *known;
        }
        let most = hundredths(self.rules.bore_capacity(bit));
        let sure = hundredths(Area(self.opening(bit).circle().0 / 2.0));
        let few =
            (1..=2).map(|count| hundredths(Area(bit.circle().0 * self.rules.fill_limit(count))));
        let from = few.fold(sure.min(most), u32::min);
        let mut trial = Trial::of(bit, (from, most));
        let refused = match from < most {
            true => self.least_refused(0, &mut trial),
            false => None,
        };
        let capacity = match trial.is_left() {
            true => refused.map_or(most, |area| area - 1),
            false => from,
        };
        self.capacities.insert(key, capacity);
        capacity
    }

    /// The least area of a bundle, of what is on trial and of any cables of this thickness and thinner, that
    /// the bore does not hold.
    fn least_refused(&mut self, thickness: usize, trial: &mut Trial) -> Option<u32> {
        let Some(&(diameter, count)) = self.used.get(thickness) else {
            let refused = trial.is_meant() && !self.holds(&trial.diameters, trial.bit);
            return refused.then_some(trial.area);
        };
        let one = area_of(diameter);
        let kept = (trial.area, trial.diameters.len());
        let mut least = None;
        for _ in 0..=count {
            if trial.area > least.unwrap_or(trial.range.1) || !trial.is_left() {
                break;
            }
            let found = self.least_refused(thickness + 1, trial);
            least = least.into_iter().chain(found).min();
            trial.area = trial.area.saturating_add(one);
            trial.diameters.push(diameter);
        }
        trial.area = kept.0;
        trial.diameters.truncate(kept.1);
        least
    }

    /// What is left of a bore for cable.
    fn opening(&self, bit: Size) -> Size {
        Size((bit.0 - self.rules.value(RuleId::PullingRoom)).max(0.0))
    }

    /// Whether cables of these diameters fit a round opening.
    fn fits(&mut self, diameters: &[Size], opening: Size) -> bool {
        let mut sorted: Vec<f64> = diameters.iter().map(|diameter| diameter.0).collect();
        sorted.sort_by(f64::total_cmp);
        let bundle = sorted.iter().map(|d| Size(*d).micrometres()).collect();
        let key = (bundle, opening.micrometres());
        let sought = || packing::fits(&sorted, opening.0, Effort::LIVE).unwrap_or(false);
        *self.held.entry(key).or_insert_with(sought)
    }
}

/// Cables that are tried together in a bit's bore.
struct Trial {
    bit: Size,
    /// Areas above the first and up to the second are tried.
    range: (u32, u32),
    area: u32,
    diameters: Vec<Size>,
    /// Bundles that may still be made up, and tried.
    left: [u32; 2],
}

impl Trial {
    fn of(bit: Size, range: (u32, u32)) -> Self {
        Self {
            bit,
            range,
            area: 0,
            diameters: Vec::new(),
            left: [MOST_MADE, MOST_TRIED],
        }
    }

    fn is_left(&self) -> bool {
        self.left.iter().all(|left| *left > 0)
    }

    /// Whether the bundle as it is now is to be tried; counts it.
    fn is_meant(&mut self) -> bool {
        let is_meant = self.area > self.range.0 && self.area <= self.range.1;
        self.left[0] -= 1;
        self.left[1] -= u32::from(is_meant);
        is_meant
    }
}

/// An area in whole hundredths of a square millimetre, rounded down.
fn hundredths(area: Area) -> u32 {
    (area.0 * HUNDREDTHS + 1e-6).floor().clamp(0.0, 1e9) as u32
}

/// A cable's area as the router counts it, in whole hundredths of a square millimetre, rounded up: what
/// holds so much holds the cable.
pub fn area_of(diameter: Size) -> u32 {
    (diameter.circle().0 * HUNDREDTHS - 1e-6)
        .ceil()
        .clamp(1.0, 1e9) as u32
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::Edit;
    use crate::plan::{CableKindId, DropKind, Place};
    use crate::shape::Point;

    /// A plan with these cables on its ceiling.
    fn plan(kinds: &[CableKindId]) -> Plan {
        let plan = Plan::new();
        let level = plan.levels[0].id;
        let at = Point::new(500, 500);
        let (kind, place) = (DropKind::CeilingAccessPoint, Place::Ceiling { at });
        let mut plan = plan.apply(&Edit::AddDrop { kind, level, place }).unwrap();
        let drop = plan.drops[0].id;
        for kind in kinds {
            plan = plan.apply(&Edit::AddCable(drop, *kind)).unwrap();
        }
        plan
    }

    fn capacity(plan: &Plan, inches: f64) -> u32 {
        Bits::of(plan).capacity(Size::inches(inches))
    }

    /// By hand at 40 % of the bore: 1 in 202.68 mm2, 1-1/2 in 456.04. Seven of 28.28 go through the first,
    /// three abreast in 18 + 3 mm.
    #[test]
    fn what_a_bit_holds_goes_by_fill_where_every_bundle_packs() {
        let plan = plan(&[CableKindId::CAT6; 9]);
        assert_eq!(capacity(&plan, 1.0), 20_268);
        assert_eq!(capacity(&plan, 1.5), 45_603);
    }

    /// 5/8 in is 79.17 mm2 at 40 %, but leaves 12.875 mm for cable: 6.0 and 6.9 abreast want 12.9. All
    /// bundles smaller than theirs pass.
    #[test]
    fn a_bundle_that_does_not_pack_limits_what_a_bit_holds() {
        let plan = plan(&[CableKindId::CAT6, CableKindId::COAX]);
        let pair = area_of(Size(6.0)) + area_of(Size(6.9));
        assert_eq!(capacity(&plan, 0.625), pair - 1);
    }

    /// Two cables are held to 31 % where fill goes by count, so a pair between 31 and 40 % counts as too
    /// much for the bit.
    #[test]
    fn fill_by_count_limits_pairs() {
        let mut plan = plan(&[CableKindId::CAT6A; 3]);
        assert_eq!(capacity(&plan, 0.75), 11_400);
        plan.rules.changed.insert(RuleId::FillByCount, 1.0);
        let pair = 2 * area_of(Size(7.5));
        assert!(f64::from(pair) / 100.0 / Size::inches(0.625).circle().0 > 0.31);
        assert!(capacity(&plan, 0.625) < pair);
    }

    /// Cables so thin that no count of bundles could be tried: what is proven to pack is what counts.
    #[test]
    fn more_bundles_than_can_be_tried_leave_what_is_proven() {
        let mut plan = plan(&[]);
        let cable = plan.drops[0].cables[0];
        let more = (1..200).map(|id| Cable {
            id: CableId(1_000 + id),
            ..cable
        });
        plan.drops[0].cables.extend(more);
        for (place, cable) in plan.catalogue.cables.iter_mut().enumerate() {
            cable.diameter = Size(1.0 + place as f64 / 10.0);
        }
        for (place, cable) in plan.drops[0].cables.iter_mut().enumerate() {
            cable.kind = CableKindId((place % 4) as u16);
        }
        let bit = Size::inches(0.75);
        let half = (bit.0 - 3.0) * (bit.0 - 3.0) * std::f64::consts::FRAC_PI_4 * 50.0;
        assert_eq!(capacity(&plan, 0.75), half.floor() as u32);
    }
}
