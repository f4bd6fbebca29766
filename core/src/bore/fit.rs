//! One crossing's bores: the smallest bits that hold its bundle, split where one bit cannot or
//! where several small bores are less work than one with steel.

use std::collections::BTreeMap;

use super::Bore;
use super::limit::limit;
use super::offer::{Offer, reason};
use super::share;
use super::steel::{members, nail_plates, wants_tie};
use crate::framing::Framing;
use crate::plan::{Cable, CableId, Plan};
use crate::route::{Crossing, Ways};
use crate::rules::RuleId;
use crate::shape::packing::{self, Effort};
use crate::units::{Area, Size};

/// The most bores a bundle is split into.
const MOST_PARTS: usize = 24;

/// How thick every cable of a plan is, and which bundles were found to go through which bores, so
/// that neither is sought twice.
pub(super) struct Bundles {
    diameters: BTreeMap<CableId, Size>,
    held: BTreeMap<(Vec<i64>, i64), bool>,
}

impl Bundles {
    pub fn of(plan: &Plan) -> Self {
        let thick = |cable: &Cable| (cable.id, plan.catalogue.diameter(cable.kind));
        Self {
            diameters: plan.cables().map(|(_, cable)| thick(cable)).collect(),
            held: BTreeMap::new(),
        }
    }

    /// A cable's diameter; zero for one that is not in the plan.
    fn diameter(&self, cable: CableId) -> Size {
        let known = self.diameters.get(&cable);
        known.copied().unwrap_or(Size(0.0))
    }

    fn area(&self, bundle: &[CableId]) -> Area {
        let areas = bundle.iter().map(|cable| self.diameter(*cable).circle());
        areas.sum()
    }

    /// Whether cables of these diameters fit a round opening, both in millimetres.
    fn fits(&mut self, diameters: &mut [f64], opening: f64) -> bool {
        diameters.sort_by(f64::total_cmp);
        let bundle = diameters.iter().map(|d| Size(*d).micrometres()).collect();
        let key = (bundle, Size(opening).micrometres());
        *self
            .held
            .entry(key)
            .or_insert_with(|| packing::fits(diameters, opening, Effort::LIVE).unwrap_or(false))
    }
}

/// A way to bore a crossing: bundles, each with its bit, and what it takes.
struct Choice {
    parts: Vec<(Vec<CableId>, Size)>,
    offer: Offer,
}

/// The bores of one crossing, all of them where the crossing is; their places come later.
pub(super) fn bores(
    plan: &Plan,
    framing: &Framing,
    ways: &Ways,
    bundles: &mut Bundles,
    place: usize,
) -> Vec<Bore> {
    let Some(crossing) = ways.crossings.get(place) else {
        return Vec::new();
    };
    if crossing.cables.is_empty() {
        return Vec::new();
    }
    let allowed = limit(plan, framing, ways, crossing).largest;
    let mut choices = choices(plan, bundles, crossing, allowed);
    let within = !choices.is_empty();
    // A stable sort: of two that take as long, the one with fewer bores stands first.
    choices.sort_by(|a, b| a.offer.minutes.total_cmp(&b.offer.minutes));
    let parts = match choices.first() {
        Some(best) => best.parts.clone(),
        None => over_the_limit(plan, bundles, crossing),
    };
    let (dealt, bits): (Vec<_>, Vec<Size>) = parts.into_iter().unzip();
    let shared = share::by_box(plan, ways, &dealt, |cable| bundles.diameter(cable));
    let offers: Vec<Offer> = choices.into_iter().map(|choice| choice.offer).collect();
    let reason = reason(plan, crossing, allowed, &offers);
    let members = members(crossing);
    let bore = |(part, (cables, bit)): (usize, (Vec<CableId>, Size))| Bore {
        number: 0,
        crossing: place,
        part,
        offset: crossing.offset,
        height: crossing.height,
        members,
        bit,
        fill: bundles.area(&cables).0 / bit.circle().0,
        cables,
        largest: allowed,
        nail_plates: nail_plates(plan, crossing, bit, members),
        tie: wants_tie(plan, crossing, bit),
        seal: crossing.is_sealed(plan),
        within_rules: within,
        reason: reason.clone(),
    };
    shared.into_iter().zip(bits).enumerate().map(bore).collect()
}

/// The fewest bores that hold the bundle, then one more at a time until none needs steel or the
/// drilling alone takes longer than what was found.
fn choices(
    plan: &Plan,
    bundles: &mut Bundles,
    crossing: &Crossing,
    allowed: Option<Size>,
) -> Vec<Choice> {
    let mut found: Vec<Choice> = Vec::new();
    let order = thickest_first(bundles, &crossing.cables);
    for count in 1..=MOST_PARTS.min(crossing.cables.len()) {
        let drilling = drilling(plan, crossing, count);
        if found.iter().any(|choice| choice.offer.minutes < drilling) {
            break;
        }
        let Some(choice) = choice(plan, bundles, crossing, allowed, (&order, count)) else {
            continue;
        };
        let bare = choice.offer.is_bare();
        found.push(choice);
        if bare {
            break;
        }
    }
    found
}

/// Minutes to drill and seal this many bores of a crossing.
fn drilling(plan: &Plan, crossing: &Crossing, count: usize) -> f64 {
    crossing.minutes(plan) * count as f64
}

fn choice(
    plan: &Plan,
    bundles: &mut Bundles,
    crossing: &Crossing,
    allowed: Option<Size>,
    (order, count): (&[CableId], usize),
) -> Option<Choice> {
    let sized = divide(order, count)
        .into_iter()
        .map(|bundle| Some((smallest(plan, bundles, &bundle, allowed)?, bundle)));
    let parts: Vec<(Vec<CableId>, Size)> = sized
        .map(|found| found.map(|(bit, bundle)| (bundle, bit)))
        .collect::<Option<_>>()?;
    let each = members(crossing);
    let bits = || parts.iter().map(|(_, bit)| *bit);
    let plates: u32 = bits()
        .map(|bit| nail_plates(plan, crossing, bit, each))
        .sum();
    let ties = bits().filter(|bit| wants_tie(plan, crossing, *bit)).count() as u32;
    let nailing = plan.rules.value(RuleId::NailPlateMinutes) * f64::from(plates + ties);
    let offer = Offer {
        bits: bits().collect(),
        nail_plates: plates,
        ties,
        minutes: drilling(plan, crossing, count) + nailing,
    };
    Some(Choice { parts, offer })
}

fn thickest_first(bundles: &Bundles, cables: &[CableId]) -> Vec<CableId> {
    let mut order: Vec<CableId> = cables.to_vec();
    let thick = |cable: &CableId| bundles.diameter(*cable).0;
    order.sort_by(|a, b| thick(b).total_cmp(&thick(a)).then(a.cmp(b)));
    order
}

/// Cables dealt out in their order, so that the bundles come out alike.
fn divide(order: &[CableId], count: usize) -> Vec<Vec<CableId>> {
    let mut bundles = vec![Vec::new(); count];
    for (place, cable) in order.iter().enumerate() {
        bundles[place % count].push(*cable);
    }
    bundles.iter_mut().for_each(|bundle| bundle.sort());
    bundles
}

/// The smallest bit the crew owns that holds a bundle by fill and by packing, within the limit.
fn smallest(
    plan: &Plan,
    bundles: &mut Bundles,
    bundle: &[CableId],
    allowed: Option<Size>,
) -> Option<Size> {
    let within = |bit: &&Size| allowed.is_none_or(|limit| bit.within(limit));
    plan.catalogue
        .bits
        .iter()
        .filter(within)
        .find(|bit| holds(plan, bundles, bundle, **bit))
        .copied()
}

/// Whether a bit holds a bundle: by fill, and by the tightest arrangement plus pulling room.
fn holds(plan: &Plan, bundles: &mut Bundles, bundle: &[CableId], bit: Size) -> bool {
    let full = bundles.area(bundle).0 / bit.circle().0;
    if full > plan.rules.fill_limit(bundle.len()) + 1e-9 {
        return false;
    }
    let diameters = bundle.iter().map(|cable| bundles.diameter(*cable).0);
    let mut diameters: Vec<f64> = diameters.collect();
    let room = bit.0 - plan.rules.value(RuleId::PullingRoom);
    bundles.fits(&mut diameters, room)
}

/// Where nothing lawful holds: one bore of the largest bit, which findings stop.
fn over_the_limit(
    plan: &Plan,
    bundles: &mut Bundles,
    crossing: &Crossing,
) -> Vec<(Vec<CableId>, Size)> {
    let fits = plan
        .catalogue
        .bits
        .iter()
        .find(|bit| holds(plan, bundles, &crossing.cables, **bit));
    let bit = fits
        .or_else(|| plan.catalogue.bits.last())
        .copied()
        .unwrap_or(Size(25.4));
    vec![(crossing.cables.clone(), bit)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::framing::Framing;
    use crate::plan::edit::Edit;
    use crate::plan::{CableKindId, DropKind, LevelId, Lumber, Place, Role, WallId};
    use crate::route::Member;
    use crate::shape::{Point, Pos};

    /// A plan with one wall and this many Cat 6 cables on the ceiling, and a crossing of studs
    /// that all of them go through.
    fn through_studs(cables: usize, lumber: Lumber, role: Role) -> (Plan, Crossing) {
        let mut plan = Plan::new();
        let level = plan.levels[0].id;
        let (from, to) = (Point::new(0, 0), Point::new(4000, 0));
        plan = plan
            .apply(&Edit::AddWall {
                level,
                from,
                to,
                lumber,
                role,
            })
            .unwrap();
        let place = Place::Ceiling {
            at: Point::new(500, 500),
        };
        let kind = DropKind::CeilingAccessPoint;
        plan = plan.apply(&Edit::AddDrop { kind, level, place }).unwrap();
        let drop = plan.drops[0].id;
        for _ in 1..cables {
            plan = plan
                .apply(&Edit::AddCable(drop, CableKindId::CAT6))
                .unwrap();
        }
        let crossing = Crossing {
            member: Member::Studs(vec![2]),
            wall: Some(WallId(1)),
            level: LevelId(1),
            offset: 1000.0,
            height: 610.0,
            at: Pos::new(1000.0, 0.0),
            cables: plan.cables().map(|(_, cable)| cable.id).collect(),
        };
        (plan, crossing)
    }

    fn sized(plan: &Plan, crossing: Crossing) -> Vec<Bore> {
        let ways = Ways {
            crossings: vec![crossing],
            ..Ways::default()
        };
        bores(plan, &Framing::of(plan), &ways, &mut Bundles::of(plan), 0)
    }

    fn bits(cables: usize, lumber: Lumber, role: Role) -> Vec<String> {
        let (plan, crossing) = through_studs(cables, lumber, role);
        let bores = sized(&plan, crossing);
        assert!(bores.iter().all(|bore| bore.within_rules));
        bores.iter().map(|bore| plan.units.size(bore.bit)).collect()
    }

    /// Worked by hand with Cat 6 of 6.0 mm (28.27 mm2) at 40 % fill and 3 mm of pulling room:
    /// 1/2 in holds 126.7 x 0.4 / 28.27 = 1.79, so one; 5/8 in (197.9) holds 2.80, so two, and
    /// two abreast want 12 + 3 = 15 of 15.9 mm; 3/4 in (285.0) holds 4.03, so four; 1 in (506.7)
    /// holds 7.17, so seven, three abreast want 18 + 3 = 21 of 25.4 mm.
    #[test]
    fn the_smallest_bit_by_fill_and_packing() {
        let partition = |cables| bits(cables, Lumber::TwoByFour, Role::Partition);
        assert_eq!(partition(1), ["1/2 in"]);
        assert_eq!(partition(2), ["5/8 in"]);
        assert_eq!(partition(4), ["3/4 in"]);
        assert_eq!(partition(7), ["1 in"]);
    }

    /// A bearing 2x4 allows 1-3/8 in (IRC R602.6): 20 cables want 20 x 28.27 / 0.4 = 1413.7 mm2,
    /// which is 42.4 mm. Two of ten want 706.9 mm2 each, 30.0 mm, so 1-1/4 in and four plates;
    /// three of seven, seven and six fit 1 in and need no steel, at 4.5 minutes against 7.
    #[test]
    fn a_bundle_too_large_for_a_bearing_stud_is_split() {
        let found = bits(20, Lumber::TwoByFour, Role::Bearing);
        assert_eq!(found, ["1 in", "1 in", "1 in"]);
        assert_eq!(bits(20, Lumber::TwoBySix, Role::Bearing).len(), 2);
    }

    /// Common practice, no source: one or two cables in a half-inch hole. By fill one passes and
    /// two are 45 % full; by packing two of 6 mm want 12 of 12.7 mm and leave no pulling room.
    #[test]
    fn two_cables_in_a_half_inch_hole_are_over_the_fill_rule() {
        let (plan, crossing) = through_studs(2, Lumber::TwoByFour, Role::Partition);
        let mut bundles = Bundles::of(&plan);
        let full = bundles.area(&crossing.cables).0 / Size::inches(0.5).circle().0;
        assert!(full > plan.rules.fill_limit(2) && full < 0.45);
        assert!(!holds(
            &plan,
            &mut bundles,
            &crossing.cables,
            Size::inches(0.5)
        ));
    }

    #[test]
    fn what_no_bit_holds_is_drilled_by_nobody_and_says_so() {
        let (plan, crossing) = through_studs(1, Lumber::TwoByFour, Role::Partition);
        let plan = plan.apply(&Edit::SetBits(vec![Size(5.0)])).unwrap();
        let found = sized(&plan, crossing);
        assert_eq!(found.len(), 1);
        assert!(!found[0].within_rules);
    }
}
