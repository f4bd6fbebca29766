//! Tables that follow from ways and bores, one a file: the tally, the cut list, the rooms, the
//! closet's ports, the labels, how two versions differ, and how the record of the site stands.

mod change_order;
mod course;
mod cut_list;
mod hours;
mod labels;
mod ports;
mod price;
mod pulls;
mod record;
pub mod reels;
mod rooms;
mod totals;

pub use change_order::{ChangeOrder, CountChange, DropChange};
pub use course::{BoxCourse, Chains, Course, Parted};
pub use cut_list::{Cut, CutList, KindOfReels, Reel, SplitTrunk};
pub use hours::Hours;
pub use labels::{LABELS_PER_END, Label, LabelPlace, labels};
pub use ports::{Port, ports};
pub use price::Price;
pub use pulls::{Pull, PullTally};
pub use record::{Counts, Phase, Progress, TestLine, Tick, counts, test_line, test_lines};
pub use rooms::{
    BoxCorner, Instruction, RoomRow, corners_of, hangs_elsewhere, room_list, room_row,
};
pub use totals::{CableTotal, Totals, blocking};
