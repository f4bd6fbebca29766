//! What lies around the sheet: tally, steps, shelf, slip. They read the desk and send acts.

mod cables;
mod corners;
mod counts;
mod elevation;
mod fade;
mod hand_options;
mod icons;
mod section;
mod shelf;
mod slip;
mod steps;
mod tally;
mod words;

pub use corners::Corners;
pub use shelf::Shelf;
pub use slip::Slip;
pub use steps::Steps;
pub use tally::Tally;
