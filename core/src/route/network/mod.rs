//! Cables to one sink, sharing holes: a network design problem on a plain undirected graph.
//!
//! Every cable runs from its source to the sink. An edge costs each cable its own price; a
//! *crossing* (a hole, a support) is paid by the bore, and a bore is shared by all cables that fit.
//!
//! 1. A [`Problem`] is what the caller writes down; [`Network::new`] checks it and puts it in an
//!    order of its own, so that the caller's order never decides a path.
//! 2. [`solve`] routes the cables nearest first at marginal cost and then rips up and re-routes
//!    single cables and whole bundles; [`Effort`] says how many restarts follow.
//! 3. [`Improver`] does the same in steps, for a worker that reports and can be stopped.
//! 4. [`Bounder`] raises a proven lower bound in steps.
//! 5. [`Instance`] is problem and answer as JSON, for an outside solver.
//! 6. [`Answer::check`] recomputes everything about an answer from the problem alone.
//!
//! All amounts are integers, so the answer is the same on every machine. This room knows no house,
//! wall or unit but millimetres, areas and whole thousandths of the caller's cost.
//!
//! ```
//! use borewright_core::route::network::*;
//! // Two bays with a stud between them; both cables share its one hole.
//! let problem = Problem {
//!     nodes: 3,
//!     sink: 2,
//!     edges: vec![
//!         Edge { u: 0, v: 1, cost: 400, length_mm: 406, crossing: Some(0) },
//!         Edge { u: 1, v: 2, cost: 900, length_mm: 900, crossing: None },
//!     ],
//!     crossings: vec![Crossing::poured(2_000, 10_000)],
//!     cables: vec![
//!         Cable { id: 7, source: 0, area: 3_000, max_length_mm: 90_000 },
//!         Cable { id: 8, source: 0, area: 3_000, max_length_mm: 90_000 },
//!     ],
//!     pins: vec![],
//! };
//! let network = Network::new(&problem)?;
//! let answer = solve(&network, Effort::LIVE);
//! assert_eq!(answer.cost, 2 * (400 + 900) + 2_000);
//! assert_eq!(answer.check(&problem)?, answer.cost);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod amortised;
mod answer;
mod bound;
mod cheapest;
mod effort;
mod graph;
mod group;
mod habit;
mod improve;
mod improver;
mod instance;
mod limited;
mod needs;
mod paged;
mod payer;
mod problem;
mod queue;
mod quotes;
mod random;
mod relax;
mod restart;
mod router;
mod shortest;
mod standard;
mod start;
mod state;
mod tariff;
mod tolls;
mod warm;
mod watch;

#[cfg(test)]
mod exhaustive;
#[cfg(test)]
mod laws;
#[cfg(test)]
mod oracle;
#[cfg(test)]
mod sample;

pub use answer::{Answer, Fault, Way};
pub use bound::Bounder;
pub(in crate::route) use cheapest::cheapest;
pub use effort::{Effort, solve, solve_from};
pub use graph::Network;
pub use improver::Improver;
pub use instance::{Instance, InstanceError};
pub use problem::{Bore, Cable, Crossing, Edge, Pin, Problem, ProblemError};
pub(in crate::route) use tariff::Loads;
pub(crate) use tariff::UNHELD;
pub use tariff::{Deal, deals};
