//! Plane geometry that knows no plan: points, directions, stretches of line.
//!
//! What a person drew is in whole millimetres ([`Point`]); what is derived from it is [`Pos`].

pub mod packing;
mod point;
mod segment;

pub use point::{Direction, Point, Pos};
pub use segment::Segment;
