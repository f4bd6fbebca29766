//! When each part of the job is due.

/// When each part of the job is due, as the person typed it; empty where it is not settled yet.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Dates {
    /// Boring.
    pub drill: String,
    /// Pulling.
    pub pull: String,
    /// When drywall goes up: all cable has to be in, inspected and tucked away before.
    pub cover: String,
    /// Terminating and testing, after paint.
    pub trim_out: String,
}

impl Dates {
    /// Each with its name, in the order of the job.
    pub fn named(&self) -> [(&'static str, &str); 4] {
        [
            ("drill", &self.drill),
            ("pull", &self.pull),
            ("cover", &self.cover),
            ("trim-out", &self.trim_out),
        ]
    }

    /// Whether none is settled.
    pub fn is_empty(&self) -> bool {
        self.named().iter().all(|(_, date)| date.is_empty())
    }
}
