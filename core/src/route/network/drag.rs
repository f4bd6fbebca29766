//! While a drop is dragged: one sweep when the pointer goes down, then each place at its path's
//! length.
//!
//! The other cables stay where they lie. Whether they should follow is asked on release.

use super::graph::{Arc, Network};
use super::router::limit;
use super::shortest::{self, Field};
use super::state::{Bundle, State};
use super::warm;

/// The best way from any node for cables that move together, while all others lie still.
#[derive(Clone, Debug)]
pub struct Drag<'n> {
    network: &'n Network,
    /// To the first pin, or to the sink.
    field: Field,
    /// From the first pin to the sink; `None` if there is no such way.
    rest: Option<Vec<u32>>,
    limit_mm: u64,
    others: State<'n>,
    bundle: Bundle,
}

/// Where dragged cables would run from one node.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Dragged {
    /// The caller's edges from the node to the sink.
    pub edges: Vec<u32>,
    /// Their length in millimetres.
    pub length_mm: u64,
    /// Whether that is within the limit of every dragged cable.
    pub within_limit: bool,
    /// What all cables would cost together, in thousandths.
    pub cost: u64,
}

impl<'n> Drag<'n> {
    /// Takes the moving cables (indices in the caller's list) out of the paths they all have (the
    /// edges of every cable, in the caller's order) and sweeps the graph once. The moving cables
    /// run as one bundle past the pins of the first of them; cables with other pins need a drag of
    /// their own.
    pub fn new(network: &'n Network, paths: &[Vec<u32>], moving: &[usize]) -> Self {
        let state = others(network, paths, moving);
        let moving = moving_cables(network, moving);
        let bundle = Bundle {
            count: moving.len() as u32,
            area: moving.iter().map(|cable| network.cables[*cable].area).sum(),
        };
        let price = |arc: &Arc| state.price(arc, bundle);
        let pins = moving
            .first()
            .map_or(&[][..], |cable| &network.pins[*cable]);
        let stops = || pins.iter().copied().chain([network.sink]);
        let target = stops().next().unwrap_or(network.sink);
        let rest = rest(network, stops(), price);
        Self {
            network,
            field: shortest::field(network, target, |_, arc| price(arc)),
            rest,
            limit_mm: moving
                .iter()
                .map(|i| limit(network, *i))
                .min()
                .unwrap_or(u64::MAX),
            others: state,
            bundle,
        }
    }

    /// Where the cables would run from this node; `None` if there is no way from it.
    pub fn from(&self, node: u32) -> Option<Dragged> {
        let mut path = self.field.path(self.network, node)?;
        path.extend_from_slice(self.rest.as_deref()?);
        let length_mm = self.network.path_length(&path);
        Some(Dragged {
            edges: path.iter().map(|arc| self.network.edge(*arc)).collect(),
            length_mm,
            within_limit: length_mm <= self.limit_mm,
            cost: self.others.cost() + self.others.path_price(&path, self.bundle),
        })
    }
}

/// The paths of the cables that do not move.
fn others<'n>(network: &'n Network, paths: &[Vec<u32>], moving: &[usize]) -> State<'n> {
    let mut state = State::new(network);
    for cable in 0..network.cables.len() {
        let place = network.place(cable);
        let path = paths
            .get(place)
            .and_then(|edges| warm::path_of(network, cable, edges));
        if let Some(path) = path.filter(|_| !moving.contains(&place)) {
            state.lay(cable, path);
        }
    }
    state
}

/// Our places of the moving cables, in the caller's order.
fn moving_cables(network: &Network, moving: &[usize]) -> Vec<usize> {
    let ours = |place: &usize| (0..network.cables.len()).find(|i| network.place(*i) == *place);
    moving.iter().filter_map(ours).collect()
}

fn rest(
    network: &Network,
    mut stops: impl Iterator<Item = u32>,
    price: impl Fn(&Arc) -> u64,
) -> Option<Vec<u32>> {
    let mut path = Vec::new();
    let mut from = stops.next()?;
    for to in stops {
        let leg = shortest::field(network, to, |_, arc| price(arc));
        path.extend(leg.path(network, from)?);
        from = to;
    }
    Some(path)
}

#[cfg(test)]
mod tests {
    use super::super::effort::{Effort, solve};
    use super::super::problem::{Pin, Problem};
    use super::super::sample::Sample;
    use super::*;

    fn problem() -> Problem {
        Sample {
            seed: 6,
            width: 8,
            height: 7,
            cables: 6,
            per_bore: 2,
        }
        .problem()
    }

    /// The edges of all cables, with those of the dragged ones put in.
    fn cost_with(problem: &Problem, paths: &[Vec<u32>], dragged: &Dragged) -> u64 {
        let mut answer = solve(&Network::new(problem).unwrap(), Effort::REPAIR);
        for (way, edges) in answer.ways.iter_mut().zip(paths) {
            let length = |edge: &u32| u64::from(problem.edges[*edge as usize].length_mm);
            let length_mm = edges.iter().map(length).sum();
            *way = super::super::answer::Way::Found {
                edges: edges.clone(),
                length_mm,
            };
        }
        answer.cost = dragged.cost;
        answer.check(problem).unwrap()
    }

    #[test]
    fn a_dragged_cable_costs_what_a_recount_says_wherever_it_is() {
        for pins in [
            vec![],
            vec![
                Pin {
                    cable: 20,
                    node: 30,
                },
                Pin { cable: 20, node: 9 },
            ],
        ] {
            let mut problem = Problem { pins, ..problem() };
            let network = Network::new(&problem).unwrap();
            let mut paths = solve(&network, Effort::LIVE).paths();
            let drag = Drag::new(&network, &paths, &[2]);
            for node in (0..problem.nodes).step_by(5) {
                let dragged = drag.from(node).unwrap();
                paths[2].clone_from(&dragged.edges);
                problem.cables[2].source = node;
                assert!(cost_with(&problem, &paths, &dragged) > 0 && dragged.within_limit);
            }
        }
    }

    #[test]
    fn cables_of_one_drop_move_as_a_bundle() {
        let mut problem = problem();
        let network = Network::new(&problem).unwrap();
        let mut paths = solve(&network, Effort::LIVE).paths();
        let dragged = Drag::new(&network, &paths, &[1, 4]).from(50).unwrap();
        for moved in [1, 4] {
            paths[moved].clone_from(&dragged.edges);
            problem.cables[moved].source = 50;
        }
        assert_eq!(cost_with(&problem, &paths, &dragged), dragged.cost);
    }

    #[test]
    fn too_long_is_told_and_no_way_is_none() {
        let mut problem = problem();
        problem.nodes += 1;
        problem.cables[0].max_length_mm = 600;
        let network = Network::new(&problem).unwrap();
        let drag = Drag::new(&network, &[], &[0]);
        assert!(!drag.from(55).unwrap().within_limit);
        assert!(drag.from(0).unwrap().within_limit);
        assert_eq!(drag.from(56), None);
        assert_eq!(drag.from(99), None);
    }
}
