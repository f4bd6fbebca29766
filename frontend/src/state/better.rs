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

    /// The session as it is printed or shared: numbers of holes hold in it, where the plan is one's own
    /// and no better ways are awaited.
    pub fn handed_on(&self) -> Session {
        let holds = self.session.design.is_sought() && !self.wants_better();
        match self.session.read_only || !holds {
            true => self.session.clone(),
            false => self.session.after(&Intent::KeepNumbers),
        }
    }
}
