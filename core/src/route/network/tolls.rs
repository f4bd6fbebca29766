//! The tolls of the lower bound: who pays how much at each crossing, never more than its price.
//!
//! Amounts are whole parts of a thousandth for one edge of the crossing, rounded so that what is
//! paid stays under the price; `bound` tells why that makes a bound. Nothing is searched here.

use super::crowd::Crowd;
use super::graph::Network;

/// Parts of a thousandth in which tolls are counted.
pub(super) const PARTS: u64 = 16;

/// Fraction bits of a toll for a hundredth of a square millimetre.
pub(super) const AREA_BITS: u32 = 16;

/// A crossing where an amount would count more often than this has no tolls, so that no product
/// overflows.
const MOST_WEIGHT: u64 = 1 << 20;

/// Amounts of each payer at each crossing, and of each crossing by the area.
#[derive(Clone, Debug)]
pub(super) struct Tolls {
    payers: usize,
    /// A row for each crossing.
    amounts: Vec<u32>,
    /// How often an amount counts against the price, in rows like the amounts.
    weights: Vec<u32>,
    rows: Vec<Row>,
    crowds: Vec<Crowd>,
}

#[derive(Clone, Copy, Debug)]
struct Row {
    /// Its place among the crowds, if it has one.
    crowd: Option<u32>,
    /// What is left of the price.
    left: i64,
    capacity: u32,
    /// What a bore's capacity pays by the area.
    by_area: i64,
    /// What a hundredth of a square millimetre pays, in 65536ths.
    per_area: u64,
}

/// How often payers' cheapest ways passed crossings of late, in rows like the tolls.
#[derive(Clone, Debug)]
pub(super) struct Habit {
    payers: usize,
    /// In 65536ths of always.
    shares: Vec<u32>,
}

/// Always.
pub(super) const ALWAYS: u32 = 1 << 16;

impl Habit {
    pub fn new(crossings: usize, payers: usize) -> Self {
        Self {
            payers,
            shares: vec![0; crossings * payers],
        }
    }

    /// Lets everything before count less: so many 256ths of it are forgotten.
    pub fn fade(&mut self, forgotten: u32) {
        for share in self.shares.iter_mut().filter(|share| **share > 0) {
            *share -= (*share * forgotten).div_ceil(256).min(*share);
        }
    }

    /// A payer's way passes a crossing now; as much is remembered as was forgotten before.
    pub fn pass(&mut self, crossing: u32, payer: usize, remembered: u32) {
        let share = &mut self.shares[crossing as usize * self.payers + payer];
        *share = (*share + ALWAYS / 256 * remembered).min(ALWAYS);
    }
}

impl Tolls {
    /// No toll anywhere. `weight` gives how often a payer's amount counts at a crossing.
    pub fn new(network: &Network, payers: usize, weight: impl Fn(u32, usize) -> u64) -> Self {
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
                true => u64::from(crossing.price) * PARTS / most_uses(network, j),
                false => 0,
            };
            Row {
                crowd: None,
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
            payers,
            amounts: vec![0; network.crossings.len() * payers],
            weights,
            rows,
            crowds: Vec::new(),
        }
    }

    /// Lets a crowd pay at a crossing (see `crowd`): payers with the area of all their cables.
    /// Nothing where one bore holds them, or where a way may meet the crossing twice.
    pub fn gather(&mut self, network: &Network, crossing: u32, areas: &[(usize, u64)]) {
        let row = &mut self.rows[crossing as usize];
        if network.shared[crossing as usize] || row.crowd.is_some() {
            return;
        }
        if let Some(crowd) = Crowd::new(self.payers, areas, row.capacity) {
            row.crowd = Some(self.crowds.len() as u32);
            self.crowds.push(crowd);
        }
    }

    /// What all crowds together are promised back, in parts.
    pub fn promised(&self) -> u64 {
        self.crowds.iter().map(Crowd::promised).sum()
    }

    /// What a payer of this area pays on an edge of the crossing.
    pub fn toll(&self, crossing: u32, payer: usize, area: u32) -> u64 {
        let row = &self.rows[crossing as usize];
        let crowd = row.crowd.and_then(|i| self.crowds.get(i as usize));
        let per_area = row.per_area + crowd.map_or(0, |crowd| crowd.rate(payer));
        let by_area = per_area.saturating_mul(u64::from(area)) >> AREA_BITS;
        u64::from(self.amounts[crossing as usize * self.payers + payer]) + by_area
    }

    /// What more a payer could pay if it got one of so many shares of what is left.
    pub fn share(&self, crossing: u32, payer: usize, shares: i64) -> u64 {
        let weight = self.weights[crossing as usize * self.payers + payer];
        let left = self.rows[crossing as usize].left.max(0);
        ((left / (shares * i64::from(weight))) as u64).min(u64::from(u32::MAX / 2))
    }

    /// What a payer pays apart from the area.
    pub fn amount(&self, crossing: u32, payer: usize) -> u32 {
        self.amounts[crossing as usize * self.payers + payer]
    }

    /// Sets what a payer pays apart from the area; no more than its amount and share.
    pub fn set(&mut self, crossing: u32, payer: usize, amount: u32) {
        let at = crossing as usize * self.payers + payer;
        let more = i64::from(amount) - i64::from(self.amounts[at]);
        self.rows[crossing as usize].left -= more * i64::from(self.weights[at]);
        self.amounts[at] = amount;
    }

    /// Lets the crowd and the area pay all that is left at a crossing: the crowd the more, the
    /// fuller its last bore is.
    pub fn fill_by_area(&mut self, crossing: u32) {
        let row = &mut self.rows[crossing as usize];
        if let Some(crowd) = row.crowd.and_then(|i| self.crowds.get_mut(i as usize)) {
            let part = row.left.max(0) / 256 * crowd.last_of(row.capacity) as i64;
            crowd.set(crowd.amount() + part);
            row.left -= part;
        }
        row.set_by_area(row.by_area + row.left.max(0));
    }

    /// Raises all tolls by how often they are met, `stride` parts for one that always is, for each
    /// of the payer's units; then cuts those of each crossing evenly until they are within its price
    /// again.
    pub fn raise(&mut self, habit: &Habit, payers: &[(u64, u32)], stride: f64) {
        for j in 0..self.rows.len() {
            let range = j * self.payers..(j + 1) * self.payers;
            let (mut spent, mut area) = (0, 0);
            let shares = habit.shares[range.clone()].iter().zip(payers);
            let rows = self.amounts[range.clone()]
                .iter_mut()
                .zip(&self.weights[range.clone()]);
            for ((share, (units, size)), (amount, weight)) in shares.zip(rows) {
                if *share > 0 {
                    let met = *units * u64::from(*share);
                    let more = (stride * met as f64 / f64::from(ALWAYS)).ceil().min(1e8) as u32;
                    let raised = amount.saturating_add(more).min(1 << 31);
                    spent += i64::from(raised - *amount) * i64::from(*weight);
                    *amount = raised;
                    area += met * u64::from(*size);
                }
            }
            let crowd = self.rows[j]
                .crowd
                .and_then(|i| self.crowds.get_mut(i as usize));
            if let Some(crowd) = crowd {
                let needed = crowd.needed(&habit.shares[range], payers);
                let more = (stride * needed).clamp(-1e8, 1e8) as i64;
                let raised = (crowd.amount() + more).clamp(0, 1 << 31);
                spent += raised - crowd.amount();
                crowd.set(raised);
            }
            if spent != 0 {
                let row = &mut self.rows[j];
                let area = area as f64 / f64::from(ALWAYS);
                let more = (stride * area / f64::from(row.capacity)).min(1e8) as i64;
                row.left -= spent;
                row.set_by_area(row.by_area + more);
                self.cut(j);
            }
        }
    }

    fn cut(&mut self, j: usize) {
        let range = j * self.payers..(j + 1) * self.payers;
        let (amounts, weights) = (&mut self.amounts[range.clone()], &self.weights[range]);
        let row = &mut self.rows[j];
        let mut crowd = row.crowd.and_then(|i| self.crowds.get_mut(i as usize));
        while row.left < 0 {
            let paying = amounts
                .iter()
                .zip(weights)
                .filter(|(amount, _)| **amount > 0);
            let squares: i64 = paying.map(|(_, weight)| i64::from(*weight).pow(2)).sum();
            let crowded = crowd.as_ref().is_some_and(|crowd| crowd.amount() > 0);
            let squares = squares + i64::from(row.by_area > 0) + i64::from(crowded);
            let excess = -row.left;
            let cut = |weight: i64| (excess * weight + squares - 1) / squares.max(1);
            for (amount, weight) in amounts.iter_mut().zip(weights) {
                let weight = i64::from(*weight);
                let less = cut(weight).min(i64::from(*amount));
                *amount -= less as u32;
                row.left += less * weight;
            }
            row.set_by_area(row.by_area - cut(1).min(row.by_area));
            if let Some(crowd) = &mut crowd {
                let less = cut(1).min(crowd.amount());
                crowd.set(crowd.amount() - less);
                row.left += less;
            }
        }
    }
}

impl Row {
    fn set_by_area(&mut self, by_area: i64) {
        self.left -= by_area - self.by_area;
        self.by_area = by_area;
        self.per_area = ((by_area as u64) << AREA_BITS) / u64::from(self.capacity);
    }
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
