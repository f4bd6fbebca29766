//! The way each cable takes.
//!
//! 1. The house becomes a graph of places and moves (`house`, `overhead`, `ends`): bays at their
//!    lanes, corners, plates, strips; each move knows what it costs and what it goes through.
//! 2. [`network`] routes the cables over it, sharing holes; it knows no house.
//! 3. The answer is told back in the house's terms: [`Ways`], with every [`Crossing`] and the
//!    cables through it.
//!
//! Nothing here decides a bit or judges a member: that is for the bores.

mod again;
mod bits;
mod ends;
mod facing;
mod graph;
mod house;
mod improvement;
mod lane;
mod limit;
pub mod network;
mod obstacle;
mod overhead;
mod passage;
mod pinned;
mod port;
mod power;
mod price;
mod rafters;
mod region;
mod studs;
mod trouble;
mod way;
mod why;
mod words;
mod work;

pub use bits::{Bits, area_of};
pub use improvement::Improvement;
pub use limit::Limit;
pub use power::{Beside, StoppedLane, beside_power, stopped_lane};
pub use way::{Crossing, Laid, Member, Move, MoveKind, NoWay, Place3, Way, Ways};
pub use why::why;
pub use words::{trouble_words, words};
pub use work::Work;

use std::cell::LazyCell;
use std::collections::{BTreeMap, BTreeSet};

use crate::framing::Framing;
use crate::plan::{Cable, CableId, Drop, DropId, Entry, Plan};
use crate::rules::RuleId;
use crate::units::Mm;
use graph::{Graph, Step};
use house::House;
use network::{Answer, Effort, Network, Problem};
use price::Prices;

/// Restarts where most ways of a plan that has changed are lost: half of those of an edit.
const RESTARTS: u32 = 4;

/// Ways sought from nothing are clearly better than those kept when they save one part in so many.
const CLEARLY: u64 = 200;

/// A minute in the router's unit.
const UNIT: u64 = 1000;

/// A plan's routing problem, ready to be solved with more or less effort.
pub struct Routing<'p> {
    plan: &'p Plan,
    framing: &'p Framing,
    graph: Graph,
    problem: Option<Problem>,
    /// The cables the problem holds, in its order, with their drops.
    routed: Vec<(CableId, DropId)>,
}

impl<'p> Routing<'p> {
    /// Builds the graph of a house and the problem to solve on it.
    pub fn of(plan: &'p Plan, framing: &'p Framing) -> Self {
        let mut house = House::of(plan, framing);
        house.add_drops();
        house.add_closet();
        house.add_spaces();
        let graph = house_graph(house, plan);
        let mut routing = Self {
            plan,
            framing,
            graph,
            problem: None,
            routed: Vec::new(),
        };
        routing.problem = routing.state();
        routing
    }

    /// The problem as the router takes it; `None` without a closet or without a cable to route.
    pub fn problem(&self) -> Option<&Problem> {
        self.problem.as_ref()
    }

    /// Solves the problem and tells the answer in the house's terms.
    pub fn solve(&self, effort: Effort) -> Ways {
        self.told(self.answer(effort))
    }

    /// Solves the problem by the long [`Improvement`], and tells the answer with its bound.
    pub fn improved(&self) -> Ways {
        self.told(self.long_answer())
    }

    /// The answer of the long [`Improvement`]; `None` where there is no problem to solve.
    pub fn long_answer(&self) -> Option<Answer> {
        let network = Network::new(self.problem.as_ref()?).ok()?;
        Some(Improvement::new(&network).finished())
    }

    fn told(&self, answer: Option<Answer>) -> Ways {
        let nothing = || Answer {
            cost: 0,
            bound: None,
            ways: Vec::new(),
        };
        self.tell(&answer.unwrap_or_else(nothing))
    }

    /// The way of every cable of a plan that has changed a little: as it was, where it still leads
    /// from drop to closet, and the best way given those for every other cable. Where most ways are
    /// lost, all are improved too, and a little further. Quicker than [`Routing::solve`], but perhaps dearer; it depends
    /// on the ways before.
    pub fn solve_again(&self, previous: &Ways) -> Ways {
        let Some(network) = self.problem.as_ref().and_then(|p| Network::new(p).ok()) else {
            return self.solve(Effort::REPAIR);
        };
        let paths = self.paths_again(&network, previous);
        let most = most_are_lost(&paths);
        let effort = Effort {
            polish: most,
            restarts: if most { RESTARTS } else { 0 },
        };
        self.tell(&network::solve_from(&network, &paths, effort))
    }

    /// The ways of all cables after an edit, from those before it; see
    /// [`Design::after`](crate::design::Design::after).
    pub fn solve_after(&self, previous: &Ways) -> Ways {
        let Some(network) = self.problem.as_ref().and_then(|p| Network::new(p).ok()) else {
            return self.solve(Effort::LIVE);
        };
        let paths = self.paths_again(&network, previous);
        let is_small = network.cables() <= Effort::MOST_CABLES_AFTER;
        let effort = if is_small {
            Effort::AFTER
        } else {
            Effort::LIVE
        };
        let kept = network::solve_from(&network, &paths, effort);
        if !most_are_lost(&paths) {
            return self.tell(&kept);
        }
        let fresh = network::solve(&network, Effort::LIVE);
        let is_better = fresh.cost < kept.cost - kept.cost / CLEARLY;
        self.tell(if is_better { &fresh } else { &kept })
    }

    /// The router's own answer; `None` where there is no problem to solve.
    pub fn answer(&self, effort: Effort) -> Option<Answer> {
        let network = Network::new(self.problem.as_ref()?).ok()?;
        Some(network::solve(&network, effort))
    }

    fn state(&mut self) -> Option<Problem> {
        let sink = self.graph.sink?;
        let mut cables = Vec::new();
        for (drop, source) in self.plan.drops.iter().zip(&self.graph.sources) {
            let Some(source) = *source else { continue };
            for cable in &drop.cables {
                let area = area_of(self.plan.catalogue.diameter(cable.kind));
                let id = u64::from(cable.id.0);
                cables.push(network::Cable {
                    id,
                    source,
                    area,
                    max_length_mm: self.longest(drop, cable),
                });
                self.routed.push((cable.id, drop.id));
            }
        }
        Some(Problem {
            nodes: self.graph.places.len() as u32,
            sink,
            edges: self.graph.edges(),
            crossings: self.graph.crossings(),
            pins: self.pins(),
            cables,
        })
    }

    /// The longest way of a cable, millimetres; `u32::MAX` for one that is no twisted pair, whose link
    /// nothing limits. The link is as long as the cable that stays: its way, and the slack at both ends.
    fn longest(&self, drop: &Drop, cable: &Cable) -> u32 {
        let kind = self.plan.catalogue.cable(cable.kind);
        if kind.is_some_and(|kind| !kind.twisted_pair) {
            return u32::MAX;
        }
        let (rules, slack) = (&self.plan.rules, drop.kind.slack(&self.plan.rules));
        (rules.length(RuleId::LinkLength) - slack).0.max(0) as u32
    }

    /// Whether anything leads on from the closet but to boxes in its own bay.
    fn is_reached(&self) -> bool {
        let Some(sink) = self.graph.sink else {
            return false;
        };
        let mut known = BTreeSet::from([sink]);
        let mut waiting = vec![sink];
        while let Some(node) = waiting.pop() {
            for step in &self.graph.steps {
                let beyond = match (step.from == node, step.to == node) {
                    (true, _) => step.to,
                    (_, true) => step.from,
                    _ => continue,
                };
                if !matches!(step.kind, MoveKind::InBay { .. }) {
                    return true;
                }
                if known.insert(beyond) {
                    waiting.push(beyond);
                }
            }
        }
        false
    }

    /// Tells an answer in the house's terms.
    pub fn tell(&self, answer: &Answer) -> Ways {
        let mut told = Ways {
            cost: answer.cost,
            bound: answer.bound,
            unheld: self.unheld(),
            ..Ways::default()
        };
        let prices = Prices::of(&self.plan.rules);
        let shut = LazyCell::new(|| trouble::shut_closet(self));
        let mut known = BTreeMap::new();
        let mut trunk: Vec<usize> = Vec::new();
        // By identity, so that the crossings come in an order that drawing does not decide.
        let mut cables: Vec<_> = self.plan.cables().enumerate().collect();
        cables.sort_by_key(|(_, (_, cable))| cable.id);
        let mut ways = Vec::with_capacity(cables.len());
        for (drawn, (drop, cable)) in cables {
            let place = self.routed.iter().position(|(id, _)| *id == cable.id);
            let found = place.and_then(|place| answer.ways.get(place));
            let mut way = Way {
                cable: cable.id,
                drop: drop.id,
                moves: Vec::new(),
                length: Mm(0),
                trouble: trouble::of(self, drop, found, || shut.clone()),
            };
            let path = found.map_or(&[][..], |way| way.edges());
            let mut node =
                place.and_then(|place| self.problem.as_ref().map(|p| p.cables[place].source));
            for edge in path {
                let step = &self.graph.steps[*edge as usize];
                let forward = node == Some(step.from);
                let (from, to) = if forward {
                    (step.from, step.to)
                } else {
                    (step.to, step.from)
                };
                node = Some(to);
                let crossing = self.crossing(&mut told, &mut known, step.hole, cable.id);
                if crossing.is_none() && step.hole.is_some() {
                    trunk.push(*edge as usize);
                }
                let plain = prices.cable(step.length);
                told.laid.cable += u64::from(plain);
                told.laid.beside_power += u64::from(step.cost - plain.min(step.cost));
                way.moves.push(Move {
                    kind: step.kind,
                    from: self.graph.places[from as usize],
                    to: self.graph.places[to as usize],
                    length: step.length,
                    crossing,
                });
            }
            way.length = Mm::rounded(way.moves.iter().map(|step| step.length).sum());
            ways.push((drawn, way));
        }
        ways.sort_by_key(|(drawn, _)| *drawn);
        told.ways = ways.into_iter().map(|(_, way)| way).collect();
        (told.supported, told.laid.supports) = self.supported(&trunk);
        told
    }

    /// The length of steps together, each counted once, and what their supports cost.
    fn supported(&self, steps: &[usize]) -> (Mm, u64) {
        let mut is_new = vec![true; self.graph.steps.len()];
        let once = steps
            .iter()
            .filter(|step| std::mem::take(&mut is_new[**step]));
        let once: Vec<&Step> = once.map(|step| &self.graph.steps[*step]).collect();
        let holes = once
            .iter()
            .filter_map(|step| self.graph.shared.get(step.hole?));
        let price = holes.map(|shared| u64::from(shared.tariff.price)).sum();
        let mut lengths: Vec<f64> = once.iter().map(|step| step.length).collect();
        lengths.sort_by(f64::total_cmp);
        (Mm::rounded(lengths.iter().sum()), price)
    }

    /// Notes a cable at the crossing of a step, if the step goes through wood.
    fn crossing(
        &self,
        told: &mut Ways,
        known: &mut BTreeMap<usize, usize>,
        hole: Option<usize>,
        cable: CableId,
    ) -> Option<usize> {
        let hole = hole?;
        let crossing = self.graph.shared[hole].crossing.as_deref()?;
        let place = *known.entry(hole).or_insert_with(|| {
            told.crossings.push(crossing.clone());
            told.crossings.len() - 1
        });
        // They are told by identity, so a cable that was here already is the last.
        let cables = &mut told.crossings[place].cables;
        if cables.last() != Some(&cable) {
            cables.push(cable);
        }
        Some(place)
    }
}

/// Whether so many ways of before lead nowhere that those kept say little of what is best.
fn most_are_lost(paths: &[Vec<u32>]) -> bool {
    let lost = paths.iter().filter(|path| path.is_empty()).count();
    2 * lost > paths.len()
}

/// The finished graph; where cable may not come in sideways, the closet's bay keeps only its ways
/// from above or below.
fn house_graph(house: House, plan: &Plan) -> Graph {
    let entry = plan.closet.map_or(Entry::Either, |closet| closet.entry);
    let (mut graph, shelves) = (house.graph, house.shelves);
    let Some(sink) = graph.sink else { return graph };
    let hub = graph.steps.iter().find_map(|step| match step.kind {
        MoveKind::InBay { .. } if step.from == sink => Some(step.to),
        _ => None,
    });
    let shut = |kind: MoveKind| match kind {
        MoveKind::AlongWall { .. } | MoveKind::IntoWall { .. } => entry != Entry::Either,
        MoveKind::ThroughTopPlates { .. } => entry == Entry::Below,
        MoveKind::ThroughBottomPlates { .. } => entry == Entry::Above,
        _ => false,
    };
    if let Some(hub) = hub {
        let shelf = |node| shelves.contains(&(hub, node));
        let closet = |node| node == hub || node == sink || shelf(node);
        graph
            .steps
            .retain(|step| !(closet(step.from) || closet(step.to)) || !shut(step.kind));
    }
    graph
}
