//! A finding that a person has weighed and set aside.

/// One finding set aside, with the person's reason.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Dismissal {
    /// The finding's own key: its kind and the things it names, stable from edit to edit.
    pub key: String,
    /// Why it was set aside; prints beside the finding.
    pub reason: String,
}
