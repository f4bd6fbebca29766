//! Finds the cheapest way for one cable or one bundle, given everything else that lies.
//!
//! It prices ways but lays none. Every way it gives keeps the cable's pins and its length limit.

use super::amortised::Amortised;
use super::graph::{Arc, NONE, Network};
use super::limited;
use super::problem::Cable;
use super::queue::Queue;
use super::shortest::{Field, Search};
use super::state::{Bundle, State};
use super::watch::Watch;

/// The state of the paths with all that searching it needs.
#[derive(Clone, Debug)]
pub(super) struct Router<'n> {
    pub network: &'n Network,
    pub state: State<'n>,
    pub watch: Watch,
    search: Search,
    /// Never more than any one cable would pay from a node on, while the paths lie as they do.
    ahead: Field,
    amortised: Amortised<'n>,
    queue: Queue,
    /// Cables that local search leaves where they lie.
    pub held: Vec<bool>,
    /// A crossing that no way is sought through.
    pub barred: u32,
}

/// What it costs to go where no way is sought: more than any way.
const BARRED: u64 = 1 << 40;

/// Whether a cable can be laid at all.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Reach {
    Open,
    NoPath,
    /// Even the shortest way, of this length in millimetres, is over the limit.
    TooLong(u64),
}

impl<'n> Router<'n> {
    /// No cable laid, and the estimates weak: see [`Self::look_ahead`].
    pub fn new(network: &'n Network) -> Self {
        let state = State::new(network);
        let search = Search::new(network);
        Self {
            network,
            state,
            watch: Watch::new(network.nodes, network.cables.len()),
            search,
            ahead: network.linear.clone(),
            amortised: Amortised::new(network),
            queue: Queue::new(),
            held: vec![false; network.cables.len()],
            barred: NONE,
        }
    }

    /// Nodes that searches have taken up so far: a measure of time that is the same everywhere.
    pub fn work(&self) -> u64 {
        self.search.work
    }

    /// Takes every path out. The estimates stay true, if weak.
    pub fn clear(&mut self) {
        for cable in 0..self.network.cables.len() {
            self.state.lift(cable);
        }
    }

    /// Sharpens the estimates: at the start, and after paths were taken out.
    pub fn look_ahead(&mut self) {
        self.ahead.distance.fill(u64::MAX);
        self.ahead.distance[self.network.sink as usize] = 0;
        self.queue.push(0, self.network.sink);
        self.spread();
    }

    /// The estimates as they are, to come back to.
    pub fn estimates(&self) -> Field {
        self.ahead.clone()
    }

    /// Estimates that hold for the paths as they lie now.
    pub fn set_estimates(&mut self, estimates: &Field) {
        self.ahead.clone_from(estimates);
    }

    /// A path or part of one was taken away for good.
    pub fn closed(&mut self, path: &[u32]) {
        self.watch.change(ends(self.network, path));
    }

    /// Keeps the estimates true after a path was laid: its crossings may now be free.
    pub fn opened(&mut self, path: &[u32]) {
        self.watch.change(ends(self.network, path));
        for arc in path {
            let crossing = self.network.arcs[*arc as usize].crossing;
            if crossing != NONE {
                self.open(crossing);
            }
        }
        self.spread();
    }

    fn open(&mut self, crossing: u32) {
        for i in self.network.arcs_through(crossing) {
            let arc = &self.network.arcs[*i as usize];
            let beyond = self.ahead.distance[arc.to as usize];
            let reached = beyond.saturating_add(self.state.least(arc));
            if reached < self.ahead.distance[arc.from as usize] {
                self.ahead.distance[arc.from as usize] = reached;
                self.ahead.next[arc.from as usize] = *i;
                self.queue.push(reached, arc.from);
            }
        }
    }

    fn spread(&mut self) {
        let state = &self.state;
        self.ahead
            .spread(self.network, &mut self.queue, |_, arc| state.least(arc));
    }

    /// Whether a cable has any way within its limit.
    pub fn reach(&mut self, cable: usize) -> Reach {
        if self.cheapest_is_in_limit(cable) {
            return Reach::Open;
        }
        match self.shortest_mm(cable) {
            None => Reach::NoPath,
            Some(length) if length > limit(self.network, cable) => Reach::TooLong(length),
            Some(_) => Reach::Open,
        }
    }

    /// Whether the way of the least linear cost keeps the limit, so that no shorter one is looked for.
    fn cheapest_is_in_limit(&self, cable: usize) -> bool {
        let network = self.network;
        let arcs = network.linear.arcs(network, network.cables[cable].source);
        let length = arcs.map(|arcs| {
            arcs.map(|arc| u64::from(network.length(arc as usize)))
                .sum::<u64>()
        });
        network.pins[cable].is_empty()
            && length.is_some_and(|length| length <= limit(network, cable))
    }

    fn shortest_mm(&mut self, cable: usize) -> Option<u64> {
        let network = self.network;
        if network.pins[cable].is_empty() {
            let length = network.nearest().distance[network.cables[cable].source as usize];
            return (length != u64::MAX).then_some(length);
        }
        let by_length = |i: usize, _: &Arc| u64::from(network.length(i));
        let path = legs(&mut self.search, network, cable, by_length)?;
        Some(network.path_length(&path))
    }

    /// The best way for a cable that is not laid; `None` if it has none within its limit, or, as
    /// far as that shows on the way, none for less than `under`.
    pub fn best(&mut self, cable: usize, under: u64) -> Option<Vec<u32>> {
        if !self.network.pins[cable].is_empty() {
            return self.best_pinned(cable);
        }
        let Cable { source, .. } = self.network.cables[cable];
        let bundle = self.network.bundle(cable);
        self.tail(source, bundle, limit(self.network, cable), under)
    }

    /// The best way for a bundle from a node to the sink, no longer than `budget_mm`; `None` as for
    /// [`Self::best`].
    pub fn tail(
        &mut self,
        from: u32,
        bundle: Bundle,
        budget_mm: u64,
        under: u64,
    ) -> Option<Vec<u32>> {
        let Self {
            network,
            state,
            search,
            ahead,
            amortised,
            barred,
            ..
        } = self;
        let others = u64::from(bundle.count) - 1;
        let linear = &network.linear.distance;
        let price = |arc: &Arc, before: u32| match arc.crossing == *barred && arc.crossing != NONE {
            true => BARRED,
            false => state.price_after(before, arc, bundle),
        };
        let shared = amortised.ahead(bundle);
        let ahead = |node: u32| {
            let alone = ahead.distance[node as usize];
            let linear = linear[node as usize];
            let together = alone.saturating_add(linear.saturating_mul(others));
            together.max(shared(node, linear))
        };
        search.run(
            network,
            &[from],
            network.sink,
            |_, arc, before| price(arc, before),
            ahead,
            under,
        )?;
        let mut path = Vec::new();
        search.trace(network, network.sink, &mut path);
        match network.path_length(&path) <= budget_mm {
            true => Some(path),
            false => limited::within(network, from, budget_mm, price, ahead),
        }
    }

    /// A cable with pins: leg by leg, with a growing price on length until the limit holds.
    fn best_pinned(&mut self, cable: usize) -> Option<Vec<u32>> {
        let (network, limit) = (self.network, limit(self.network, cable));
        let bundle = network.bundle(cable);
        let Self { state, search, .. } = self;
        for per_mm in [0, 1, 4, 16, 64, 256, 1024, 4096] {
            let priced = |i: usize, arc: &Arc| {
                state.price(arc, bundle) * 256 + per_mm * u64::from(network.length(i))
            };
            let path = legs(search, network, cable, priced)?;
            if network.path_length(&path) <= limit {
                return Some(path);
            }
        }
        let shortest = legs(search, network, cable, |i, _| u64::from(network.length(i)))?;
        (network.path_length(&shortest) <= limit).then_some(shortest)
    }
}

/// From a cable's source to each of its pins in order and on to the sink.
fn legs(
    search: &mut Search,
    network: &Network,
    cable: usize,
    price: impl Fn(usize, &Arc) -> u64,
) -> Option<Vec<u32>> {
    let stops = network.pins[cable].iter().copied().chain([network.sink]);
    let mut from = network.cables[cable].source;
    let mut path = Vec::new();
    for to in stops {
        search.run(
            network,
            &[from],
            to,
            |i, arc, _| price(i, arc),
            |_| 0,
            u64::MAX,
        )?;
        search.trace(network, to, &mut path);
        from = to;
    }
    Some(path)
}

/// The nodes at both ends of every arc.
fn ends<'a>(network: &'a Network, path: &'a [u32]) -> impl Iterator<Item = u32> + 'a {
    let first = path.first().map(|arc| network.arcs[*arc as usize].from);
    first
        .into_iter()
        .chain(path.iter().map(|arc| network.arcs[*arc as usize].to))
}

/// The longest way a cable may take; `u64::MAX` for no limit.
pub(super) fn limit(network: &Network, cable: usize) -> u64 {
    match network.cables[cable].max_length_mm {
        u32::MAX => u64::MAX,
        limit => u64::from(limit),
    }
}
