//! The clear spaces of a wall, where cable can run, and the uprights between two of them. Which there are is
//! found in `wall.rs`.

use serde::{Deserialize, Serialize};

use super::wall::{Stud, WallFraming};
use crate::rules::trade::FROM_ENDS;

/// A clear space between uprights.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Bay {
    /// Where in the wall it is.
    pub kind: BayKind,
    /// Nearer side.
    pub from: f64,
    /// Farther side.
    pub to: f64,
    /// Lower end.
    pub bottom: f64,
    /// Upper end.
    pub top: f64,
}

impl Bay {
    /// Offset of its middle.
    pub fn middle(&self) -> f64 {
        (self.from + self.to) / 2.0
    }

    /// Its side towards an offset outside it.
    pub fn face_towards(&self, offset: f64) -> f64 {
        match self.middle() > offset {
            true => self.from,
            false => self.to,
        }
    }

    /// Clear width.
    pub fn width(&self) -> f64 {
        self.to - self.from
    }

    /// The height at which uprights beside a short bay are bored: in its middle, if that leaves wood to
    /// both ends of them. `None` where it is too low.
    pub fn bored_at(&self) -> Option<f64> {
        let tall = self.top - self.bottom >= 2.0 * FROM_ENDS;
        tall.then_some((self.bottom + self.top) / 2.0)
    }

    /// Whether a height lies between its ends.
    pub fn reaches(&self, height: f64) -> bool {
        self.bottom <= height && height <= self.top
    }
}

/// Where in the wall a bay is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum BayKind {
    /// From the bottom plates to the top plates.
    Full,
    /// Under a window's sill.
    UnderSill,
    /// Over a header.
    OverHeader,
}

impl WallFraming {
    /// The uprights that a bore at a height goes through between two offsets, as indices.
    pub fn bored_between(&self, (one, other): (f64, f64), height: f64) -> Vec<usize> {
        let (low, high) = (one.min(other), one.max(other));
        let is_bored = |stud: &Stud| {
            let stands = stud.bottom <= height && height <= stud.top;
            stands && stud.from < high - 0.5 && stud.to > low + 0.5
        };
        let places = 0..self.studs.len();
        places.filter(|at| is_bored(&self.studs[*at])).collect()
    }
}
