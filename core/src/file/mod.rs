//! The saved form of a plan: the only room that knows it.
//!
//! A saved plan is one JSON document in UTF-8, plain enough to read: one wall, one drop, one room
//! a line, and the drawings as base64 at its end. `static/borewright-plan.schema.json` describes
//! it. The live plan carries no trace of it: `v1` has types of its own. [`read`] is total: any
//! bytes give a plan, with what was lost said in sentences, or one sentence why there is none.
//! [`link`]
//! is the other saved form, small enough for an address, and [`page`] a file with the program in it; [`job`] is what a device keeps.
//! Nothing here draws or computes.
//!
//! Older versions are read for ever and brought up step by step in `upgrade`; what a version means
//! never changes once it is published, and a new meaning takes a new version.

mod apart;
mod fields;
pub mod job;
mod lines;
pub mod link;
mod losses;
mod mend;
pub mod page;
mod salvage;
mod upgrade;
mod v1;

use std::fmt;

pub use apart::{apart, joined};

use crate::plan::Plan;

/// The largest file that is read: 64 MB.
pub const LARGEST: usize = 64 << 20;

/// A plan as it was read.
#[derive(Clone, Debug, PartialEq)]
pub struct Opened {
    /// The plan, whole in itself: everything it names exists.
    pub plan: Plan,
    /// What could not be kept, one sentence each; empty for a sound file.
    pub losses: Vec<String>,
}

/// Why a file gives no plan. `Display` is one sentence for the person.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FileError {
    /// Nothing in it.
    Empty,
    /// Larger than [`LARGEST`].
    TooLarge,
    /// Made by another program.
    NotAPlan,
    /// Made by a newer version of this one.
    TooNew,
    /// Ours, but past reading.
    Damaged,
}

impl fmt::Display for FileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Empty => "This file is empty. Open another copy of it.",
            Self::TooLarge => {
                "This file is over 64 MB, more than a plan can be. Open another file."
            }
            Self::NotAPlan => {
                "This is not a Borewright plan. Open a file that was saved from this page."
            }
            Self::TooNew => {
                "This plan was made by a newer Borewright. Update this page, or ask for an older file."
            }
            Self::Damaged => "This plan is too damaged to read. Open another copy of it.",
        })
    }
}

impl std::error::Error for FileError {}

/// Reads a saved plan of any version so far.
///
/// # Errors
/// [`FileError`] where the bytes hold no plan that can be read. A damaged plan is no error: what
/// can be read is kept and the rest is named in [`Opened::losses`].
pub fn read(bytes: &[u8]) -> Result<Opened, FileError> {
    upgrade::open(bytes)
}

/// The plan in the newest saved form, drawings included. The same plan gives the same bytes.
pub fn write(plan: &Plan) -> Vec<u8> {
    let compact = v1::write(plan);
    lines::broken(&compact).into_bytes()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::sample;
    use proptest::prelude::*;

    fn check(plan: &Plan) {
        let bytes = write(plan);
        let opened = read(&bytes).unwrap();
        assert_eq!(opened.losses, Vec::<String>::new());
        assert_eq!(opened.plan, *plan);
        assert_eq!(write(&opened.plan), bytes);
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(200))]

        #[test]
        fn every_plan_comes_back_whole(seed: u64, edits in 0_usize..300) {
            check(&sample::plan(seed, edits));
        }

        #[test]
        fn any_bytes_give_a_plan_or_a_sentence(bytes: Vec<u8>) {
            if let Err(error) = read(&bytes) {
                prop_assert!(error.to_string().ends_with('.'));
            }
        }

        #[test]
        fn a_cut_plan_keeps_its_head(seed: u64, share in 0.05_f64..1.0) {
            let bytes = write(&sample::plan(seed, 120));
            let kept = (bytes.len() as f64 * share) as usize;
            let opened = read(&bytes[..kept.min(bytes.len() - 3)]).unwrap();
            prop_assert!(opened.losses.iter().any(|loss| loss.contains("breaks off")));
            // Mended once, whole from then on.
            check(&opened.plan);
        }

        #[test]
        fn a_scratched_plan_still_opens(
            seed: u64,
            scratches in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..8),
        ) {
            let mut bytes = write(&sample::plan(seed, 120));
            for (place, byte) in scratches {
                let place = place.index(bytes.len());
                bytes[place] = byte;
            }
            if let Ok(opened) = read(&bytes) {
                check(&opened.plan);
            }
        }
    }
}
