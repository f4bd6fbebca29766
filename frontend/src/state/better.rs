//! Whether better ways are awaited, and what is handed on once none are.

use borewright_core::design::Effort;
use borewright_core::desk::{Intent, Session};

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

    /// Whether numbers of holes hold once this is printed or shared: the plan is one's own, worked out, and
    /// no better ways are awaited.
    pub fn numbers_hold(&self) -> bool {
        let session = &self.session;
        !session.read_only && session.design.is_sought() && !self.wants_better()
    }

    /// The session as it is printed or shared.
    pub fn handed_on(&self) -> Session {
        match self.numbers_hold() {
            true => self.session.after(&Intent::KeepNumbers),
            false => self.session.clone(),
        }
    }
}
