//! From a drawing to a drill list.

pub mod route;
pub mod shape;
pub mod units;
