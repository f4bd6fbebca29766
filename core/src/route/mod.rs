//! The way each cable takes.
//!
//! [`network`] is the problem without a house: cables that run to one sink over a plain graph and
//! pay once for a hole that they share. This room never looks at a drawing.

pub mod network;
