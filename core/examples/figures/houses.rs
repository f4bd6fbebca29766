//! The three houses, the demo and a house of 60 drops: certified bounds, gaps to long runs, and a full
//! plan and a drag's frame beside a reference library's sweeps over the same graph.

use std::hint::black_box;

use borewright_core::design::Design;
use borewright_core::framing::Framing;
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{Place, Plan};
use borewright_core::route::network::{Answer, Effort, Network, Problem, solve};
use borewright_core::route::{Improvement, Routing};
use borewright_core::shape::Point;
use borewright_core::units::Mm;

use crate::claims::Claims;
use crate::figure::{self, Instant};
#[cfg(target_family = "wasm")]
use crate::network::print_gap_after_50_ms;
use crate::network::{over, reference, sweep, time};
use crate::saved::{plans, sixty_drops};

/// Whole plans of every house made in a browser before anything is timed there.
#[cfg(target_family = "wasm")]
const WARMING: u32 = 3;

/// Prints the section; the claims are those of the page's worker.
pub fn print() -> Claims {
    let mut claims = Claims::default();
    for (name, plan) in houses() {
        let problem = problem(&plan);
        let answer = print_gaps(name, &plan, &problem);
        claims.hold_answer(name, &plan, &answer);
        print_times(name, &plan, &problem, "native");
    }
    claims
}

/// Prints what is promised of houses in a browser.
#[cfg(target_family = "wasm")]
pub fn print_in_a_browser() {
    // A browser makes a program fast only once it has run for a while.
    (0..WARMING).for_each(|_| {
        houses().for_each(|(_, plan)| drop(black_box(Design::of(&plan))));
    });
    for (name, plan) in houses() {
        let problem = problem(&plan);
        print_times(name, &plan, &problem, "in Chromium");
        let network = Network::new(&problem).unwrap();
        print_gap_after_50_ms(name, &network);
        print_settling(name, &network, settled(&network).1, "in Chromium");
    }
}

fn houses() -> impl Iterator<Item = (&'static str, Plan)> {
    plans().into_iter().chain([("60 drops", sixty_drops())])
}

fn problem(plan: &Plan) -> Problem {
    let framing = Framing::of(plan);
    Routing::of(plan, &framing).problem().unwrap().clone()
}

fn print_gaps(name: &str, plan: &Plan, problem: &Problem) -> Answer {
    let network = Network::new(problem).unwrap();
    let (best, seconds) = settled(&network);
    let how = "as the page's worker proves it";
    let under = (1.0 - best.bound.unwrap_or(0) as f64 / best.cost as f64) * 100.0;
    figure::print(&format!("routing bound of {name}"), under, "%", "3", how);
    print_settling(name, &network, seconds, "native");
    print_price(name, plan, &best);
    for (budget, restarts) in [("live", Effort::LIVE.restarts), ("20 restarts", 20)] {
        let effort = Effort {
            polish: true,
            restarts,
        };
        let seconds = time(|| drop(black_box(solve(&network, effort))));
        let gap = over(solve(&network, effort).cost, best.cost);
        let how = format!(
            "over the best of {} restarts; {:.1} ms native",
            Effort::LONG.restarts,
            seconds * 1e3
        );
        let figure = format!("routing gap to a long run of {name}, {budget}");
        figure::print(&figure, gap, "%", "1", &how);
    }
    best
}

/// How far the cost of ways, live and as the search settles them, is from what their finished bores take.
fn print_price(name: &str, plan: &Plan, settled: &Answer) {
    let settled = Design::taking(plan, Some(settled)).unwrap();
    let differences = [Design::of(plan), settled].map(|design| design.totals.price.difference);
    let worst = differences.into_iter().map(i64::abs).max().unwrap_or(0);
    let figure = format!("re-price difference of {name}");
    let how = "live and settled, the worse";
    figure::print(&figure, worst as f64 / 1000.0, "min", "0", how);
}

/// The answer of the page's worker, and in how many seconds.
fn settled(network: &Network) -> (Answer, f64) {
    let start = Instant::now();
    let answer = Improvement::new(network).finished();
    (answer, start.elapsed().as_secs_f64())
}

fn print_settling(name: &str, network: &Network, seconds: f64, place: &str) {
    let how = format!("search and bound of {} cables, one core", network.cables());
    let figure = format!("time to settle {name}, {place}");
    figure::print(&figure, seconds, "s", "10", &how);
}

fn print_times(name: &str, plan: &Plan, problem: &Problem, place: &str) {
    let graph = reference(problem);
    let sweeps = time(|| sweep(&graph, problem));
    let full = time(|| drop(black_box(Design::of(plan))));
    let how = format!(
        "one is a sweep of petgraph's Dijkstra for each of {} cables on the same graph, in the same \
         run, median of 5",
        problem.cables.len()
    );
    let print = |what: &str, seconds: f64, goal: &str| {
        let how = format!("{how}; {:.1} ms", seconds * 1e3);
        figure::print(
            &format!("{what} of {name}, {place}"),
            seconds / sweeps,
            "times",
            goal,
            &how,
        );
    };
    print("full plan", full, "5");
    let before = Design::of(plan);
    if let Some(moved) = with_a_drop_moved(plan) {
        print(
            "frame of a dragged drop",
            time(|| drop(black_box(Design::again(&before, plan, &moved)))),
            "-",
        );
    }
    if let Some(moved) = with_a_corner_moved(plan) {
        print(
            "frame of a dragged wall",
            time(|| drop(black_box(Design::again(&before, plan, &moved)))),
            "-",
        );
    }
}

fn with_a_drop_moved(plan: &Plan) -> Option<Plan> {
    let moved = plan.drops.iter().filter_map(|drop| match drop.place {
        Place::Wall {
            wall,
            offset,
            side,
            height,
        } => {
            let offset = Mm(offset.0 + 500);
            let place = Place::Wall {
                wall,
                offset,
                side,
                height,
            };
            plan.apply(&Edit::MoveDrop(drop.id, place)).ok()
        }
        _ => None,
    });
    moved.into_iter().next()
}

fn with_a_corner_moved(plan: &Plan) -> Option<Plan> {
    let corners = plan
        .levels
        .iter()
        .flat_map(|level| level.walls.iter().map(move |wall| (level.id, wall.to)));
    let mut moved = corners.filter_map(|(level, from)| {
        let to = Point::new(from.x + 305, from.y);
        plan.apply(&Edit::MoveCorner { level, from, to }).ok()
    });
    moved.next()
}
