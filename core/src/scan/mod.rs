//! The picture under a plan: what its file is, how it lies, how well known dimensions agree.

mod header;
mod placing;

pub use header::{Header, HeaderError, MOST_PIXELS, header};
pub use placing::{Residual, fit_placing, residuals};
