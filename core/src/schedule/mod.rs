//! Tables that follow from ways and bores: the tally and the cut list.

mod cut_list;
pub mod reels;
mod report;
mod totals;

pub use cut_list::{Cut, CutList, Reel, slack_rule};
pub use report::report;
pub use totals::{CableTotal, Totals};
