//! Browser stories: each file is something a person does on the real page, served as a host would.
//!
//! The guide to writing one is at the top of `harness/lib.rs`.

#![expect(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

mod agreements;
mod change;
mod drawing;
mod drops;
mod framing;
mod hands;
mod harm;
mod hostile;
mod improves;
mod jobs;
mod keeping;
mod killed;
mod links;
mod opens;
mod page_file;
mod paper;
mod pins;
mod refusals;
mod rules;
mod site;
mod sketch;
mod stops;
mod walls;
