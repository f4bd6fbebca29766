//! The picture under a plan: what its file is, how it lies, how well known dimensions
//! agree, and how a photo taken aslant is squared up.

mod header;
mod placing;
mod square;

pub use header::{Header, HeaderError, MOST_PIXELS, header};
pub use placing::{Residual, fit_placing, residuals};
pub use square::{Rectangle, SquareError, Squaring};
