//! Routing against proven optima, and shortest ways against a reference library.
//!
//! The instances stand in `networks/`, written by core's example `network_instances`; their optima
//! were proven by HiGHS with `solve_networks.py`, and `optima.txt` names its version. Fixed numbers
//! of restarts, so a slow machine changes nothing.

#![expect(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

use std::path::{Path, PathBuf};

use borewright_core::route::network::{Bounder, Cable, Effort, Instance, Network, Problem, solve};
use petgraph::graph::{NodeIndex, UnGraph};

struct Proven {
    name: String,
    problem: Problem,
    optimum: u64,
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("outside/networks")
}

fn proven() -> Vec<Proven> {
    let optima = std::fs::read_to_string(folder().join("optima.txt")).unwrap();
    let read = |line: &str| {
        let (name, optimum) = line.split_once(' ').unwrap();
        let text = std::fs::read_to_string(folder().join(format!("{name}.json"))).unwrap();
        Proven {
            name: name.to_owned(),
            problem: Instance::read(&text).unwrap().problem,
            optimum: optimum.parse().unwrap(),
        }
    };
    optima.lines().skip(1).map(read).collect()
}

/// Whether no crossing holds all cables in one bore.
fn is_stepped(problem: &Problem) -> bool {
    let total: u32 = problem.cables.iter().map(|cable| cable.area).sum();
    problem
        .crossings
        .iter()
        .any(|crossing| crossing.capacity < total)
}

#[test]
fn there_are_enough_instances_and_every_one_is_proven() {
    let proven = proven();
    let files = std::fs::read_dir(folder()).unwrap();
    let is_instance = |file: &PathBuf| file.extension().is_some_and(|kind| kind == "json");
    let files = files
        .map(|file| file.unwrap().path())
        .filter(is_instance)
        .count();
    assert_eq!(files, proven.len());
    assert!(files >= 30);
    assert!(
        proven
            .iter()
            .filter(|proven| is_stepped(&proven.problem))
            .count()
            >= 20
    );
    assert!(proven.iter().all(|proven| proven.problem.nodes <= 600));
    let has_kinds = |proven: &&Proven| {
        let mut crossings = proven.problem.crossings.iter();
        crossings.any(|crossing| crossing.kinds().count() > 1)
    };
    assert!(proven.iter().filter(has_kinds).count() >= 20);
}

#[test]
fn the_limit_of_length_binds_in_some() {
    let binds = |proven: &Proven| {
        let mut free = proven.problem.clone();
        free.cables
            .iter_mut()
            .for_each(|cable| cable.max_length_mm = u32::MAX);
        let answer = solve(&Network::new(&free).unwrap(), Effort::CAREFUL);
        answer.cost < proven.optimum
    };
    assert!(proven().iter().filter(|proven| binds(proven)).count() >= 16);
}

/// As ways are settled beside the page and for paper.
#[test]
fn settled_answers_are_within_a_hair_of_the_optimum() {
    let gaps: Vec<f64> = proven().iter().map(gap).collect();
    let mean = gaps.iter().sum::<f64>() / gaps.len() as f64;
    let worst = gaps.iter().copied().fold(0.0, f64::max);
    assert!(mean <= 0.000_5, "mean gap {mean:.5}");
    assert!(worst <= 0.005, "worst gap {worst:.5}");
}

/// The gap to the optimum; also that the cost recounted from the paths is what the answer says.
fn gap(proven: &Proven) -> f64 {
    let Proven {
        name,
        problem,
        optimum,
    } = proven;
    let answer = solve(&Network::new(problem).unwrap(), Effort::LONG);
    assert_eq!(answer.check(problem), Ok(answer.cost), "{name}");
    assert!(
        answer.cost >= *optimum,
        "{name}: {} is under the proven {optimum}",
        answer.cost
    );
    assert!(answer.ways.iter().all(|way| way.is_found()), "{name}");
    answer.cost as f64 / *optimum as f64 - 1.0
}

#[test]
fn the_bound_never_passes_the_optimum() {
    for Proven {
        name,
        problem,
        optimum,
    } in proven()
    {
        let network = Network::new(&problem).unwrap();
        let mut bounder = Bounder::new(&network, &solve(&network, Effort::LIVE));
        while bounder.steps() < 60 {
            bounder.step();
        }
        assert!(
            bounder.bound() <= optimum,
            "{name}: {} {optimum}",
            bounder.bound()
        );
        assert!(
            bounder.bound() * 2 > optimum,
            "{name}: {} {optimum}",
            bounder.bound()
        );
    }
}

#[test]
fn shortest_ways_agree_with_the_reference_library() {
    for Proven {
        name, mut problem, ..
    } in proven()
    {
        if is_shared(&problem) {
            // An edge by edge price is not what a shared crossing costs; compare edges alone.
            problem
                .edges
                .iter_mut()
                .for_each(|edge| edge.crossing = None);
        }
        for cable in std::mem::take(&mut problem.cables) {
            let max_length_mm = u32::MAX;
            problem.cables = vec![Cable {
                max_length_mm,
                ..cable
            }];
            let alone = solve(&Network::new(&problem).unwrap(), Effort::REPAIR).cost;
            let reference = reference_distances(&problem)[cable.source as usize];
            assert_eq!(Some(alone), reference, "{name}, cable {}", cable.id);
        }
    }
}

fn is_shared(problem: &Problem) -> bool {
    let mut used: Vec<u32> = problem
        .edges
        .iter()
        .filter_map(|edge| edge.crossing)
        .collect();
    let edges = used.len();
    used.sort_unstable();
    used.dedup();
    used.len() < edges
}

/// What one cable alone pays from every node to the sink, by petgraph.
fn reference_distances(problem: &Problem) -> Vec<Option<u64>> {
    let Cable { area, .. } = problem.cables[0];
    let mut graph = UnGraph::<(), u64>::new_undirected();
    let nodes: Vec<NodeIndex> = (0..problem.nodes).map(|_| graph.add_node(())).collect();
    for edge in &problem.edges {
        let bores = edge.crossing.map_or(0, |j| {
            let crossing = problem.crossings[j as usize];
            let bores = area.div_ceil(crossing.capacity);
            match crossing.wider {
                None => u64::from(crossing.price) * u64::from(bores),
                // A cable on its own is in one bore, of the cheapest kind that holds it.
                Some(_) => {
                    let mut kinds = crossing.kinds();
                    kinds
                        .find(|kind| area <= kind.capacity)
                        .unwrap()
                        .price
                        .into()
                }
            }
        });
        let price = u64::from(edge.cost) + bores;
        graph.add_edge(nodes[edge.u as usize], nodes[edge.v as usize], price);
    }
    let sink = nodes[problem.sink as usize];
    let distances = petgraph::algo::dijkstra(&graph, sink, None, |edge| *edge.weight());
    nodes
        .iter()
        .map(|node| distances.get(node).copied())
        .collect()
}
