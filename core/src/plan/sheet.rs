//! The drawing under the plan: its picture, how it lies, and the dimensions known on it.

use std::sync::Arc;

use crate::units::Mm;

/// The drawing a level is traced from.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sheet {
    /// The picture, if one was opened.
    pub scan: Option<Arc<Scan>>,
    /// How the picture lies on the plan.
    pub placing: Placing,
    /// Dimensions whose true length is known.
    pub known: Vec<KnownDimension>,
}

/// A picture as it was opened: its bytes are kept untouched.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Scan {
    /// `image/png`, `image/jpeg` or `image/webp`.
    pub media_type: String,
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
    /// The file's bytes.
    pub bytes: Vec<u8>,
}

/// How picture pixels lie on the plan: turn about the picture's first corner, scale, then move.
///
/// A pixel (u, v) lies at `origin + scale * (turn * (u, v))`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placing {
    /// Where the picture's top left corner lies, millimetres.
    pub origin: (f64, f64),
    /// Millimetres of the house to a pixel.
    pub scale: f64,
    /// Cosine and sine of the turn, clockwise on the sheet.
    pub turn: (f64, f64),
    /// Whether a person has set the scale, rather than it being a first guess.
    pub scaled: bool,
}

impl Default for Placing {
    fn default() -> Self {
        Self {
            origin: (0.0, 0.0),
            scale: 10.0,
            turn: (1.0, 0.0),
            scaled: false,
        }
    }
}

/// A stretch on the picture whose true length a person typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KnownDimension {
    /// One end, in picture pixels.
    pub from: (f64, f64),
    /// Other end, in picture pixels.
    pub to: (f64, f64),
    /// True length.
    pub length: Mm,
}
