//! From a drawing to a drill list.

pub mod desk;
pub mod framing;
pub mod plan;
pub mod route;
pub mod rules;
pub mod scan;
pub mod shape;
pub mod units;
