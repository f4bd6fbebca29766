//! One sentence beside the place it is about.

use crate::plan::edit::Refusal;
use crate::shape::Point;

/// One sentence to the person.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Notice {
    /// The sentence.
    pub text: String,
    /// The place on the shown level it is about; `None` for the job as a whole.
    pub at: Option<Point>,
    /// Whether something was refused or done.
    pub kind: NoticeKind,
}

/// What a notice reports.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoticeKind {
    /// Something was not done, and why.
    Refused,
    /// Something was done that may not be seen at once, such as an undo.
    Done,
}

impl Notice {
    /// Something was not done.
    pub fn refused(text: impl Into<String>, at: Option<Point>) -> Self {
        Self {
            text: text.into(),
            at,
            kind: NoticeKind::Refused,
        }
    }

    /// Something was done.
    pub fn done(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            at: None,
            kind: NoticeKind::Done,
        }
    }

    pub(super) fn of(refusal: Refusal, at: Option<Point>) -> Self {
        Self::refused(refusal.sentence, at)
    }
}
