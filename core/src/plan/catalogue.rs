//! What this crew uses: cables with their sizes, and the bits in the van.

use serde::{Deserialize, Serialize};

use crate::rules::trade::{CAT_6, CAT_6_OUTDOOR, CAT_6A, REEL_FEET, RG_6};
use crate::units::{Mm, Size};

/// Which cable of the catalogue.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct CableKindId(pub u16);

impl CableKindId {
    /// Cat 6 in the standard catalogue.
    pub const CAT6: Self = Self(0);
    /// Cat 6A in the standard catalogue.
    pub const CAT6A: Self = Self(1);
    /// RG-6 coax in the standard catalogue.
    pub const COAX: Self = Self(2);
    /// Outdoor Cat 6 in the standard catalogue.
    pub const CAT6_OUTDOOR: Self = Self(3);
}

/// One kind of cable.
#[derive(Clone, Debug, PartialEq)]
pub struct CableSpec {
    /// What it is called.
    pub name: String,
    /// The letter its line is told by.
    pub letter: char,
    /// Diameter over the jacket.
    pub diameter: Size,
    /// Rated for outdoors.
    pub outdoor: bool,
    /// Balanced twisted pair. Only its permanent link is limited in length (ANSI/TIA-568.0-D and
    /// ANSI/TIA-568.2-D); the sources at hand give coax none.
    pub twisted_pair: bool,
    /// Length of a full reel.
    pub reel: Mm,
    /// Part reels in the van.
    pub part_reels: Vec<Mm>,
    /// Full reels in the van, to pull from at once; 0 where reels are bought as the lengths need.
    pub on_hand: u16,
}

impl CableSpec {
    /// Whether a cable of this name is taken for balanced twisted pair where nobody said: all but
    /// "RG-6" and its like and what is called coax.
    pub fn is_usually_twisted_pair(name: &str) -> bool {
        let name = name.trim().to_ascii_lowercase();
        !(name.starts_with("rg-") || name.contains("coax"))
    }
}

/// Cables and bits this crew uses.
#[derive(Clone, Debug, PartialEq)]
pub struct Catalogue {
    /// Cable kinds; [`CableKindId`] is the place in this list. Kinds are added, never removed.
    pub cables: Vec<CableSpec>,
    /// Bits the crew owns, smallest first, at least one.
    pub bits: Vec<Size>,
}

impl Catalogue {
    /// The cable of this kind.
    pub fn cable(&self, kind: CableKindId) -> Option<&CableSpec> {
        self.cables.get(usize::from(kind.0))
    }

    /// Diameter of a cable of this kind; zero for a kind that is not in the catalogue.
    pub fn diameter(&self, kind: CableKindId) -> Size {
        self.cable(kind).map_or(Size(0.0), |cable| cable.diameter)
    }
}

impl Default for Catalogue {
    /// The usual cables in their usual sizes (`rules::trade`), full reels, and bits from 1/2 to 1-1/2 in.
    fn default() -> Self {
        let cable = |name: &str, letter, diameter, outdoor| CableSpec {
            name: name.to_string(),
            letter,
            diameter,
            outdoor,
            twisted_pair: CableSpec::is_usually_twisted_pair(name),
            reel: Mm::feet(REEL_FEET),
            part_reels: Vec::new(),
            on_hand: 0,
        };
        Self {
            cables: vec![
                cable("Cat 6", 'd', CAT_6, false),
                cable("Cat 6A", 'a', CAT_6A, false),
                cable("RG-6", 'x', RG_6, false),
                cable("Cat 6 outdoor", 'o', CAT_6_OUTDOOR, true),
            ],
            bits: [0.5, 0.625, 0.75, 0.875, 1.0, 1.125, 1.25, 1.375, 1.5]
                .map(Size::inches)
                .to_vec(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn coax_is_known_by_its_name() {
        for name in ["RG-6", "rg-59 ", "Coax quad shield", "Drop coaxial"] {
            assert!(!CableSpec::is_usually_twisted_pair(name), "{name}");
        }
        for name in ["Cat 6", "Cat 6A", "Cat 6 outdoor", "Orange"] {
            assert!(CableSpec::is_usually_twisted_pair(name), "{name}");
        }
    }
}
