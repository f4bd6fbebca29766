//! One crossing's bores: the smallest bits that hold its bundle, split where one bit cannot or
//! where several small bores are less work than one with steel.

use super::Bore;
use super::limit::work;
use super::offer::{Offer, reason};
use super::share;
use crate::framing::Framing;
use crate::plan::{CableId, Plan};
use crate::route::network::{self, Deal, deals};
use crate::route::{Bits, Crossing, Ways, Work, area_of};
use crate::units::{Area, Size};

/// A way to bore a crossing: bundles, each with its bit, and what it takes.
struct Choice {
    parts: Vec<(Vec<CableId>, Size)>,
    price: u32,
    offer: Offer,
}

/// The bores of one crossing, all of them where the crossing is; their places come later.
pub(super) fn bores(
    plan: &Plan,
    framing: &Framing,
    ways: &Ways,
    bits: &mut Bits,
    place: usize,
) -> Vec<Bore> {
    let Some(crossing) = ways.crossings.get(place) else {
        return Vec::new();
    };
    if crossing.cables.is_empty() {
        return Vec::new();
    }
    let work = work(plan, framing, ways, crossing);
    let allowed = work.limit.largest;
    let mut choices = choices(bits, crossing, &work);
    let within = !choices.is_empty();
    // A stable sort: of two that take as long, the one with fewer bores stands first.
    choices.sort_by_key(|choice| choice.price);
    let parts = match choices.first() {
        Some(best) => best.parts.clone(),
        None => over_the_limit(bits, crossing),
    };
    let (dealt, sizes): (Vec<_>, Vec<Size>) = parts.into_iter().unzip();
    let shared = share::by_box(plan, ways, &dealt, |cable| bits.diameter(cable));
    let offers: Vec<Offer> = choices.into_iter().map(|choice| choice.offer).collect();
    let reason = reason(plan, crossing, allowed, &offers);
    // What no bit holds is counted as the widest that may be drilled.
    let widest = match within {
        true => None,
        false => work.tariff(bits).and_then(|tariff| tariff.kinds().last()),
    };
    let price = |bit| widest.map_or_else(|| work.price(bit), |widest| widest.price);
    let bore = |(part, (cables, bit)): (usize, (Vec<CableId>, Size))| Bore {
        number: 0,
        crossing: place,
        part,
        offset: crossing.offset,
        height: crossing.height,
        members: work.members,
        bit,
        fill: area(bits, &cables).0 / bit.circle().0,
        cables,
        largest: allowed,
        nail_plates: work.nail_plates(bit),
        tie: work.wants_tie(bit),
        seal: work.is_sealed,
        price: price(bit),
        within_rules: within,
        reason: reason.clone(),
    };
    shared
        .into_iter()
        .zip(sizes)
        .enumerate()
        .map(bore)
        .collect()
}

/// What the router paid for, deal by deal: bundles with the smallest bit that holds each.
fn choices(bits: &mut Bits, crossing: &Crossing, work: &Work) -> Vec<Choice> {
    let Some(tariff) = work.tariff(bits) else {
        return Vec::new();
    };
    let order = thickest_first(bits, &crossing.cables);
    let areas: Vec<u32> = order.iter().map(|c| area_of(bits.diameter(*c))).collect();
    let runs = areas.chunk_by(|a, b| a == b);
    let bundle: Vec<(u32, u32)> = runs.map(|run| (run[0], run.len() as u32)).collect();
    let deals = deals(&tariff, &bundle);
    let choice = |deal: &Deal| choice(bits, work, (&tariff, deal), &order);
    deals.iter().filter_map(choice).collect()
}

fn choice(
    bits: &mut Bits,
    work: &Work,
    (tariff, deal): (&network::Crossing, &Deal),
    order: &[CableId],
) -> Option<Choice> {
    let kinds: Vec<u32> = tariff.kinds().map(|kind| kind.price).collect();
    let dealt = divide(order, deal.kinds.len()).into_iter().zip(&deal.kinds);
    let sized = dealt.map(|(bundle, kind)| {
        let most = *kinds.get(*kind)?;
        let bit = smallest(bits, &bundle, |bit| {
            work.limit.largest.is_none_or(|limit| bit.within(limit)) && work.price(bit) <= most
        })?;
        Some((bundle, bit))
    });
    let parts: Vec<(Vec<CableId>, Size)> = sized.collect::<Option<_>>()?;
    let chosen = || parts.iter().map(|(_, bit)| *bit);
    let price = chosen().map(|bit| work.price(bit)).sum();
    let offer = Offer {
        bits: chosen().collect(),
        nail_plates: chosen().map(|bit| work.nail_plates(bit)).sum(),
        ties: chosen().filter(|bit| work.wants_tie(*bit)).count() as u32,
        minutes: f64::from(price) / 1000.0,
    };
    Some(Choice {
        parts,
        price,
        offer,
    })
}

fn area(bits: &Bits, bundle: &[CableId]) -> Area {
    bundle.iter().map(|c| bits.diameter(*c).circle()).sum()
}

fn thickest_first(bits: &Bits, cables: &[CableId]) -> Vec<CableId> {
    let mut order: Vec<CableId> = cables.to_vec();
    let thick = |cable: &CableId| bits.diameter(*cable).0;
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

/// The smallest bit the crew owns, of those that may be taken, that holds a bundle by fill and by packing.
fn smallest(bits: &mut Bits, bundle: &[CableId], may: impl Fn(Size) -> bool) -> Option<Size> {
    let diameters: Vec<Size> = bundle.iter().map(|c| bits.diameter(*c)).collect();
    let owned: Vec<Size> = bits.owned().to_vec();
    let mut owned = owned.into_iter().filter(|bit| may(*bit));
    owned.find(|bit| bits.holds(&diameters, *bit))
}

/// Where nothing lawful holds: one bore of the largest bit, which findings stop.
fn over_the_limit(bits: &mut Bits, crossing: &Crossing) -> Vec<(Vec<CableId>, Size)> {
    let fits = smallest(bits, &crossing.cables, |_| true);
    let largest = bits.owned().last().copied();
    let bit = fits.or(largest).unwrap_or(Size(25.4));
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
        bores(plan, &Framing::of(plan), &ways, &mut Bits::of(plan), 0)
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
        let full = area(&Bits::of(&plan), &crossing.cables).0 / Size::inches(0.5).circle().0;
        assert!(full > plan.rules.fill_limit(2) && full < 0.45);
        assert!(!Bits::of(&plan).holds(&[Size(6.0); 2], Size::inches(0.5)));
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
