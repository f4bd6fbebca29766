//! Paths as they lie: what every crossing holds, what one more bundle would cost, what all cost.
//!
//! A path is a list of arcs from a cable's source to the sink. Nothing is decided here.

use super::graph::{Arc, NONE, Network};
use super::tariff::Known;

/// One crossing's bores and the room left in them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Bores {
    /// What they cost.
    paid: u64,
    /// Area that costs nothing more.
    slack: u32,
    /// What goes through them.
    area: u32,
    load: u64,
}

/// Several cables that move as one, or one alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Bundle {
    pub count: u32,
    pub area: u32,
    pub load: u64,
}

impl Bundle {
    pub const NONE: Self = Self {
        count: 0,
        area: 0,
        load: 0,
    };

    /// Both together.
    pub fn and(self, other: Self) -> Self {
        Self {
            count: self.count + other.count,
            area: self.area + other.area,
            load: self.load + other.load,
        }
    }
}

/// The paths of all cables and what they cost together.
#[derive(Clone, Debug)]
pub(super) struct State<'n> {
    pub network: &'n Network,
    /// For each cable its path, or `None` while it has none.
    pub paths: Vec<Option<Vec<u32>>>,
    bores: Vec<Bores>,
    known: Known,
    cost: u64,
    /// The last mark at which a shared crossing was counted.
    marks: Vec<u32>,
    mark: u32,
}

impl<'n> State<'n> {
    /// No cable laid.
    pub fn new(network: &'n Network) -> Self {
        let none = Bores {
            paid: 0,
            slack: 0,
            area: 0,
            load: 0,
        };
        Self {
            network,
            paths: vec![None; network.cables.len()],
            bores: vec![none; network.crossings.len()],
            known: Known::new(&network.tariffs),
            cost: 0,
            marks: vec![0; network.crossings.len()],
            mark: 0,
        }
    }

    /// What all laid cables cost together.
    pub fn cost(&self) -> u64 {
        self.cost
    }

    /// What the arc would cost a bundle on top of what lies there.
    pub fn price(&self, arc: &Arc, bundle: Bundle) -> u64 {
        let linear = u64::from(arc.cost) * u64::from(bundle.count);
        match arc.crossing {
            NONE => linear,
            j => linear + self.extra(j as usize, bundle),
        }
    }

    /// The same right after another arc, `NONE` at the start: a hole that both share is paid once.
    pub fn price_after(&self, before: u32, arc: &Arc, bundle: Bundle) -> u64 {
        let before = self.network.arcs.get(before as usize);
        let again = |before: &Arc| before.crossing == arc.crossing && arc.crossing != NONE;
        match self.network.any_met_twice && before.is_some_and(again) {
            true => u64::from(arc.cost) * u64::from(bundle.count),
            false => self.price(arc, bundle),
        }
    }

    /// What a whole path would cost a bundle on top of what lies there.
    pub fn path_price(&self, path: &[u32], bundle: Bundle) -> u64 {
        let arcs = || path.iter().map(|arc| &self.network.arcs[*arc as usize]);
        let linear: u64 = arcs().map(|arc| u64::from(arc.cost)).sum();
        let mut met: Vec<u32> = arcs()
            .map(|arc| arc.crossing)
            .filter(|j| *j != NONE)
            .collect();
        met.sort_unstable();
        met.dedup();
        let bores = met.iter().map(|j| self.extra(*j as usize, bundle));
        linear * u64::from(bundle.count) + bores.sum::<u64>()
    }

    /// The least that any one cable could pay for the arc while the paths lie as they do, with or
    /// without itself: a crossing in use may be free, one out of use costs a bore, of which each of
    /// two edges that share it bears half.
    pub fn least(&self, arc: &Arc) -> u64 {
        let linear = u64::from(arc.cost);
        match self.bores.get(arc.crossing as usize) {
            Some(bores) if bores.paid == 0 => {
                let j = arc.crossing as usize;
                let halved = u32::from(self.network.shared[j]);
                linear + u64::from(self.network.crossings[j].price >> halved)
            }
            _ => linear,
        }
    }

    /// Lays a cable that has no path.
    pub fn lay(&mut self, cable: usize, path: Vec<u32>) {
        self.begin_count();
        self.add(&path, cable);
        self.paths[cable] = Some(path);
    }

    /// Takes a cable's path out.
    pub fn lift(&mut self, cable: usize) -> Option<Vec<u32>> {
        let path = self.paths[cable].take()?;
        self.begin_count();
        self.take(&path, cable);
        Some(path)
    }

    /// Takes out what a cable's path does from its arc `at` on.
    pub fn lift_tail(&mut self, cable: usize, at: usize) -> Option<Vec<u32>> {
        let mut head = self.paths[cable].take()?;
        let tail = head.split_off(at.min(head.len()));
        self.begin_count();
        self.count_shared(&head);
        self.take(&tail, cable);
        self.paths[cable] = Some(head);
        Some(tail)
    }

    /// Lays a tail on to what a cable's path has kept.
    pub fn lay_tail(&mut self, cable: usize, tail: &[u32]) {
        let Some(mut head) = self.paths[cable].take() else {
            return;
        };
        self.begin_count();
        self.count_shared(&head);
        self.add(tail, cable);
        head.extend_from_slice(tail);
        self.paths[cable] = Some(head);
    }

    /// Starts again from other paths.
    pub fn replace(&mut self, paths: &[Option<Vec<u32>>]) {
        for (cable, path) in paths.iter().enumerate() {
            if self.paths[cable] != *path {
                self.lift(cable);
                if let Some(path) = path {
                    self.lay(cable, path.clone());
                }
            }
        }
    }

    fn begin_count(&mut self) {
        self.mark = self.mark.wrapping_add(1);
        if self.mark == 0 {
            self.marks.fill(0);
            self.mark = 1;
        }
    }

    fn count_shared(&mut self, arcs: &[u32]) {
        if !self.network.any_met_twice {
            return;
        }
        for arc in arcs {
            let crossing = self.network.arcs[*arc as usize].crossing;
            if crossing != NONE {
                self.marks[crossing as usize] = self.mark;
            }
        }
    }

    /// Whether this path meets the crossing for the first time; few can be met twice.
    fn first(&mut self, crossing: u32) -> bool {
        let j = crossing as usize;
        !self.network.met_twice[j] || std::mem::replace(&mut self.marks[j], self.mark) != self.mark
    }

    fn add(&mut self, arcs: &[u32], cable: usize) {
        let bundle = self.network.bundle(cable);
        for arc in arcs {
            let arc = self.network.arcs[*arc as usize];
            self.cost += u64::from(arc.cost);
            if arc.crossing != NONE && self.first(arc.crossing) {
                let Bores { area, load, .. } = self.bores[arc.crossing as usize];
                self.fill(arc.crossing, area + bundle.area, load + bundle.load);
            }
        }
    }

    fn take(&mut self, arcs: &[u32], cable: usize) {
        let bundle = self.network.bundle(cable);
        for arc in arcs {
            let arc = self.network.arcs[*arc as usize];
            self.cost -= u64::from(arc.cost);
            if arc.crossing != NONE && self.first(arc.crossing) {
                let Bores { area, load, .. } = self.bores[arc.crossing as usize];
                self.fill(arc.crossing, area - bundle.area, load - bundle.load);
            }
        }
    }

    /// What a bundle would pay at a crossing for bores, on top of what lies there.
    fn extra(&self, crossing: usize, bundle: Bundle) -> u64 {
        let bores = &self.bores[crossing];
        if bundle.area <= bores.slack {
            return 0;
        }
        let together = (bores.area + bundle.area, bores.load + bundle.load);
        // More through a hole never costs less, but for odd bundles that are dealt out badly.
        self.bores_price(crossing, together)
            .saturating_sub(bores.paid)
    }

    /// What a crossing's bores cost with so much through them.
    fn bores_price(&self, crossing: usize, (area, load): (u32, u64)) -> u64 {
        let network = self.network;
        let of = network.crossings[crossing];
        match (area, of.wider) {
            (0, _) => 0,
            _ if area <= of.capacity => of.price.into(),
            (_, None) => u64::from(area.div_ceil(of.capacity)) * u64::from(of.price),
            (_, Some(_)) => {
                let asked = (network.tariffs.place(crossing), load);
                self.known.price(&network.tariffs, &network.loads, asked)
            }
        }
    }

    /// Sets what goes through a crossing.
    fn fill(&mut self, crossing: u32, area: u32, load: u64) {
        let place = crossing as usize;
        let of = self.network.crossings[place];
        let paid = self.bores_price(place, (area, load));
        let room = match of.wider {
            None => u64::from(area).next_multiple_of(of.capacity.into()) - u64::from(area),
            Some(_) => of.capacity.saturating_sub(area).into(),
        };
        let bores = &mut self.bores[place];
        self.cost = self.cost - bores.paid + paid;
        *bores = Bores {
            paid,
            slack: if area > 0 { room as u32 } else { 0 },
            area,
            load,
        };
    }
}

#[cfg(test)]
mod tests {
    use super::super::random::Random;
    use super::super::sample::Sample;
    use super::super::shortest;
    use super::*;

    fn network(per_bore: u32, sharing: u32) -> Network {
        let sample = Sample {
            seed: 8,
            width: 7,
            height: 6,
            cables: 9,
            per_bore,
        };
        let mut problem = sample.problem();
        problem
            .edges
            .iter_mut()
            .for_each(|edge| edge.crossing = edge.crossing.map(|j| j / sharing));
        Network::new(&problem).unwrap()
    }

    /// A way to the sink at random prices.
    fn path(network: &Network, cable: usize, random: &mut Random) -> Vec<u32> {
        let noise: Vec<u64> = network
            .arcs
            .iter()
            .map(|_| 1 + random.next() % 100)
            .collect();
        let field = shortest::field(network, network.sink, |i, _| noise[i]);
        field.path(network, network.cables[cable].source).unwrap()
    }

    /// What the paths cost, counted anew.
    fn recount(state: &State<'_>) -> u64 {
        let network = state.network;
        let mut loads = vec![0u64; network.crossings.len()];
        let mut cost = 0;
        for (cable, path) in network.cables.iter().zip(&state.paths) {
            let arcs = || path.iter().flatten().map(|arc| network.arcs[*arc as usize]);
            cost += arcs().map(|arc| u64::from(arc.cost)).sum::<u64>();
            let mut met: Vec<u32> = arcs()
                .map(|arc| arc.crossing)
                .filter(|j| *j != NONE)
                .collect();
            met.sort_unstable();
            met.dedup();
            let unit = network.loads.unit(cable.area);
            met.iter().for_each(|j| loads[*j as usize] += unit);
        }
        let bores = network.crossings.iter().zip(loads);
        cost + bores
            .map(|(crossing, load)| network.loads.price(crossing, load))
            .sum::<u64>()
    }

    #[test]
    fn the_cost_is_that_of_a_recount_after_any_moves() {
        for (per_bore, sharing) in [(1, 1), (2, 1), (100, 1), (2, 3)] {
            let network = network(per_bore, sharing);
            let (mut state, mut random) = (State::new(&network), Random::new(3));
            for _ in 0..300 {
                let cable = random.below(9);
                match state.paths[cable].as_ref().map(Vec::len) {
                    None => state.lay(cable, path(&network, cable, &mut random)),
                    Some(length) if random.below(2) == 0 => {
                        let tail = state.lift_tail(cable, random.below(length + 1)).unwrap();
                        state.lay_tail(cable, &tail);
                    }
                    Some(_) => drop(state.lift(cable)),
                }
                assert_eq!(state.cost(), recount(&state));
            }
        }
    }

    #[test]
    fn the_price_of_an_arc_is_what_laying_on_it_costs() {
        let network = network(2, 1);
        let (mut state, mut random) = (State::new(&network), Random::new(4));
        for cable in 0..9 {
            let path = path(&network, cable, &mut random);
            let bundle = network.bundle(cable);
            let price = |arc: &u32| state.price(&network.arcs[*arc as usize], bundle);
            let least = |arc: &u32| state.least(&network.arcs[*arc as usize]);
            let (price, least) = (
                path.iter().map(price).sum(),
                path.iter().map(least).sum::<u64>(),
            );
            let before = state.cost();
            state.lay(cable, path);
            assert_eq!(state.cost() - before, price);
            assert!(least <= price);
        }
    }

    #[test]
    fn other_paths_can_be_put_back() {
        let network = network(3, 1);
        let (mut state, mut random) = (State::new(&network), Random::new(5));
        (0..5).for_each(|cable| state.lay(cable, path(&network, cable, &mut random)));
        let kept = state.clone();
        state.lift(2);
        (5..9).for_each(|cable| state.lay(cable, path(&network, cable, &mut random)));
        state.replace(&kept.paths);
        assert_eq!((&state.paths, state.cost()), (&kept.paths, kept.cost()));
    }
}
