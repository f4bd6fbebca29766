//! Tables that follow from ways and bores: the tally and the cut list.

mod cut_list;
mod totals;

pub use cut_list::{Cut, CutList, Reel};
pub use totals::{CableTotal, Totals};
