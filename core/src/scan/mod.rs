//! The picture under a plan: how it lies and how well known dimensions agree with it.

mod placing;

pub use placing::{Residual, fit_placing, residuals};
