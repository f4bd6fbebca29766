//! The tolls of the lower bound: who pays how much at each crossing, never more than its price.
//!
//! Amounts are whole parts of a thousandth for one edge of the crossing and one way through it,
//! rounded so that what is paid stays under the price; `bound` tells why that makes a bound. Nothing
//! is searched here.

use super::graph::{Arc, Network};
use super::habit::{ALWAYS, Habit};
use super::paged::Paged;
use super::problem::{Bore, KINDS};
use super::quotes::Quote;
use super::standard::WHOLE;

/// Parts of a thousandth in which tolls are counted.
pub(super) const PARTS: u64 = 16;

/// Fraction bits of a toll for a hundredth of a square millimetre.
pub(super) const AREA_BITS: u32 = 16;

/// A crossing where an amount would count more often than this has no tolls, so that no product
/// overflows.
const MOST_WEIGHT: u32 = 1 << 20;

/// How often what the area pays for a bore counts.
const COST: i64 = WHOLE as i64;

/// Amounts of each payer at each crossing, and of each crossing by the area.
#[derive(Clone, Debug)]
pub(super) struct Tolls {
    /// For each payer the set of payers who never pass an edge against each other.
    sets: Vec<u32>,
    /// How many such sets there are.
    count: usize,
    /// A row for each payer: what it pays at each crossing one way and the other.
    amounts: Paged,
    weights: Vec<Weights>,
    /// A row for each crossing: what each set pays together one way and the other.
    sums: Vec<[i64; 2]>,
    rows: Vec<Row>,
}

/// How often a payer's amount counts against the price of a crossing.
#[derive(Clone, Debug)]
pub(super) enum Weights {
    /// Alike at every crossing.
    Alike(u32),
    /// For each crossing.
    Each(Vec<u32>),
}

impl Weights {
    fn at(&self, crossing: u32) -> u32 {
        match self {
            Self::Alike(weight) => *weight,
            Self::Each(weights) => weights[crossing as usize],
        }
    }
}

#[derive(Clone, Copy, Debug)]
struct Row {
    /// Whether both ways count as one.
    merged: bool,
    /// What is left of the price, in 256ths, of the kind of bore of which least is left.
    left: i64,
    /// For each kind of bore its price, in 256ths, and its capacity.
    kinds: [(i64, u32); KINDS],
    /// What the capacity of a bore of the first kind pays by the area.
    by_area: i64,
    /// What a hundredth of a square millimetre pays, in 65536ths.
    per_area: u64,
}

/// Which of the two ways an arc goes through its crossing.
pub(super) fn way(arc: &Arc) -> usize {
    usize::from(arc.from > arc.to)
}

/// What two ways count together: no more than the dearer of them is ever paid.
fn dearer(ways: [i64; 2]) -> i64 {
    ways[major(ways)]
}

/// Which of two ways is the dearer.
fn major(ways: [i64; 2]) -> usize {
    usize::from(ways[1] > ways[0])
}

impl Tolls {
    /// No toll anywhere. `sets` gives for each payer its set.
    pub fn new(network: &Network, sets: Vec<u32>, weights: Vec<Weights>) -> Self {
        let count = sets.iter().max().map_or(0, |last| *last as usize + 1);
        let row = |j: u32| {
            let crossing = network.crossings[j as usize];
            let counts = weights.iter().all(|of| of.at(j) <= MOST_WEIGHT);
            let price = |kind: Bore| match counts {
                true => (u64::from(kind.price) * PARTS * WHOLE / most_uses(network, j)) as i64,
                false => 0,
            };
            // A kind that is not there is one that holds no more than the first and costs as much.
            let mut kinds = [(0, crossing.capacity); KINDS];
            let mut worthwhile = crossing
                .worthwhile()
                .map(|kind| (price(kind), kind.capacity));
            let first = worthwhile.next().unwrap_or_default();
            kinds.fill(first);
            for (place, kind) in kinds.iter_mut().skip(1).zip(worthwhile) {
                *place = kind;
            }
            Row {
                merged: network.shared[j as usize],
                left: first.0,
                kinds,
                by_area: 0,
                per_area: 0,
            }
        };
        let crossings = network.crossings.len();
        Self {
            amounts: Paged::new(sets.len(), crossings),
            sums: vec![[0; 2]; crossings * count],
            rows: (0..crossings as u32).map(row).collect(),
            sets,
            count,
            weights,
        }
    }

    /// What a payer of this area pays on an edge of the crossing.
    pub fn toll(&self, crossing: u32, payer: usize, way: usize, area: u32) -> u64 {
        let by_area = self.rows[crossing as usize].by_area(area);
        u64::from(self.amount(crossing, payer, way)) + by_area
    }

    /// What a payer of this area could pay if it got one of so many shares of what is left.
    pub fn quote(&self, crossing: u32, (payer, area): (usize, u32), shares: i64) -> Quote {
        let row = &self.rows[crossing as usize];
        let by_area = row.by_area(area);
        let parts = shares * i64::from(self.weights[payer].at(crossing));
        let sums = self.sums[self.sum_place(crossing, payer)];
        let amounts = self.amounts.at(payer, crossing);
        let most = |side: usize| {
            let left = row.left.max(0) + dearer(sums) - sums[side];
            let share = ((left / parts) as u64).min(u64::from(u32::MAX / 2));
            u64::from(amounts[side]) + share + by_area
        };
        let first = most(0);
        Quote {
            by_area,
            most: [first, if row.merged { first } else { most(1) }],
        }
    }

    /// What a payer pays apart from the area.
    fn amount(&self, crossing: u32, payer: usize, way: usize) -> u32 {
        self.amounts.at(payer, crossing)[self.side(crossing, way)]
    }

    /// The crossings where a payer pays anything of its own.
    pub fn paid_at(&self, payer: usize) -> impl Iterator<Item = u32> {
        self.amounts.row(payer).map(|(crossing, _)| crossing)
    }

    /// Sets what a payer pays apart from the area; no more than its amount and share.
    pub fn set(&mut self, crossing: u32, payer: usize, amounts: [u32; 2]) {
        let sum_place = self.sum_place(crossing, payer);
        let row = &mut self.rows[crossing as usize];
        let amounts = match row.merged {
            true => [amounts[0].max(amounts[1]), 0],
            false => amounts,
        };
        let before = self.amounts.set(payer, crossing, amounts);
        if before == amounts {
            return;
        }
        let weight = i64::from(self.weights[payer].at(crossing));
        let sums = &mut self.sums[sum_place];
        row.left += dearer(*sums);
        for (sum, (amount, before)) in sums.iter_mut().zip(amounts.into_iter().zip(before)) {
            *sum += (i64::from(amount) - i64::from(before)) * weight;
        }
        row.left -= dearer(*sums);
    }

    /// Lets the area pay all that is left at a crossing.
    pub fn fill_by_area(&mut self, crossing: u32) {
        let row = &mut self.rows[crossing as usize];
        row.set_by_area(row.most_by_area());
    }

    /// Raises all tolls by how often they are met, `stride` parts for one that always is, for each
    /// of the payer's units; then cuts those of each crossing evenly until they are within its price
    /// again.
    pub fn raise(&mut self, habit: &Habit, payers: &[(u64, u32)], stride: f64) {
        let mut areas: Vec<Option<u64>> = vec![None; self.rows.len()];
        for (at, (units, size)) in payers.iter().enumerate() {
            for (j, share) in habit.of(at) {
                self.raise_amounts((j, at), share, *units, stride);
                let met: u64 = share.into_iter().map(u64::from).sum();
                *areas[j as usize].get_or_insert(0) += *units * met * u64::from(*size);
            }
        }
        for (j, area) in areas.into_iter().enumerate() {
            if let Some(area) = area {
                self.rows[j].raise_by_area(area, stride);
                self.cut(j as u32);
            }
        }
    }

    /// Raises what one payer pays of its own at a crossing.
    fn raise_amounts(&mut self, (j, at): (u32, usize), share: [u32; 2], units: u64, stride: f64) {
        let more = |share: u32| {
            let met = units * u64::from(share);
            (stride * met as f64 / f64::from(ALWAYS) / WHOLE as f64)
                .ceil()
                .min(1e8) as u32
        };
        let mut amounts = self.amounts.at(at, j);
        for (way, share) in share.into_iter().enumerate() {
            let side = self.side(j, way);
            amounts[side] = amounts[side].saturating_add(more(share)).min(1 << 31);
        }
        self.set(j, at, amounts);
    }

    /// Cuts what is paid at a crossing evenly until it is within the price; of each set what it pays
    /// the dearer way, and the other way what would be above that then.
    fn cut(&mut self, j: u32) {
        while self.rows[j as usize].left < 0 {
            let excess = -self.rows[j as usize].left;
            let paying = self.paying(j);
            let squares = self.squares(&paying);
            let row = &self.rows[j as usize];
            let mut total = i64::from(row.by_area > 0) * COST * COST;
            let first = j as usize * self.count;
            let sums = &self.sums[first..first + self.count];
            for (sums, squares) in sums.iter().zip(&squares) {
                total += squares[major(*sums)];
            }
            let over = |(sums, squares): (&[i64; 2], &[i64; 2])| {
                let major = major(*sums);
                let less = share_of(excess, squares[major], total.max(1));
                let goal = (sums[major] - less).max(0);
                sums.map(|sum| (sum - goal).max(0))
            };
            let overs: Vec<[i64; 2]> = sums.iter().zip(&squares).map(over).collect();
            self.cut_amounts(j, &paying, (&overs, &squares));
            self.rows[j as usize].cut(share_of(excess, COST, total.max(1)));
        }
    }

    /// Who pays something of its own at a crossing.
    fn paying(&self, j: u32) -> Vec<Paying> {
        let one = |at| {
            let amounts = self.amounts.at(at, j);
            (amounts != [0; 2]).then(|| Paying {
                at,
                weight: i64::from(self.weights[at].at(j)),
                amounts,
            })
        };
        (0..self.sets.len()).filter_map(one).collect()
    }

    /// For each set and way the squares of the weights of those who pay.
    fn squares(&self, paying: &[Paying]) -> Vec<[i64; 2]> {
        let mut squares = vec![[0; 2]; self.count];
        for one in paying {
            let square = one.weight.pow(2);
            let of_set = &mut squares[self.sets[one.at] as usize];
            for (sum, amount) in of_set.iter_mut().zip(one.amounts) {
                *sum += if amount > 0 { square } else { 0 };
            }
        }
        squares
    }

    /// Takes so much from each set and way.
    fn cut_amounts(
        &mut self,
        j: u32,
        paying: &[Paying],
        (overs, squares): (&[[i64; 2]], &[[i64; 2]]),
    ) {
        for one in paying {
            let set = self.sets[one.at] as usize;
            let mut amounts = one.amounts;
            for (side, amount) in amounts.iter_mut().enumerate() {
                let less = share_of(overs[set][side], one.weight, squares[set][side].max(1));
                *amount -= less.min(i64::from(*amount)) as u32;
            }
            self.set(j, one.at, amounts);
        }
    }

    fn sum_place(&self, crossing: u32, payer: usize) -> usize {
        crossing as usize * self.count + self.sets[payer] as usize
    }

    fn side(&self, crossing: u32, way: usize) -> usize {
        match self.rows[crossing as usize].merged {
            true => 0,
            false => way,
        }
    }
}

/// A payer at a crossing.
struct Paying {
    at: usize,
    weight: i64,
    amounts: [u32; 2],
}

impl Row {
    /// What this area pays by the area.
    fn by_area(&self, area: u32) -> u64 {
        self.per_area.saturating_mul(u64::from(area)) >> AREA_BITS
    }

    /// Raises what the area pays by so much passing area, in 65536ths of 256ths.
    fn raise_by_area(&mut self, area: u64, stride: f64) {
        let area = area as f64 / f64::from(ALWAYS) / WHOLE as f64;
        let more = (stride * area / f64::from(self.kinds[0].1)).min(1e8) as i64;
        self.set_by_area(self.by_area + more);
    }

    /// Takes so much from what the area pays.
    fn cut(&mut self, less: i64) {
        self.set_by_area(self.by_area - less.min(self.by_area));
    }

    fn set_by_area(&mut self, by_area: i64) {
        self.left += self.beside(by_area) - self.beside(self.by_area);
        self.by_area = by_area;
        self.per_area = ((by_area as u64) << AREA_BITS) / u64::from(self.kinds[0].1);
    }

    /// What a bore's price has beside so much by the area, for the kind that has least.
    fn beside(&self, by_area: i64) -> i64 {
        let first = self.kinds[0].1;
        let kinds = self.kinds.iter();
        let beside = kinds.map(|(price, capacity)| {
            price - share_of(by_area * COST, (*capacity).into(), first.into())
        });
        beside.min().unwrap_or(0)
    }

    /// The most that can be paid by the area with all that is left.
    fn most_by_area(&self) -> i64 {
        let goal = self.beside(self.by_area) - self.left.max(0);
        let first = i128::from(self.kinds[0].1);
        let kinds = self.kinds.iter();
        let most = kinds.map(|(price, capacity)| {
            (i128::from(price - goal) * first / i128::from(*capacity) / i128::from(COST)) as i64
        });
        most.min().unwrap_or(0).max(self.by_area)
    }
}

/// `whole * part / all`, rounded up.
fn share_of(whole: i64, part: i64, all: i64) -> i64 {
    let product = i128::from(whole) * i128::from(part);
    ((product + i128::from(all) - 1) / i128::from(all)) as i64
}

/// No path without a loop uses more edges of a crossing than this: in all, one fewer than the nodes
/// of those edges, and two at each node.
pub(super) fn most_uses(network: &Network, crossing: u32) -> u64 {
    if !network.shared[crossing as usize] {
        return 1;
    }
    let arcs = network.arcs_through(crossing).iter();
    let mut ends: Vec<u32> = arcs.map(|arc| network.arcs[*arc as usize].from).collect();
    ends.sort_unstable();
    let nodes = || ends.chunk_by(|a, b| a == b);
    let uses: usize = nodes().map(|node| node.len().min(2)).sum();
    (uses / 2).min(nodes().count() - 1).max(1) as u64
}
