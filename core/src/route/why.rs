//! Why a cable goes as it does: what another way would cost more, or how much shorter it would be. Worked
//! out for one cable when somebody asks; decides nothing.

use std::collections::{BTreeMap, BTreeSet};

use super::network::{Loads, Network, Problem, cheapest};
use super::way::{MoveKind, Ways};
use super::{Routing, UNIT};
use crate::framing::Framing;
use crate::plan::{CableId, Pin, Plan, WallId};
use crate::units::Mm;

/// A way is a detour that is longer than the shortest one by more than this, per cent.
const DETOUR: u64 = 10;

/// Where a way runs along: what it is told apart by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Along {
    Wall(WallId),
    Space(usize),
}

/// What another way leaves out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Part {
    Hole(usize),
    Edge(u32),
}

/// Why a cable goes the way it does, in a sentence or two; `None` for one that has no way.
///
/// "The other way, by W8, costs 3 minutes more." Of a detour: "It is 22' 4\" longer than the shortest
/// way, by the attic, which costs 12 minutes more." What others pay for is free to it: holes they are
/// drilled for anyway are not counted.
pub fn why(plan: &Plan, framing: &Framing, ways: &Ways, cable: CableId) -> Option<String> {
    let routing = Routing::of(plan, framing);
    let problem = routing.problem()?;
    let network = Network::new(problem).ok()?;
    let paths = routing.paths_again(&network, ways);
    let place = routing.routed.iter().position(|(id, _)| *id == cable)?;
    let loads = Loads::of(&problem.cables);
    let own = paths.get(place).filter(|path| !path.is_empty())?;
    let choice = Choice {
        routing: &routing,
        problem,
        network: &network,
        place,
        others: others(problem, &loads, &paths, place),
        loads,
    };
    let is_pinned = |pin: &Pin| matches!(pin, Pin::Cable { cable: on, .. } if *on == cable);
    let pinned = match plan.pins.iter().any(is_pinned) {
        true => "A pin leads it here. ",
        false => "",
    };
    Some(format!("{pinned}{}", choice.told(own)))
}

/// The load of all other cables through each crossing.
fn others(problem: &Problem, loads: &Loads, paths: &[Vec<u32>], place: usize) -> Vec<u64> {
    let mut through = vec![0; problem.crossings.len()];
    for (cable, path) in paths
        .iter()
        .enumerate()
        .filter(|(cable, _)| *cable != place)
    {
        let met = path
            .iter()
            .filter_map(|edge| problem.edges[*edge as usize].crossing);
        for crossing in met.collect::<BTreeSet<u32>>() {
            through[crossing as usize] += loads.unit(problem.cables[cable].area);
        }
    }
    through
}

/// One cable's choice, all others staying where they are.
struct Choice<'r> {
    routing: &'r Routing<'r>,
    problem: &'r Problem,
    network: &'r Network,
    place: usize,
    loads: Loads,
    others: Vec<u64>,
}

impl Choice<'_> {
    fn told(&self, own: &[u32]) -> String {
        let length = |path: &[u32]| path.iter().map(|edge| self.length(*edge)).sum::<u64>();
        let shortest = self.cheapest(|edge| Some(self.length(edge)));
        let shorter = shortest.filter(|path| length(path) * (100 + DETOUR) < length(own) * 100);
        if let Some(path) = shorter {
            let by = Mm::rounded((length(own) - length(&path)) as f64);
            return format!(
                "It is {} longer than the shortest way, {}, which costs {}.",
                self.routing.plan.units.path(by),
                self.by(&path, own),
                self.more(&path, own)
            );
        }
        match self.other(own) {
            Some(path) => format!(
                "The other way, {}, costs {}.",
                self.by(&path, own),
                self.more(&path, own)
            ),
            None => String::from("There is no other way."),
        }
    }

    /// The cheapest way that leaves out a hole of the own one and runs along something else; where
    /// none does, the cheapest that leaves one out.
    fn other(&self, own: &[u32]) -> Option<Vec<u32>> {
        let known = self.run_along(own);
        let others = self.parts(own).into_iter().filter_map(|part| {
            let path = self.cheapest(|edge| (self.part(edge) != part).then(|| self.price(edge)))?;
            let is_new = !self.run_along(&path).is_subset(&known);
            Some((!is_new, self.cost(&path), path))
        });
        let least = others.min_by_key(|(is_old, cost, _)| (*is_old, *cost));
        least.map(|(.., path)| path)
    }

    /// What a way can be made to leave out: its holes, or the middle of one without any.
    fn parts(&self, own: &[u32]) -> BTreeSet<Part> {
        let parts = own.iter().map(|edge| self.part(*edge));
        let holes: BTreeSet<Part> = parts.filter(|part| matches!(part, Part::Hole(_))).collect();
        match holes.is_empty() {
            true => own
                .get(own.len() / 2)
                .map(|edge| self.part(*edge))
                .into_iter()
                .collect(),
            false => holes,
        }
    }

    fn part(&self, edge: u32) -> Part {
        let hole = self.routing.graph.steps[edge as usize].hole;
        let drilled = |hole: &usize| self.routing.graph.shared[*hole].crossing.is_some();
        hole.filter(drilled).map_or(Part::Edge(edge), Part::Hole)
    }

    fn cheapest(&self, price: impl Fn(u32) -> Option<u64>) -> Option<Vec<u32>> {
        let source = self.problem.cables[self.place].source;
        cheapest(self.network, source, price)
    }

    fn length(&self, edge: u32) -> u64 {
        u64::from(self.problem.edges[edge as usize].length_mm)
    }

    /// What an edge costs this cable, holes that others pay for left out.
    fn price(&self, edge: u32) -> u64 {
        let edge = self.problem.edges[edge as usize];
        u64::from(edge.cost) + edge.crossing.map_or(0, |crossing| self.holes(crossing))
    }

    /// What this cable adds to a crossing.
    fn holes(&self, crossing: u32) -> u64 {
        let others = self.others[crossing as usize];
        let both = others + self.loads.unit(self.problem.cables[self.place].area);
        let price = |load| {
            self.loads
                .price(&self.problem.crossings[crossing as usize], load)
        };
        price(both).saturating_sub(price(others))
    }

    /// What a way costs this cable; a hole it passes twice is drilled once.
    fn cost(&self, path: &[u32]) -> u64 {
        let edges = || path.iter().map(|edge| self.problem.edges[*edge as usize]);
        let crossings: BTreeSet<u32> = edges().filter_map(|edge| edge.crossing).collect();
        let laid: u64 = edges().map(|edge| u64::from(edge.cost)).sum();
        laid + crossings
            .into_iter()
            .map(|crossing| self.holes(crossing))
            .sum::<u64>()
    }

    /// "3 minutes more": how much more than the own way another costs.
    fn more(&self, other: &[u32], own: &[u32]) -> String {
        let more = self.cost(other).saturating_sub(self.cost(own));
        match (more + UNIT / 2) / UNIT {
            _ if more == 0 => String::from("no more"),
            0 => String::from("less than a minute more"),
            1 => String::from("1 minute more"),
            minutes => format!("{minutes} minutes more"),
        }
    }

    fn along(&self, edge: u32) -> Vec<Along> {
        match self.routing.graph.steps[edge as usize].kind {
            MoveKind::AlongWall { wall } => vec![Along::Wall(wall)],
            MoveKind::IntoWall { from, to } => vec![Along::Wall(from), Along::Wall(to)],
            MoveKind::AlongStrip { space } | MoveKind::AcrossStrips { space } => {
                vec![Along::Space(space)]
            }
            _ => Vec::new(),
        }
    }

    fn run_along(&self, path: &[u32]) -> BTreeSet<Along> {
        path.iter().flat_map(|edge| self.along(*edge)).collect()
    }

    /// "by W8 and the attic": where a way runs along that the own one does not, the longest first.
    fn by(&self, other: &[u32], own: &[u32]) -> String {
        let known = self.run_along(own);
        let mut far: BTreeMap<Along, u64> = BTreeMap::new();
        for edge in other {
            for along in self.along(*edge) {
                *far.entry(along).or_default() += self.length(*edge);
            }
        }
        let is_new = far.keys().any(|along| !known.contains(along));
        let told = far
            .into_iter()
            .filter(|(along, _)| !is_new || !known.contains(along));
        let mut told: Vec<(Along, u64)> = told.collect();
        told.sort_by(|a, b| b.1.cmp(&a.1).then(a.0.cmp(&b.0)));
        let names: Vec<String> = told.iter().map(|(along, _)| self.name(*along)).collect();
        match names.as_slice() {
            [] => String::from("straight"),
            [one] => format!("by {one}"),
            [one, other] => format!("by {one} and {other}"),
            [one, other, third] => format!("by {one}, {other} and {third}"),
            [one, other, ..] => format!("by {one}, {other} and more"),
        }
    }

    fn name(&self, along: Along) -> String {
        match along {
            Along::Wall(wall) => format!("W{}", wall.0),
            Along::Space(space) => match self.routing.framing.spaces.get(space) {
                Some(space) => format!("the {}", space.kind.name()),
                None => String::from("the open"),
            },
        }
    }
}
