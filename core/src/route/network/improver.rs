//! The search in steps, for a worker that reports progress and can be stopped between them.
//!
//! It keeps the best paths found and the paths it works on, which may be a little dearer for a
//! while; it never looks at a clock.

use super::answer::Answer;
use super::graph::Network;
use super::improve::{Kicks, improve, kick};
use super::random::Random;
use super::router::{Reach, Router};
use super::shortest::Field;
use super::{restart, start, warm};

/// Of so many steps the last lays all paths anew along a tree at disturbed prices and the one before it
/// along a tree at disturbed shares; of the others one tears out a cluster, the next kicks a bundle off its
/// way. Chosen on the houses of the tests. What is disturbed goes by the crossings' numbers, so a first
/// answer ends before: a house in a mirror has the same.
const ROUND: u32 = 8;

/// Steps from the widest leeway to none.
const CYCLE: u32 = 64;

/// The first paths are laid along trees with no bores, and then with bores at these shares of their
/// price, in 256ths: cables part early where bores are cheap and gather early where they are dear.
const STARTS: [u64; 2] = [8, start::PLAIN / 2];

/// Then they are laid along trees where each bore in use costs its share for one of the cables in it, and
/// one out of use its price divided by these.
const SHARES: [u64; 4] = [2, 4, 6, 8];

/// Cables of so many places at most are kicked as new: more is no single edit.
const MOST_NEW: usize = 2;

/// The widest leeway, in thousandths of the cost.
const LEEWAY: u64 = 3;

/// Improves the paths of all cables, step by step.
///
/// ```
/// # use borewright_core::route::network::*;
/// # let problem = Problem { nodes: 1, ..Problem::default() };
/// let network = Network::new(&problem)?;
/// let mut improver = Improver::new(&network, true);
/// while improver.steps() < 10 {
///     if improver.step() {
///         // A cheaper answer: show it.
///         assert!(improver.answer().check(&problem).is_ok());
///     }
/// }
/// # Ok::<(), ProblemError>(())
/// ```
#[derive(Clone, Debug)]
pub struct Improver<'n> {
    router: Router<'n>,
    reach: Vec<Reach>,
    best: Layout,
    /// Where the next step sets out from; at times a little dearer than the best.
    held: Layout,
    /// Estimates that hold for the held paths.
    estimates: Option<Field>,
    /// A local search may take up so many nodes; see [`most`].
    most: u64,
    /// Whether the first local search came to its end.
    polished: bool,
    random: Random,
    steps: u32,
}

/// The nodes that one local search may take up: six for each direction of each edge, which is more
/// than houses of 40 drops need. One of 400 drops stops at one for each and goes on in the steps
/// that follow, so that the first answer is not late.
fn most(network: &Network) -> u64 {
    let arcs = network.arcs.len() as u64;
    (6 * arcs).min(80_000).max(arcs)
}

/// Paths to come back to.
#[derive(Clone, Debug)]
struct Layout {
    paths: Vec<Option<Vec<u32>>>,
    cost: u64,
}

impl<'n> Improver<'n> {
    /// First paths from nothing, improved by local search if `polish`; never dearer than every
    /// cable going its own cheapest way.
    pub fn new(network: &'n Network, polish: bool) -> Self {
        let mut improver = Self::blank(network);
        improver.router.look_ahead();
        let alone = improver.router.estimates();
        start::lay_tree(&mut improver.router, &improver.reach, &network.linear);
        let before = improver.router.work();
        improver.polish(polish);
        if polish && improver.polished {
            // No start is worth much more time than the first took.
            let most = (improver.router.work() - before) / 4 * 5;
            for factor in STARTS {
                improver.start_at(factor, most);
            }
            improver.share();
        }
        improver.router.clear();
        improver.router.set_estimates(&alone);
        start::lay_alone(&mut improver.router, &improver.reach);
        if improver.router.state.cost() < improver.best.cost {
            improver.router.watch.forget();
            // Where the first local search was cut short, the steps that follow go on with it.
            improver.polish(polish && improver.polished);
        }
        improver
    }

    /// First paths from those that the cables had; see [`solve_from`](super::solve_from).
    pub fn from(network: &'n Network, previous: &[Vec<u32>], polish: bool) -> Self {
        let mut improver = Self::blank(network);
        warm::lay_previous(&mut improver.router, &improver.reach, previous);
        let is_new = |cable: &usize| improver.router.state.paths[*cable].is_none();
        let new: Vec<usize> = (0..network.cables.len()).filter(is_new).collect();
        improver.router.look_ahead();
        start::lay_missing(&mut improver.router, &improver.reach);
        improver.polish(polish);
        if polish && improver.polished {
            improver.share();
            improver.kick_new(&new);
        }
        improver
    }

    /// One restart, or more of the local search where that was cut short; true if it found
    /// something cheaper.
    pub fn step(&mut self) -> bool {
        let before = self.best.cost;
        if self.steps.is_multiple_of(CYCLE) {
            self.hold_best();
        }
        match self.steps % ROUND {
            _ if !self.polished => self.polish_on(),
            6 => self.disturb_shares(),
            7 => self.disturb(),
            even if even.is_multiple_of(2) => self.tear_out(),
            _ => self.kick(),
        }
        self.keep(self.leeway());
        self.steps += 1;
        self.best.cost < before
    }

    /// What the best paths so far cost.
    pub fn cost(&self) -> u64 {
        self.best.cost
    }

    /// The steps made so far.
    pub fn steps(&self) -> u32 {
        self.steps
    }

    /// The best paths so far.
    pub fn answer(&self) -> Answer {
        Answer::of(
            self.router.network,
            &self.reach,
            &self.best.paths,
            self.best.cost,
        )
    }
}

impl<'n> Improver<'n> {
    fn blank(network: &'n Network) -> Self {
        let mut router = Router::new(network);
        let reach = (0..network.cables.len())
            .map(|cable| router.reach(cable))
            .collect();
        let none = Layout {
            paths: vec![None; network.cables.len()],
            cost: u64::MAX,
        };
        Self {
            router,
            reach,
            best: none.clone(),
            held: none,
            estimates: None,
            most: most(network),
            polished: true,
            random: Random::new(0),
            steps: 0,
        }
    }

    fn restart_from(&mut self, tree: &Field) {
        self.router.clear();
        start::lay_tree(&mut self.router, &self.reach, tree);
        self.router.watch.forget();
    }

    /// Lays all paths anew along a tree with bores at a share of their price, and improves them.
    fn start_at(&mut self, factor: u64, most: u64) {
        let network = self.router.network;
        let prices = vec![factor; network.crossings.len()];
        self.restart_from(&start::tree(network, &prices));
        improve(&mut self.router, most);
        self.keep(0);
    }

    /// Lays all paths anew along trees at what each bore in use costs one of the cables in it, and improves
    /// them.
    ///
    /// Kim and Pardalos, "A solution approach to the fixed charge network flow problem using a dynamic slope
    /// scaling procedure", Operations Research Letters 24, 1999, from memory.
    fn share(&mut self) {
        for among in SHARES {
            let prices = start::shares(self.router.network, &self.best.paths, among);
            self.restart_from(&start::tree(self.router.network, &prices));
            improve(&mut self.router, self.most);
            self.keep(0);
        }
    }

    fn polish(&mut self, polish: bool) {
        if polish {
            self.polished = improve(&mut self.router, self.most);
        }
        self.keep(0);
    }

    fn polish_on(&mut self) {
        self.go_to_held();
        self.polished = improve(&mut self.router, self.most / 4);
    }

    fn disturb(&mut self) {
        restart::disturb(&mut self.router, &self.reach, &mut self.random);
        improve(&mut self.router, self.most);
        self.keep(0);
        self.merge();
    }

    /// Lays all paths anew along a tree at shares of what the held paths use, none of them quite right.
    fn disturb_shares(&mut self) {
        let among = SHARES[self.random.below(SHARES.len())];
        let mut prices = start::shares(self.router.network, &self.held.paths, among);
        for price in &mut prices {
            *price = *price * (start::PLAIN / 2 + self.random.below(start::PLAIN as usize) as u64)
                / start::PLAIN;
        }
        self.restart_from(&start::tree(self.router.network, &prices));
        improve(&mut self.router, self.most);
    }

    /// Lays all paths anew along a tree for which the bores are free that these paths or the best
    /// use, and improves them: what is good in each is put together.
    fn merge(&mut self) {
        let network = self.router.network;
        let mut prices = vec![start::PLAIN; network.crossings.len()];
        let used = self.best.paths.iter().chain(&self.router.state.paths);
        for arc in used.flatten().flatten() {
            if let Some(price) = prices.get_mut(network.arcs[*arc as usize].crossing as usize) {
                *price = 0;
            }
        }
        self.restart_from(&start::tree(network, &prices));
        improve(&mut self.router, self.most);
    }

    fn tear_out(&mut self) {
        self.go_to_held();
        let cluster = restart::cluster(&self.router.state, &mut self.random);
        restart::tear_out(&mut self.router, &cluster);
        improve(&mut self.router, self.most);
    }

    /// Kicks the few cables that are new off each hole on their way: what an edit changes is near them.
    fn kick_new(&mut self, new: &[usize]) {
        let source = |cable: &usize| self.router.network.cables[*cable].source;
        let mut firsts = new.to_vec();
        firsts.sort_by_key(|cable| (source(cable), *cable));
        firsts.dedup_by_key(|cable| source(cable));
        if firsts.len() > MOST_NEW {
            return;
        }
        for cable in firsts {
            self.go_to_held();
            let mut kicks = Kicks::of(&self.router, cable);
            while kicks.next(&mut self.router, self.most) {
                self.keep(0);
                self.go_to_held();
            }
        }
    }

    fn kick(&mut self) {
        self.go_to_held();
        kick(&mut self.router, &mut self.random, self.most);
    }

    fn go_to_held(&mut self) {
        self.router.state.replace(&self.held.paths);
        match &self.estimates {
            Some(estimates) => self.router.set_estimates(estimates),
            None => {
                self.router.look_ahead();
                self.estimates = Some(self.router.estimates());
            }
        }
    }

    /// How much dearer than the best paths a step may end: much at the start of a cycle, nothing
    /// at its end.
    fn leeway(&self) -> u64 {
        let left = u64::from(CYCLE - 1 - self.steps % CYCLE);
        self.best.cost / 1_000 * LEEWAY * left / u64::from(CYCLE)
    }

    fn keep(&mut self, leeway: u64) {
        let cost = self.router.state.cost();
        let paths = &self.router.state.paths;
        if cost < self.best.cost {
            self.best.cost = cost;
            self.best.paths.clone_from(paths);
        }
        let allowed = cost < self.best.cost + leeway && cost != self.held.cost;
        if cost < self.held.cost || allowed {
            self.held.cost = cost;
            self.held.paths.clone_from(paths);
            self.estimates = None;
        }
    }

    fn hold_best(&mut self) {
        if self.held.cost != self.best.cost {
            self.held = self.best.clone();
            self.estimates = None;
        }
    }
}
