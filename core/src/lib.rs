//! From a drawing to a drill list.

pub mod bore;
pub mod design;
pub mod desk;
pub mod file;
pub mod finding;
pub mod framing;
pub mod picture;
pub mod plan;
pub mod route;
pub mod rules;
pub mod scan;
pub mod schedule;
pub mod shape;
pub mod sheet;
pub mod units;
