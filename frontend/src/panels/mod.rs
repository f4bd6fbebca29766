//! What lies around the sheet: tally, steps, shelf, slip. They read the desk and send acts.

mod counts;
mod hand_options;
mod icons;
mod shelf;
mod slip;
mod steps;
mod tally;

pub use shelf::Shelf;
pub use slip::Slip;
pub use steps::Steps;
pub use tally::Tally;
