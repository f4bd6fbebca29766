//! How much of each thing a plan keeps: one table for edits, files and links.
//!
//! Far more than any house has, and few enough that whatever a hostile hand sends is computed in
//! bounded time and memory. Decides nothing else.

use super::{Done, Refusal};

/// The most of one kind of thing, and what it is called.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Cap {
    /// How many are kept.
    pub most: usize,
    /// What they are, and whose: "walls on one level".
    pub what: &'static str,
}

impl Cap {
    /// Allows one more beside so many, or refuses with the sentence.
    pub fn admits(self, count: usize) -> Done {
        match count < self.most {
            true => Ok(()),
            false => Err(Refusal::because(format!(
                "A plan keeps up to {} {}. Take one away first.",
                self.most, self.what
            ))),
        }
    }

    /// Leaves out what is beyond the most, and gives the sentence if anything was.
    pub fn cut<T>(self, things: &mut Vec<T>) -> Option<String> {
        let beyond = things.len().checked_sub(self.most).filter(|n| *n > 0)?;
        things.truncate(self.most);
        let (most, what) = (self.most, self.what);
        Some(format!(
            "{beyond} more than the {most} {what} that a plan keeps were left out."
        ))
    }
}

macro_rules! caps {
    ($($(#[$doc:meta])* $name:ident: $most:literal, $what:literal;)*) => {
        $($(#[$doc])* pub(crate) const $name: Cap = Cap { most: $most, what: $what };)*
    };
}

caps! {
    /// Levels, one over the other.
    LEVELS: 8, "levels";
    /// Walls: a large house has a hundred on a level.
    WALLS: 600, "walls on one level";
    /// Doors, windows and cased openings.
    OPENINGS: 600, "openings on one level";
    /// Named rooms.
    ROOMS: 300, "rooms on one level";
    /// Places kept clear.
    KEEP_OUTS: 200, "keep-outs on one level";
    /// Corners of one keep-out.
    CORNERS: 100, "corners of a keep-out";
    /// Power runs.
    POWER_RUNS: 100, "power runs on one level";
    /// Corners of one power run.
    BENDS: 200, "corners of a power run";
    /// Drops of the whole job.
    DROPS: 1000, "drops";
    /// Cables of one drop.
    CABLES: 26, "cables to one drop";
    /// Pins of the whole job.
    PINS: 2000, "pins";
    /// Numbers of bores on paper, over all revisions.
    PRINTED: 10000, "printed numbers of bores";
}
