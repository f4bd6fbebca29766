//! What a crossing costs by what goes through it.
//!
//! Where areas are poured, its bores are the least whole number that holds them. Where cables are
//! dealt, they are dealt out one by one over some number of bores, the thickest first, and each bore
//! is of the cheapest kind that holds what it was dealt; of all numbers the cheapest counts. What a
//! bundle costs depends on how many cables of each area it has, and on nothing else: that is its load.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;

use super::problem::{Bore, Cable, Crossing, KINDS};

/// The most bores a bundle is dealt over.
const MOST_BORES: u32 = 24;

/// What a bundle costs on top that no bores hold, so that ways keep off: ten hours in thousandths of a
/// minute.
pub(crate) const UNHELD: u32 = 600_000;

/// A bundle dealt over bores.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Deal {
    /// For each bore its kind, as an index into [`Crossing::kinds`]. The cable at place `i` of the
    /// bundle, thickest first, is in bore `i % kinds.len()`.
    pub kinds: Vec<usize>,
    /// What the bores cost together.
    pub price: u32,
}

/// The deals of a bundle, given as areas with how many cables have each, thickest first: the fewest
/// bores that hold it, then one more at a time until none is of a wider kind, or until bores alone cost
/// more than what was found. Empty where no bores hold it.
pub fn deals(crossing: &Crossing, bundle: &[(u32, u32)]) -> Vec<Deal> {
    let cables: u32 = bundle.iter().map(|(_, count)| count).sum();
    let mut found: Vec<Deal> = Vec::new();
    for bores in 1..=MOST_BORES.min(cables) {
        let least = bores.saturating_mul(crossing.price);
        if found.iter().any(|deal| deal.price < least) {
            break;
        }
        let Some(deal) = deal(crossing, bundle, bores) else {
            continue;
        };
        let is_plain = deal.kinds.iter().all(|kind| *kind == 0);
        found.push(deal);
        if is_plain {
            break;
        }
    }
    found
}

fn deal(crossing: &Crossing, bundle: &[(u32, u32)], bores: u32) -> Option<Deal> {
    let mut price = 0u32;
    let kind = |bore: u32| {
        let area = dealt(bundle, bores, bore);
        let mut kinds = crossing.kinds().enumerate();
        let (kind, found) = kinds.find(|(_, kind)| area <= kind.capacity)?;
        price = price.saturating_add(found.price);
        Some(kind)
    };
    let kinds = (0..bores).map(kind).collect::<Option<_>>()?;
    Some(Deal { kinds, price })
}

/// The area that one of so many bores is dealt.
fn dealt(bundle: &[(u32, u32)], bores: u32, bore: u32) -> u32 {
    let below = |place: u32| (place + bores - 1 - bore) / bores;
    let mut first = 0;
    let areas = bundle.iter().map(|(area, count)| {
        let here = below(first + count) - below(first);
        first += count;
        area * here
    });
    areas.sum()
}

/// What the cheapest deal of a bundle costs; of one that no bores hold, the widest bore and
/// [`UNHELD`].
fn cheapest(crossing: &Crossing, bundle: &[(u32, u32)]) -> u32 {
    let least = deals(crossing, bundle).iter().map(|deal| deal.price).min();
    let widest = || crossing.kinds().map(|kind| kind.price).max().unwrap_or(0);
    match bundle.is_empty() {
        true => 0,
        false => least.unwrap_or_else(|| widest().saturating_add(UNHELD)),
    }
}

/// More than a crossing where cables are dealt can cost.
pub(super) fn most(crossing: &Crossing) -> u64 {
    let widest = crossing.kinds().map(|kind| u64::from(kind.price)).max();
    widest.unwrap_or(0) * u64::from(MOST_BORES) + u64::from(UNHELD)
}

/// How many cables of each area there are, as one number: loads add up as bundles do.
#[derive(Clone, Debug, Default)]
pub(in crate::route) struct Loads {
    /// Areas, the largest first, with what one cable of each adds to a load.
    units: Vec<(u32, u64)>,
}

impl Loads {
    /// Of all cables of a problem. Where they have so many areas that no number holds every bundle, some
    /// count as the next larger.
    pub fn of(cables: &[Cable]) -> Self {
        let mut areas: Vec<u32> = cables.iter().map(|cable| cable.area).collect();
        areas.sort_unstable_by(|a, b| b.cmp(a));
        let alike = areas.chunk_by(|a, b| a == b);
        let mut counts: Vec<(u32, u64)> = alike.map(|one| (one[0], one.len() as u64)).collect();
        loop {
            let mut unit = Some(1u64);
            let units = counts.iter().map(|(area, count)| {
                let own = unit;
                unit = unit.and_then(|unit| unit.checked_mul(count + 1));
                own.map(|own| (*area, own))
            });
            let units: Option<Vec<_>> = units.collect();
            if let (Some(units), Some(_)) = (units, unit) {
                return Self { units };
            }
            if let Some((_, count)) = counts.pop()
                && let Some(last) = counts.last_mut()
            {
                last.1 += count;
            }
        }
    }

    /// What a cable of this area adds to a load.
    pub fn unit(&self, area: u32) -> u64 {
        let mut from_thinnest = self.units.iter().rev();
        let of = from_thinnest.find(|(wide, _)| *wide >= area);
        of.map_or(0, |(_, unit)| *unit)
    }

    /// The areas of a load with how many cables have each, thickest first.
    fn bundle(&self, load: u64) -> Vec<(u32, u32)> {
        let mut rest = load;
        let mut bundle: Vec<(u32, u32)> = Vec::with_capacity(self.units.len());
        for (area, unit) in self.units.iter().rev() {
            let count = rest / unit;
            rest -= count * unit;
            if count > 0 {
                bundle.push((*area, count as u32));
            }
        }
        bundle.reverse();
        bundle
    }

    /// What a crossing costs with this load.
    pub fn price(&self, crossing: &Crossing, load: u64) -> u64 {
        let bundle = self.bundle(load);
        if crossing.wider.is_some() {
            return cheapest(crossing, &bundle).into();
        }
        let areas = bundle
            .iter()
            .map(|(area, count)| u64::from(*area) * u64::from(*count));
        let bores = areas
            .sum::<u64>()
            .div_ceil(u64::from(crossing.capacity.max(1)));
        bores * u64::from(crossing.price)
    }
}

/// Crossings by what they cost, so that those that cost the same are asked about once.
#[derive(Clone, Debug, Default)]
pub(super) struct Tariffs {
    unlike: Vec<Crossing>,
    /// For each crossing its place among them.
    of: Vec<u32>,
}

impl Tariffs {
    pub fn of(crossings: &[Crossing]) -> Self {
        let mut unlike: Vec<Crossing> = crossings.to_vec();
        unlike.sort_unstable();
        unlike.dedup();
        let place = |crossing: &Crossing| unlike.binary_search(crossing).unwrap_or(0) as u32;
        Self {
            of: crossings.iter().map(place).collect(),
            unlike,
        }
    }

    pub fn place(&self, crossing: usize) -> u32 {
        self.of[crossing]
    }
}

/// Prices of loads that were asked for, as searches ask for the same again and again.
#[derive(Clone, Debug)]
pub(super) struct Known {
    /// The last load asked for at each tariff, and its price: mostly that of a bundle on its own.
    last: Vec<Cell<(u64, u64)>>,
    all: RefCell<BTreeMap<(u32, u64), u64>>,
}

impl Known {
    pub fn new(tariffs: &Tariffs) -> Self {
        Self {
            last: vec![Cell::new((0, 0)); tariffs.unlike.len()],
            all: RefCell::default(),
        }
    }

    /// What a load costs at a tariff.
    pub fn price(&self, tariffs: &Tariffs, loads: &Loads, (tariff, load): (u32, u64)) -> u64 {
        let last = &self.last[tariff as usize];
        let (known, price) = last.get();
        if known == load {
            return price;
        }
        let mut all = self.all.borrow_mut();
        let price = *all
            .entry((tariff, load))
            .or_insert_with(|| loads.price(&tariffs.unlike[tariff as usize], load));
        last.set((load, price));
        price
    }
}

impl Crossing {
    /// Bores of one kind, over which areas are poured: the least whole number that holds them.
    pub const fn poured(price: u32, capacity: u32) -> Self {
        Self {
            price,
            capacity,
            wider: None,
        }
    }

    /// Whole cables dealt over bores of these kinds, the cheapest first; only so many count.
    pub fn dealt(kinds: &[Bore]) -> Option<Self> {
        let (first, rest) = kinds.split_first()?;
        let wider = |place: usize| rest.get(place).copied().unwrap_or(Bore::NONE);
        Some(Self {
            price: first.price,
            capacity: first.capacity,
            wider: Some([wider(0), wider(1)]),
        })
    }

    /// The kinds of its bores, the cheapest first.
    pub fn kinds(&self) -> impl Iterator<Item = Bore> {
        let first = Bore {
            price: self.price,
            capacity: self.capacity,
        };
        let wider = self.wider.unwrap_or([Bore::NONE; KINDS - 1]);
        let rest = wider.into_iter().filter(|kind| *kind != Bore::NONE);
        std::iter::once(first).chain(rest)
    }

    /// The kinds that are worth it: those that hold more than as many of the first as cost no more.
    pub(super) fn worthwhile(&self) -> impl Iterator<Item = Bore> {
        let (price, capacity) = (self.price, self.capacity);
        self.kinds().enumerate().filter_map(move |(place, kind)| {
            let as_wide = u64::from(kind.capacity.div_ceil(capacity.max(1))) * u64::from(price);
            (place == 0 || as_wide > u64::from(kind.price)).then_some(kind)
        })
    }

    /// The kind of bore that costs least by the area it holds.
    pub(super) fn leanest(&self) -> Bore {
        let first = Bore {
            price: self.price,
            capacity: self.capacity,
        };
        let by_area = |kind: Bore, other: Bore| {
            u64::from(kind.price) * u64::from(other.capacity)
                < u64::from(other.price) * u64::from(kind.capacity)
        };
        self.kinds().fold(
            first,
            |best, kind| if by_area(kind, best) { kind } else { best },
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Plates as a 2x4 has them: 5 minutes bare for seven cables of 30, 7 with steel for sixteen.
    fn plates() -> Crossing {
        let kinds = [(5_000, 217), (7_000, 489)];
        let kinds = kinds.map(|(price, capacity)| Bore { price, capacity });
        Crossing::dealt(&kinds).unwrap()
    }

    fn loads(areas: &[(u32, usize)]) -> Loads {
        let cable = |area: u32| Cable {
            id: 0,
            source: 0,
            area,
            max_length_mm: u32::MAX,
        };
        let cables = areas
            .iter()
            .flat_map(|(area, count)| vec![cable(*area); *count]);
        Loads::of(&cables.collect::<Vec<_>>())
    }

    /// By hand: up to seven go bare for 5, up to sixteen with steel for 7; seventeen are nine and eight
    /// with steel for 14, and so to thirty-two, as three bores bare hold no more than twenty-one for 15.
    #[test]
    fn a_bundle_costs_what_its_cheapest_deal_costs() {
        let loads = loads(&[(30, 40)]);
        let price = |count: u64| loads.price(&plates(), count * loads.unit(30));
        let found = [0, 1, 7, 8, 16, 17, 21, 32].map(price);
        assert_eq!(
            found,
            [0, 5_000, 5_000, 7_000, 7_000, 14_000, 14_000, 14_000]
        );
    }

    #[test]
    fn the_thickest_are_dealt_first() {
        let kinds = [(5_000, 217), (12_000, 489)];
        let kinds = kinds.map(|(price, capacity)| Bore { price, capacity });
        let found = deals(&Crossing::dealt(&kinds).unwrap(), &[(100, 2), (30, 5)]);
        let deal = |kinds: &[usize], price| Deal {
            kinds: kinds.to_vec(),
            price,
        };
        assert_eq!(found, [deal(&[1], 12_000), deal(&[0, 0], 10_000)]);
        assert_eq!(dealt(&[(100, 2), (30, 5)], 2, 0), 100 + 3 * 30);
        assert_eq!(dealt(&[(100, 2), (30, 5)], 2, 1), 100 + 2 * 30);
    }

    #[test]
    fn what_no_bore_holds_is_dear() {
        let loads = loads(&[(490, 1), (30, 3)]);
        let price = loads.price(&plates(), loads.unit(490));
        assert_eq!(price, 7_000 + u64::from(UNHELD));
        assert!(deals(&plates(), &[(490, 1)]).is_empty());
    }

    #[test]
    fn loads_add_up_and_are_told_apart() {
        let loads = loads(&[(30, 9), (44, 3), (37, 4)]);
        let load = 2 * loads.unit(44) + 7 * loads.unit(30);
        assert_eq!(loads.bundle(load), [(44, 2), (30, 7)]);
        assert_eq!(
            loads.bundle(load + loads.unit(37)),
            [(44, 2), (37, 1), (30, 7)]
        );
    }

    #[test]
    fn areas_beyond_what_a_number_holds_count_as_the_next_larger() {
        let many: Vec<(u32, usize)> = (1..=80).map(|area| (area, 1)).collect();
        let loads = loads(&many);
        assert!(loads.units.len() < 80);
        let bundle = loads.bundle(loads.unit(1) + loads.unit(80));
        assert_eq!(bundle.len(), 2);
        assert!(bundle[1].0 >= 1 && bundle[0].0 == 80);
    }

    /// A stud whose wider bore takes two nail plates: two bare bores hold more for less.
    #[test]
    fn a_kind_that_more_of_the_first_outdo_is_not_worth_it() {
        let kinds = [(1_500, 217), (3_500, 397)];
        let kinds = kinds.map(|(price, capacity)| Bore { price, capacity });
        let studs = Crossing::dealt(&kinds).unwrap();
        assert_eq!(studs.worthwhile().count(), 1);
        assert_eq!(studs.leanest(), kinds[0]);
        assert_eq!(plates().worthwhile().count(), 2);
        assert_eq!(plates().leanest().price, 7_000);
    }
}
