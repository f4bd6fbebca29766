//! Writes the invented routing instances whose optima an outside solver proves.
//!
//! `cargo run --release --example network_instances -- FOLDER` writes one JSON file for each.

mod cable;
mod grid;
mod house;
mod random;
mod stepped;
mod thinned;

use std::path::Path;

use borewright_core::route::network::{
    Effort, Instance, Network, Problem, ProblemError, Way, solve,
};
use grid::Grid;
use house::House;
use stepped::Stepped;
use thinned::Thinned;

/// A bore that holds about three, four and six cables, and one that holds any number.
const CAPACITIES: [u32; 4] = [10_000, 14_000, 20_000, 1_000_000];

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = std::env::args()
        .nth(1)
        .ok_or("Name the folder to write the instances to.")?;
    for (name, problem) in instances().chain(thinned_houses()?) {
        let problem = reachable(problem)?;
        let network = Network::new(&problem)?;
        let answer = Some(solve(&network, Effort::CAREFUL));
        let text = Instance { problem, answer }.write();
        std::fs::write(Path::new(&folder).join(name + ".json"), text)?;
    }
    Ok(())
}

/// Leaves out the cables that have no way within their limit: the outside solver knows no such.
fn reachable(mut problem: Problem) -> Result<Problem, ProblemError> {
    let answer = solve(&Network::new(&problem)?, Effort::REPAIR);
    let mut ways = answer.ways.iter();
    problem
        .cables
        .retain(|_| ways.next().is_some_and(Way::is_found));
    Ok(problem)
}

fn instances() -> impl Iterator<Item = (String, Problem)> {
    let grids = [10, 11, 13, 14, 15].map(|i| (format!("grid-{}", i + 1), plain_grid(i).problem()));
    let small = (0..12).map(|i| (format!("small-{:02}", i + 1), small_grid(i).problem()));
    let shared = (0..4).map(|i| (format!("shared-{:02}", i + 1), shared_grid(i).problem()));
    let far = (0..8).map(|i| (format!("far-{:02}", i + 1), far_grid(i).problem()));
    let houses = (0..12).map(|i| (format!("house-{:02}", i + 1), small_house(i).problem()));
    let stepped = (0..20).map(|i| (format!("stepped-{:02}", i + 1), stepped(i).problem()));
    let all = grids.into_iter().chain(small).chain(shared);
    all.chain(far).chain(houses).chain(stepped)
}

/// Two levels with three lanes a wall, bores of several kinds, and limits that bind.
fn stepped(i: u64) -> Stepped {
    let house = House {
        seed: 500 + i,
        width: 4 + i as u32 % 2,
        depth: 3 + i as u32 / 2 % 2,
        storeys: 2,
        cables: 7 + i as u32 % 3,
        ..small_house(i)
    };
    Stepped {
        house,
        bare: [8_600, 6_000, 11_400][i as usize % 3],
        second: [0, 3][i as usize / 2 % 2],
        limited: 4,
    }
}

fn plain_grid(i: u64) -> Grid {
    Grid {
        seed: i,
        width: 10 + i as u32 % 3,
        height: 10 + i as u32 % 2,
        cables: 9 + i as u32 % 3,
        capacity: CAPACITIES[i as usize % 4],
        stretch: 1,
        shared: 0,
    }
}

/// So small that any bores can be proven.
fn small_grid(i: u64) -> Grid {
    Grid {
        seed: 400 + i,
        width: 7 + i as u32 % 3,
        height: 8 - i as u32 % 2,
        cables: 6 + i as u32 % 3,
        ..plain_grid(i)
    }
}

/// One hole for edges that lie side by side.
fn shared_grid(i: u64) -> Grid {
    Grid {
        seed: 100 + i,
        shared: 25,
        ..plain_grid(i)
    }
}

/// So large that the limit of length binds.
fn far_grid(i: u64) -> Grid {
    Grid {
        seed: 200 + i,
        stretch: 14,
        cables: 8,
        capacity: CAPACITIES[1 + i as usize % 3],
        ..plain_grid(i)
    }
}

fn small_house(i: u64) -> House {
    House {
        seed: 300 + i,
        width: 5 + i as u32 % 2,
        depth: 5 - i as u32 / 2 % 2 * 2,
        storeys: 1 + i as u32 / 2 % 2,
        room: 3,
        bay_mm: 800,
        cables: 10 + i as u32 % 3,
        capacity: CAPACITIES[i as usize % 4],
    }
}

/// Saved houses with a few of their cables and small bores, or bores that hold any number.
fn thinned_houses() -> Result<Vec<(String, Problem)>, Box<dyn std::error::Error>> {
    let houses = [
        ("a", 0, 4),
        ("a", 1, 4),
        ("a", 2, 5),
        ("b", 1, 9),
        ("b", 3, 8),
        ("b", 5, 9),
    ];
    let mut named = Vec::new();
    for (i, (house, first, every)) in houses.into_iter().enumerate() {
        let thinned = Thinned {
            house: if house == "a" {
                "house-a.json"
            } else {
                "house-b.json"
            },
            first,
            every,
            capacity: [10_000, 14_000, 1_000_000][i % 3],
            detour: 1,
        };
        named.push((format!("thinned-{house}-{}", i % 3 + 1), thinned.problem()?));
    }
    Ok(named)
}
