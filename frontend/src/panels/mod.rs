//! What lies around the sheet: tally, steps, shelf, slip. They read the desk and send acts.

mod best;
mod cables;
mod corners;
mod counts;
mod drawing_shelf;
mod elevation;
mod examples;
mod fade;
mod hand_options;
mod icons;
mod jobs;
mod length_field;
mod newer;
mod paper_shelf;
mod read_field;
mod reading;
mod section;
mod shelf;
mod site;
mod skips;
mod slip;
mod steps;
mod tally;
mod unsought;
mod words;

pub use corners::{Corners, Displacing, Saying, Unkept};
pub use jobs::Jobs;
pub use newer::NewerRelease;
pub use reading::Reading;
pub use shelf::Shelf;
pub use site::{SitePage, SiteSides};
pub use skips::Skips;
pub use slip::Slip;
pub use steps::Steps;
pub use tally::Tally;
pub use unsought::{UNSOUGHT_ON_PAPER, Unsought};
