//! Whether better ways are awaited.

use borewright_core::design::Effort;

use super::{Desk, Improving};

impl Desk {
    /// Whether the ways shown are those of the moment after an edit, or none as yet, and better ones are
    /// awaited.
    pub fn wants_better(&self) -> bool {
        let design = &self.session.design;
        let given_up = matches!(self.improving, Improving::Stopped | Improving::Failed(_));
        let has_ways = || design.ways.ways.iter().any(|way| !way.moves.is_empty());
        let wants = match design.effort {
            Effort::Unsought => true,
            Effort::Live => has_ways(),
            Effort::Long => false,
        };
        wants && !given_up && !self.opening
    }
}
