//! What each step still lacks, in about three words.

use super::{Session, Step};

/// The state of one step.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lack {
    /// About three words: "no scale yet", "2 drops adrift", "all clear".
    pub words: String,
    /// Nothing is lacking.
    pub clear: bool,
}

/// What a step still lacks.
pub fn lacks(session: &Session, step: Step) -> Lack {
    let _ = session;
    match step {
        Step::Site => Lack {
            words: String::from("not built yet"),
            clear: false,
        },
        _ => Lack {
            words: String::new(),
            clear: false,
        },
    }
}
