//! A plan of the past: as it lay on the table, or as a device keeps it, unread until it is asked for.

use std::borrow::Cow;
use std::rc::Rc;

use super::Drawings;
use crate::plan::Plan;

/// A plan at one moment of a job.
#[derive(Clone, Debug)]
pub enum Moment {
    /// As it lay on the table.
    Here(Rc<Plan>),
    /// Its text, and the drawings it may name.
    Kept(Rc<Vec<u8>>, Rc<Drawings>),
}

impl Moment {
    /// The plan; `None` where its text cannot be read.
    pub fn plan(&self) -> Option<Rc<Plan>> {
        match self {
            Self::Here(plan) => Some(Rc::clone(plan)),
            Self::Kept(text, drawings) => drawings
                .joined(text)
                .ok()
                .map(|opened| Rc::new(opened.plan)),
        }
    }

    /// The text of the plan.
    pub(super) fn text(&self, drawings: &mut Drawings) -> Cow<'_, [u8]> {
        match self {
            Self::Here(plan) => Cow::Owned(drawings.text_of(plan)),
            Self::Kept(text, _) => Cow::Borrowed(text),
        }
    }
}
