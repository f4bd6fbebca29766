//! What must hold for any problem: tests that change a problem and say how its answer changes.

use proptest::prelude::*;

use super::answer::Way;
use super::effort::{Effort, solve, solve_from};
use super::graph::Network;
use super::oracle::cheapest_tree;
use super::problem::{Edge, Pin, Problem};
use super::random::Random;
use super::sample::Sample;

const FEW: Effort = Effort {
    polish: true,
    restarts: 6,
};

fn samples() -> impl Strategy<Value = Problem> {
    (any::<u64>(), 3..8u32, 3..7u32, 1..7u32, 1..8u32).prop_map(
        |(seed, width, height, cables, per_bore)| {
            Sample {
                seed,
                width,
                height,
                cables,
                per_bore,
            }
            .problem()
        },
    )
}

fn cost(problem: &Problem, effort: Effort) -> u64 {
    let answer = solve(&Network::new(problem).unwrap(), effort);
    assert_eq!(answer.check(problem), Ok(answer.cost));
    answer.cost
}

/// What every cable would cost on its own cheapest way, holes shared where they happen to meet.
fn alone(problem: &Problem) -> u64 {
    let mut alone = problem.clone();
    let ways = problem.cables.iter().map(|cable| {
        alone.cables = vec![*cable];
        solve(&Network::new(&alone).unwrap(), Effort::REPAIR)
            .ways
            .remove(0)
    });
    let mut answer = super::answer::Answer {
        cost: 0,
        bound: None,
        ways: ways.collect(),
    };
    match answer.check(problem) {
        Err(super::answer::Fault::Cost(cost)) => cost,
        fine => {
            answer.cost = fine.unwrap();
            answer.cost
        }
    }
}

/// The same problem with cables, edges and crossings listed in another order, and where each of
/// its edges stood.
fn permuted(problem: &Problem, seed: u64) -> (Problem, Vec<u32>) {
    let mut random = Random::new(seed);
    let mut order: Vec<u32> = (0..problem.edges.len() as u32).collect();
    random.shuffle(&mut order);
    let mut crossings: Vec<u32> = (0..problem.crossings.len() as u32).collect();
    random.shuffle(&mut crossings);
    let place = |j: u32| crossings.iter().position(|old| *old == j).unwrap() as u32;
    let edge = |i: &u32| {
        let Edge {
            u,
            v,
            cost,
            length_mm,
            crossing,
        } = problem.edges[*i as usize];
        let (u, v) = if random.below(2) == 0 { (u, v) } else { (v, u) };
        Edge {
            u,
            v,
            cost,
            length_mm,
            crossing: crossing.map(place),
        }
    };
    let mut permuted = Problem {
        edges: order.iter().map(edge).collect(),
        ..problem.clone()
    };
    permuted.crossings = crossings
        .iter()
        .map(|j| problem.crossings[*j as usize])
        .collect();
    permuted.cables.reverse();
    (permuted, order)
}

fn paths_by_id(problem: &Problem, effort: Effort) -> Vec<(u64, Vec<u32>)> {
    let answer = solve(&Network::new(problem).unwrap(), effort);
    let cables = problem.cables.iter().map(|cable| cable.id);
    let mut paths: Vec<_> = cables.zip(answer.paths()).collect();
    paths.sort();
    paths
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_order_of_lists_decides_nothing(problem in samples(), seed: u64) {
        let (permuted, order) = permuted(&problem, seed);
        let there = paths_by_id(&problem, FEW);
        let back = paths_by_id(&permuted, FEW).into_iter().map(|(id, path)| {
            (id, path.iter().map(|edge| order[*edge as usize]).collect::<Vec<u32>>())
        });
        prop_assert_eq!(there, back.collect::<Vec<_>>());
    }

    #[test]
    fn shifted_ids_change_nothing(problem in samples(), shift in 1..50u32) {
        let mut shifted = problem.clone();
        shifted.nodes += shift;
        shifted.sink += shift;
        for edge in &mut shifted.edges {
            (edge.u, edge.v) = (edge.u + shift, edge.v + shift);
        }
        for cable in &mut shifted.cables {
            (cable.source, cable.id) = (cable.source + shift, cable.id + u64::from(shift));
        }
        let paths = |problem: &Problem| solve(&Network::new(problem).unwrap(), FEW).paths();
        prop_assert_eq!(paths(&problem), paths(&shifted));
    }

    #[test]
    fn it_is_never_dearer_than_every_cable_alone(problem in samples()) {
        prop_assert!(cost(&problem, Effort::LIVE) <= alone(&problem));
    }

    #[test]
    fn no_answer_is_under_the_optimum(mut problem in samples()) {
        problem.crossings.iter_mut().for_each(|crossing| crossing.capacity = 1_000_000);
        prop_assert!(cost(&problem, FEW) >= cheapest_tree(&problem).unwrap());
    }

    #[test]
    fn without_an_edge_the_optimum_is_no_lower(problem in samples(), at: prop::sample::Index) {
        let mut fewer = problem.clone();
        fewer.edges.remove(at.index(problem.edges.len()));
        let best = cheapest_tree(&problem).unwrap();
        prop_assert!(cheapest_tree(&fewer).is_none_or(|cost| cost >= best));
    }

    #[test]
    fn another_cable_makes_the_optimum_no_lower(problem in samples()) {
        let mut fewer = problem.clone();
        fewer.cables.pop();
        prop_assert!(cheapest_tree(&fewer).unwrap() <= cheapest_tree(&problem).unwrap());
    }

    #[test]
    fn all_amounts_doubled_double_the_optimum(problem in samples()) {
        let mut double = problem.clone();
        double.edges.iter_mut().for_each(|edge| edge.cost *= 2);
        double.crossings.iter_mut().for_each(|crossing| crossing.price *= 2);
        prop_assert_eq!(cheapest_tree(&double).unwrap(), 2 * cheapest_tree(&problem).unwrap());
        prop_assert_eq!(cost(&double, FEW), 2 * cost(&problem, FEW));
    }

    #[test]
    fn more_restarts_never_cost_more(problem in samples()) {
        let costs = [0, 3, 12].map(|restarts| cost(&problem, Effort { polish: true, restarts }));
        prop_assert!(costs.is_sorted_by(|a, b| a >= b), "{:?}", costs);
    }

    #[test]
    fn what_was_found_is_found_again(problem in samples()) {
        let network = Network::new(&problem).unwrap();
        let answer = solve(&network, Effort::LIVE);
        prop_assert_eq!(&solve_from(&network, &answer.paths(), Effort::REPAIR), &answer);
        prop_assert!(solve_from(&network, &answer.paths(), FEW).cost <= answer.cost);
    }

    #[test]
    fn a_pinned_cable_passes_its_pins(mut problem in samples(), at: [prop::sample::Index; 3]) {
        let node = |at: &prop::sample::Index| at.index(problem.nodes as usize) as u32;
        let pins = at.iter().map(|at| Pin { cable: 0, node: node(at) });
        problem.pins = pins.collect();
        prop_assert!(cost(&problem, FEW) >= 1);
    }

    #[test]
    fn limits_are_kept_or_the_cable_is_reported(mut problem in samples(), limit in 500..4_000u32) {
        problem.cables.iter_mut().for_each(|cable| cable.max_length_mm = limit);
        let answer = solve(&Network::new(&problem).unwrap(), FEW);
        prop_assert_eq!(answer.check(&problem), Ok(answer.cost));
        for way in &answer.ways {
            match way {
                Way::Found { length_mm, .. } => prop_assert!(*length_mm <= u64::from(limit)),
                Way::TooLong { shortest_mm } => prop_assert!(*shortest_mm > u64::from(limit)),
                Way::NoPath => prop_assert!(false, "a grid is connected"),
            }
        }
    }

    #[test]
    fn shared_crossings_are_counted_once_for_each_cable(mut problem in samples(), width in 2..5u32) {
        problem.edges.iter_mut().for_each(|edge| edge.crossing = edge.crossing.map(|j| j / width));
        prop_assert!(cost(&problem, FEW) <= alone(&problem));
    }
}

#[test]
fn a_cable_cut_off_is_reported_and_the_others_are_laid() {
    let mut problem = Sample {
        seed: 1,
        width: 4,
        height: 3,
        cables: 3,
        per_bore: 3,
    }
    .problem();
    problem.nodes += 1;
    problem.cables[1].source = problem.nodes - 1;
    let answer = solve(&Network::new(&problem).unwrap(), Effort::LIVE);
    assert_eq!(answer.ways[1], Way::NoPath);
    assert!(answer.ways[0].is_found() && answer.ways[2].is_found());
    assert_eq!(answer.check(&problem), Ok(answer.cost));
}

#[test]
fn a_cable_at_the_sink_has_an_empty_way() {
    let mut problem = Sample {
        seed: 1,
        width: 4,
        height: 3,
        cables: 1,
        per_bore: 3,
    }
    .problem();
    problem.cables[0].source = problem.sink;
    let answer = solve(&Network::new(&problem).unwrap(), Effort::LIVE);
    assert_eq!(
        answer.ways,
        [Way::Found {
            edges: vec![],
            length_mm: 0
        }]
    );
}
