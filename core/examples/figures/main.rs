//! Prints what is promised as figures, one line each: `name | value | unit | goal | how it was
//! measured`.
//!
//! Run by `cargo figures`, in release. Every time is also printed as a ratio to a loop of known
//! work run in the same minute, because machines differ and are seldom idle. Each section has a
//! file of its own; none of them decides whether a goal is met, the reader does.

#![expect(
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "this prints figures, and may stop at the first surprise"
)]

mod by_length;
mod claims;
mod crowded;
mod edits;
mod false_claims;
mod figure;
mod houses;
mod links;
mod live;
mod network;
mod packing;
mod pages;
mod pulls;
mod reels;
mod saved;

fn main() {
    links::print_all();
    pages::print();
    network::print();
    let settled = houses::print();
    live::print();
    false_claims::print(settled);
    packing::print();
    pulls::print();
    reels::print();
}
