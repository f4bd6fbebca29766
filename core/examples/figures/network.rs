//! Routing: gaps to proven optima, certified bounds, and times beside a reference library's sweeps.

#[path = "../network_instances/cable.rs"]
mod cable;
#[path = "../network_instances/house.rs"]
mod house;
#[path = "../network_instances/random.rs"]
mod random;

use std::hint::black_box;
use std::path::Path;

use borewright_core::route::Improvement;
use borewright_core::route::network::{
    Bounder, Effort, Improver, Instance, Network, Problem, solve,
};
use house::House;
use petgraph::graph::{NodeIndex, UnGraph};

use crate::figure::{self, Instant};

/// What a bore of 1-3/8 in holds at 40 % fill, in hundredths of a square millimetre.
const CAPACITY: u32 = 38_319;

/// Prints the section.
pub fn print() {
    print_gaps();
    let houses: Vec<Problem> = (0..5).map(|seed| invented(seed, 1).problem()).collect();
    let networks: Vec<Network> = houses.iter().filter_map(|p| Network::new(p).ok()).collect();
    print_long_runs(&networks);
    print_bounds(&networks);
    print_times(&houses, &networks);
    print_growth(&networks);
}

/// Prints what is promised of invented houses in a browser.
#[cfg(target_family = "wasm")]
pub fn print_in_a_browser() {
    for seed in 0..5 {
        let network = Network::new(&invented(seed, 1).problem()).unwrap();
        print_gap_after_50_ms(&format!("invented house {}", seed + 1), &network);
    }
}

/// How much dearer the ways are that are found in 50 ms than those of a long run.
#[cfg(target_family = "wasm")]
pub(crate) fn print_gap_after_50_ms(name: &str, network: &Network) {
    let start = Instant::now();
    let mut improver = Improver::new(network, true);
    let first = start.elapsed().as_secs_f64() * 1e3;
    while start.elapsed().as_millis() < 50 {
        improver.step();
    }
    let (cost, steps) = (improver.cost(), improver.steps());
    let best = solve(network, Effort::LONG).cost;
    let how = format!(
        "Chromium; first ways in {first:.1} ms, then {steps} restarts, over the best of {}",
        Effort::LONG.restarts
    );
    let name = format!("routing gap to a long run of {name}, 50 ms");
    figure::print(&name, over(cost, best), "%", "1", &how);
}

/// Two levels of 14 m by 10 m with 40 cables, or a house of so many times the floor and cables.
fn invented(seed: u64, times: u32) -> House {
    let (width, depth) = if times == 1 { (35, 25) } else { (111, 79) };
    House {
        seed,
        width,
        depth,
        storeys: 2,
        room: 9,
        bay_mm: 406,
        cables: 40 * times,
        capacity: CAPACITY,
    }
}

fn print_gaps() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/outside/networks");
    let optima = std::fs::read_to_string(folder.join("optima.txt")).unwrap();
    let gap = |line: &str| {
        let (name, optimum) = line.split_once(' ').unwrap();
        let text = std::fs::read_to_string(folder.join(format!("{name}.json"))).unwrap();
        let network = Network::new(&Instance::read(&text).unwrap().problem).unwrap();
        let start = Instant::now();
        let cost = solve(&network, Effort::CAREFUL).cost;
        (
            start.elapsed().as_secs_f64() * 1e3,
            over(cost, optimum.parse().unwrap()),
        )
    };
    let (times, gaps): (Vec<f64>, Vec<f64>) = optima.lines().skip(1).map(gap).unzip();
    let how = format!(
        "{} instances of up to 503 nodes, {} restarts, optima proven by HiGHS",
        gaps.len(),
        Effort::CAREFUL.restarts
    );
    figure::print(
        "routing gap to the optimum, mean",
        mean(&gaps),
        "%",
        "0.05",
        &how,
    );
    figure::print(
        "routing gap to the optimum, worst",
        most(&gaps),
        "%",
        "0.5",
        &how,
    );
    figure::print(
        "routing time of one of these",
        mean(&times),
        "ms",
        "about 5",
        &how,
    );
}

fn print_long_runs(networks: &[Network]) {
    let best: Vec<u64> = networks
        .iter()
        .map(|network| solve(network, Effort::LONG).cost)
        .collect();
    let how = format!(
        "5 invented houses of 40 cables, to the best of {} restarts",
        Effort::LONG.restarts
    );
    for (name, restarts, goal) in [
        ("live", Effort::LIVE.restarts, "-"),
        ("60 restarts", 60, "1"),
    ] {
        let effort = Effort {
            polish: true,
            restarts,
        };
        let gap = |(network, best): (&Network, &u64)| over(solve(network, effort).cost, *best);
        let gaps: Vec<f64> = networks.iter().zip(&best).map(gap).collect();
        figure::print(
            &format!("routing gap to a long run, {name}"),
            most(&gaps),
            "%",
            goal,
            &how,
        );
    }
}

/// With a short budget, and with the one that the page's worker has.
fn print_bounds(networks: &[Network]) {
    let short = Effort {
        polish: true,
        restarts: 300,
    };
    let how = "5 invented houses of 40 cables, bores for 12";
    let short: Vec<f64> = networks.iter().map(|n| under(n, short, 300)).collect();
    let asked = [
        ("", ", 300 restarts and rounds", short),
        (
            " of the worker",
            "",
            networks.iter().map(worker_under).collect(),
        ),
    ];
    for (name, budget, gaps) in asked {
        let how = format!("{how}{budget}");
        for (which, gap) in [("mean", mean(&gaps)), ("worst", most(&gaps))] {
            let name = format!("routing bound{name} under the cost, {which}");
            figure::print(&name, gap, "%", "3", &how);
        }
    }
}

/// How far the bound of the page's worker is under the cost, per cent.
fn worker_under(network: &Network) -> f64 {
    let answer = Improvement::new(network).finished();
    (1.0 - answer.bound.unwrap_or(0) as f64 / answer.cost as f64) * 100.0
}

/// How far the bound of so many rounds is under the cost, per cent.
fn under(network: &Network, effort: Effort, rounds: u32) -> f64 {
    let answer = solve(network, effort);
    let mut bounder = Bounder::new(network, &answer);
    while bounder.steps() < rounds {
        bounder.step();
    }
    (1.0 - bounder.bound() as f64 / answer.cost as f64) * 100.0
}

fn print_times(houses: &[Problem], networks: &[Network]) {
    let graphs: Vec<_> = houses.iter().map(reference).collect();
    let sweeps = time(|| {
        graphs
            .iter()
            .zip(houses)
            .for_each(|(graph, house)| sweep(graph, house))
    });
    let how = "5 invented houses of 40 cables, median of 5; one is a sweep of petgraph's Dijkstra \
               for each cable on the same graphs, in the same run";
    let ratio = |name: &str, goal: &str, work: &mut dyn FnMut(&Network)| {
        let ours = time(|| networks.iter().for_each(&mut *work));
        figure::print(
            &format!("routing, {name}"),
            ours / sweeps,
            "times",
            goal,
            how,
        );
    };
    ratio("first paths", "-", &mut |network| {
        drop(black_box(solve(network, Effort::REPAIR)))
    });
    ratio("live", "5", &mut |network| {
        drop(black_box(solve(network, Effort::LIVE)))
    });
    let live = time(|| drop(black_box(solve(&networks[0], Effort::LIVE))));
    figure::print(
        "routing time, live",
        live * 1e3,
        "ms",
        "15",
        "one of these houses, native",
    );
}

fn print_growth(networks: &[Network]) {
    let large = Network::new(&invented(0, 10).problem()).unwrap();
    // The first paths are a part of the live answer; alone they promise nothing.
    let asked = [
        ("first paths", Effort::REPAIR, "-"),
        ("live", Effort::LIVE, "1.3"),
    ];
    for (name, effort, goal) in asked {
        let once = |network: &Network| drop(black_box(solve(network, effort)));
        // By turns, since what else the machine does comes and goes.
        let ratio = |_| {
            let small = timed(&mut || (0..10).for_each(|_| once(&networks[0]))) / 10.0;
            timed(&mut || once(&large)) / small
        };
        let mut ratios: Vec<f64> = (0..15).map(ratio).collect();
        ratios.sort_by(f64::total_cmp);
        figure::print(
            &format!("routing growth exponent, {name}"),
            ratios[7].log10(),
            "",
            goal,
            "400 cables on 10 times the floor over 40 cables, by turns; median of 15 ratios",
        );
    }
    let settling = |network| timed(&mut || drop(black_box(Improvement::new(network).finished())));
    figure::print(
        "routing growth exponent, settled",
        (settling(&large) / settling(&networks[0])).log10(),
        "",
        "1.6",
        "search and bound of 400 cables on 10 times the floor over 40 cables",
    );
    let mut improver = Improver::new(&large, true);
    let start = Instant::now();
    for _ in 0..10 {
        black_box(improver.step());
    }
    let step = start.elapsed().as_secs_f64() * 1e2;
    let how = "mean of the first 10 steps after the live answer, 400 cables";
    figure::print("routing time of a worker's step", step, "ms", "-", how);
}

pub(crate) fn reference(problem: &Problem) -> UnGraph<(), u64> {
    let mut graph = UnGraph::new_undirected();
    let nodes: Vec<NodeIndex> = (0..problem.nodes).map(|_| graph.add_node(())).collect();
    for edge in &problem.edges {
        let price = edge
            .crossing
            .map_or(0, |j| problem.crossings[j as usize].price);
        let cost = u64::from(edge.cost) + u64::from(price);
        graph.add_edge(nodes[edge.u as usize], nodes[edge.v as usize], cost);
    }
    graph
}

pub(crate) fn sweep(graph: &UnGraph<(), u64>, problem: &Problem) {
    for cable in &problem.cables {
        let source = NodeIndex::new(cable.source as usize);
        black_box(petgraph::algo::dijkstra(graph, source, None, |edge| {
            *edge.weight()
        }));
    }
}

/// Median seconds of five runs.
pub(crate) fn time(mut work: impl FnMut()) -> f64 {
    let mut times: Vec<f64> = (0..5).map(|_| timed(&mut work)).collect();
    times.sort_by(f64::total_cmp);
    times[2]
}

/// Seconds of one run.
fn timed(work: &mut impl FnMut()) -> f64 {
    let start = Instant::now();
    work();
    start.elapsed().as_secs_f64()
}

pub(crate) fn over(cost: u64, best: u64) -> f64 {
    (cost as f64 / best as f64 - 1.0) * 100.0
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

fn most(values: &[f64]) -> f64 {
    values.iter().copied().fold(f64::NEG_INFINITY, f64::max)
}
