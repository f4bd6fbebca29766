//! The drawing: the sheet that takes the hands' gestures, and its layers from the scan up.
//!
//! Each layer is compared by the identity of what it draws, so that a drag draws the draft alone.

mod draft;
mod drops;
mod frame;
mod sheet;
mod walls;

pub use sheet::Sheet;
