//! The drawing: the sheet that takes the hands' gestures, and its layers from the scan up.
//!
//! Each layer is compared by the identity of what it draws, so that a moving pointer draws the
//! draft alone.

mod beneath;
mod chosen;
mod draft;
mod frame;
mod handles;
mod ink;
mod level;
mod pins;
mod scan;
mod sheet;
mod surface;
mod view_box;

pub use handles::drop_words;
pub use sheet::Sheet;
pub use view_box::PictureBox;
