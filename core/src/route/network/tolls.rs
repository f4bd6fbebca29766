//! The tolls of the lower bound: who pays how much at each crossing, never more than its price.
//!
//! Amounts are whole parts of a thousandth for one edge of the crossing and one way through it,
//! rounded so that what is paid stays under the price; `bound` tells why that makes a bound. Nothing
//! is searched here.

use super::graph::{Arc, Network};
use super::habit::{ALWAYS, Habit};
use super::standard::WHOLE;

/// Parts of a thousandth in which tolls are counted.
pub(super) const PARTS: u64 = 16;

/// Fraction bits of a toll for a hundredth of a square millimetre.
pub(super) const AREA_BITS: u32 = 16;

/// A crossing where an amount would count more often than this has no tolls, so that no product
/// overflows.
const MOST_WEIGHT: u64 = 1 << 20;

/// How often what the area pays for a bore counts.
const COST: i64 = WHOLE as i64;

/// Amounts of each payer at each crossing, and of each crossing by the area.
#[derive(Clone, Debug)]
pub(super) struct Tolls {
    /// For each payer the set of payers who never pass an edge against each other.
    sets: Vec<u32>,
    /// How many such sets there are.
    count: usize,
    /// A row for each crossing: what each payer pays one way and the other.
    amounts: Vec<[u32; 2]>,
    /// How often an amount counts against the price, in rows like the amounts.
    weights: Vec<u32>,
    /// A row for each crossing: what each set pays together one way and the other.
    sums: Vec<[i64; 2]>,
    rows: Vec<Row>,
}

#[derive(Clone, Copy, Debug)]
struct Row {
    /// Whether both ways count as one.
    merged: bool,
    /// What is left of the price, in 256ths.
    left: i64,
    capacity: u32,
    /// What a bore's capacity pays by the area.
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
    /// No toll anywhere. `sets` gives for each payer its set, `weight` how often a payer's amount
    /// counts at a crossing.
    pub fn new(network: &Network, sets: Vec<u32>, weight: impl Fn(u32, usize) -> u64) -> Self {
        let payers = sets.len();
        let count = sets.iter().max().map_or(0, |last| *last as usize + 1);
        let crossings = 0..network.crossings.len() as u32;
        let weights: Vec<u64> = crossings
            .clone()
            .flat_map(|j| (0..payers).map(move |at| (j, at)))
            .map(|(j, at)| weight(j, at))
            .collect();
        let row = |j: u32| {
            let crossing = network.crossings[j as usize];
            let weights = &weights[j as usize * payers..(j as usize + 1) * payers];
            let left = match weights.iter().all(|weight| *weight <= MOST_WEIGHT) {
                true => u64::from(crossing.price) * PARTS * WHOLE / most_uses(network, j),
                false => 0,
            };
            Row {
                merged: network.shared[j as usize],
                left: left as i64,
                capacity: crossing.capacity,
                by_area: 0,
                per_area: 0,
            }
        };
        let rows = crossings.map(row).collect();
        let weights = weights
            .iter()
            .map(|weight| (*weight).min(MOST_WEIGHT) as u32)
            .collect();
        Self {
            sets,
            count,
            amounts: vec![[0; 2]; network.crossings.len() * payers],
            weights,
            sums: vec![[0; 2]; network.crossings.len() * count],
            rows,
        }
    }

    /// What a payer of this area pays on an edge of the crossing.
    pub fn toll(&self, crossing: u32, payer: usize, way: usize, area: u32) -> u64 {
        let row = &self.rows[crossing as usize];
        let by_area = row.per_area.saturating_mul(u64::from(area)) >> AREA_BITS;
        u64::from(self.amount(crossing, payer, way)) + by_area
    }

    /// What more a payer could pay if it got one of so many shares of what is left.
    pub fn share(&self, crossing: u32, payer: usize, way: usize, shares: i64) -> u64 {
        let weight = i64::from(self.weights[self.place(crossing, payer)]);
        let sums = self.sums[self.sum_place(crossing, payer)];
        let free = dearer(sums) - sums[self.side(crossing, way)];
        let left = self.rows[crossing as usize].left.max(0) + free;
        ((left / (shares * weight)) as u64).min(u64::from(u32::MAX / 2))
    }

    /// What a payer pays apart from the area.
    pub fn amount(&self, crossing: u32, payer: usize, way: usize) -> u32 {
        self.amounts[self.place(crossing, payer)][self.side(crossing, way)]
    }

    /// Sets what a payer pays apart from the area; no more than its amount and share.
    pub fn set(&mut self, crossing: u32, payer: usize, amounts: [u32; 2]) {
        let (place, sum_place) = (self.place(crossing, payer), self.sum_place(crossing, payer));
        let row = &mut self.rows[crossing as usize];
        let amounts = match row.merged {
            true => [amounts[0].max(amounts[1]), 0],
            false => amounts,
        };
        let before = std::mem::replace(&mut self.amounts[place], amounts);
        if before == amounts {
            return;
        }
        let sums = &mut self.sums[sum_place];
        row.left += dearer(*sums);
        for (sum, (amount, before)) in sums.iter_mut().zip(amounts.into_iter().zip(before)) {
            *sum += (i64::from(amount) - i64::from(before)) * i64::from(self.weights[place]);
        }
        row.left -= dearer(*sums);
    }

    /// Lets the area pay all that is left at a crossing.
    pub fn fill_by_area(&mut self, crossing: u32) {
        let row = &mut self.rows[crossing as usize];
        row.set_by_area(row.by_area + row.left.max(0) / COST);
    }

    /// Raises all tolls by how often they are met, `stride` parts for one that always is, for each
    /// of the payer's units; then cuts those of each crossing evenly until they are within its price
    /// again.
    pub fn raise(&mut self, habit: &Habit, payers: &[(u64, u32)], stride: f64) {
        for j in 0..self.rows.len() as u32 {
            let shares = habit.at(j);
            if self.raise_amounts(j, shares, payers, stride) {
                self.cut(j);
            }
        }
    }

    /// Raises what payers pay of their own and by the area; false if nobody passes.
    fn raise_amounts(
        &mut self,
        j: u32,
        shares: &[[u32; 2]],
        payers: &[(u64, u32)],
        stride: f64,
    ) -> bool {
        let mut area = 0;
        let mut any = false;
        for (at, (share, (units, size))) in shares.iter().zip(payers).enumerate() {
            if *share == [0, 0] {
                continue;
            }
            any = true;
            let more = |share: u32| {
                let met = *units * u64::from(share);
                (stride * met as f64 / f64::from(ALWAYS) / WHOLE as f64)
                    .ceil()
                    .min(1e8) as u32
            };
            let mut amounts = self.amounts[self.place(j, at)];
            for (way, share) in share.iter().enumerate() {
                let side = self.side(j, way);
                amounts[side] = amounts[side].saturating_add(more(*share)).min(1 << 31);
                area += *units * u64::from(*share) * u64::from(*size);
            }
            self.set(j, at, amounts);
        }
        if any {
            let row = &mut self.rows[j as usize];
            let area = area as f64 / f64::from(ALWAYS) / WHOLE as f64;
            row.set_by_area(
                row.by_area + (stride * area / f64::from(row.capacity)).min(1e8) as i64,
            );
        }
        any
    }

    /// Cuts what is paid at a crossing evenly until it is within the price; of each set what it pays
    /// the dearer way, and the other way what would be above that then.
    fn cut(&mut self, j: u32) {
        while self.rows[j as usize].left < 0 {
            let excess = -self.rows[j as usize].left;
            let squares = self.squares(j);
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
            self.cut_amounts(j, &overs, &squares);
            self.rows[j as usize].cut(share_of(excess, COST, total.max(1)));
        }
    }

    /// For each set and way the squares of the weights of those who pay.
    fn squares(&self, j: u32) -> Vec<[i64; 2]> {
        let mut squares = vec![[0; 2]; self.count];
        for (at, set) in self.sets.iter().enumerate() {
            let place = self.place(j, at);
            let square = i64::from(self.weights[place]).pow(2);
            for (sum, amount) in squares[*set as usize].iter_mut().zip(self.amounts[place]) {
                *sum += if amount > 0 { square } else { 0 };
            }
        }
        squares
    }

    /// Takes so much from each set and way.
    fn cut_amounts(&mut self, j: u32, overs: &[[i64; 2]], squares: &[[i64; 2]]) {
        for at in 0..self.sets.len() {
            let (place, set) = (self.place(j, at), self.sets[at] as usize);
            let weight = i64::from(self.weights[place]);
            let mut amounts = self.amounts[place];
            for (side, amount) in amounts.iter_mut().enumerate() {
                let less = share_of(overs[set][side], weight, squares[set][side].max(1));
                *amount -= less.min(i64::from(*amount)) as u32;
            }
            self.set(j, at, amounts);
        }
    }

    fn place(&self, crossing: u32, payer: usize) -> usize {
        crossing as usize * self.sets.len() + payer
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

impl Row {
    /// Takes so much from what the area pays.
    fn cut(&mut self, less: i64) {
        self.set_by_area(self.by_area - less.min(self.by_area));
    }

    fn set_by_area(&mut self, by_area: i64) {
        self.left -= (by_area - self.by_area) * COST;
        self.by_area = by_area;
        self.per_area = ((by_area as u64) << AREA_BITS) / u64::from(self.capacity);
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
