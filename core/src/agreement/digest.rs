//! What is shown, run together into one digest.

use sha2::{Digest as _, Sha256};

use crate::plan::{Digest, Place, Plan, Side};

/// Figures and words being gathered.
#[derive(Default)]
pub(super) struct Figures(Sha256);

impl Figures {
    /// One more figure.
    pub fn add(&mut self, figure: impl Into<i64>) -> &mut Self {
        self.0.update(figure.into().to_le_bytes());
        self
    }

    /// A length or an offset, to the millimetre.
    pub fn length(&mut self, mm: f64) -> &mut Self {
        self.add(mm.round() as i64)
    }

    /// A text; its length keeps it apart from the next.
    pub fn text(&mut self, text: &str) -> &mut Self {
        self.add(text.len() as i64);
        self.0.update(text.as_bytes());
        self
    }

    /// A place in the house: how it is fixed, and where that is by now, should its wall have moved.
    pub fn place(&mut self, plan: &Plan, place: &Place) -> &mut Self {
        let side = |side: &Side| i64::from(*side == Side::Left);
        match place {
            Place::Wall {
                side: face, height, ..
            } => self.add(0).add(side(face)).add(height.0),
            Place::Outside {
                side: face, height, ..
            } => self.add(1).add(side(face)).add(height.0),
            Place::Ceiling { .. } => self.add(2),
            Place::Adrift { .. } => self.add(3),
        };
        match place.position(plan) {
            Some(at) => self.length(at.x).length(at.y),
            None => self.add(-1),
        }
    }

    /// The digest.
    pub fn digest(&mut self) -> Digest {
        Digest::ended(std::mem::take(&mut self.0))
    }
}
