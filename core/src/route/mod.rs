//! The way each cable takes.
//!
//! [`network`] is the problem without a house: cables that run to one sink over a plain graph and
//! pay once for a hole that they share. Around it, the house: its graph, and the way of every
//! cable told back in the house's terms.

pub mod network;
mod way;

pub use way::{Crossing, Member, Move, MoveKind, NoWay, Place3, Way, Ways};

use crate::framing::Framing;
use crate::plan::Plan;

/// The way of every cable.
pub fn ways(plan: &Plan, framing: &Framing) -> Ways {
    let _ = (plan, framing);
    Ways::default()
}
