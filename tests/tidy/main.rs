//! Keeps the house in order: what DEVELOPERS.md promises of the tree is checked here on the sources.
//!
//! Every check gathers all faults and prints each with its place and what to do; none stops at the
//! first. It reads source text only and never runs the product.

#![expect(
    clippy::panic,
    reason = "this is test code, also outside its test functions"
)]

mod files;
mod layers;
mod map;
mod practice;
mod pure;
mod source;
mod style;
mod words;

/// Fails with every fault on a line of its own.
fn none(faults: Vec<String>) {
    assert!(
        faults.is_empty(),
        "{} faults:\n{}",
        faults.len(),
        faults.join("\n")
    );
}
