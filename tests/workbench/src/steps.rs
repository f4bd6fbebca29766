//! Says step by step what is being done, and how long each took.

use std::time::Instant;

/// The clock of one command; every line it prints carries the seconds since the start.
pub struct Steps {
    started: Instant,
}

impl Steps {
    /// Starts the clock.
    pub fn begin() -> Self {
        Self {
            started: Instant::now(),
        }
    }

    /// Prints one line with the seconds so far.
    pub fn say(&self, line: &str) {
        println!("[{:>6.1} s] {line}", self.started.elapsed().as_secs_f64());
    }
}
