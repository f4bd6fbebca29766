//! Where a hole out to an outside face lies, and how high one may lie to come out of a bay.

use super::WallFraming;
use super::wall::BOARD;
use crate::plan::{Above, Level, OpeningId, Wall};
use crate::units::Mm;

/// Wood or air kept between the middle of a hole and what lies over and under the bay, millimetres:
/// 1 in. Common practice, no source.
const CLEAR: f64 = 25.4;
/// How far under the plates a hole is put that would else lie in them, millimetres: 3 in, which
/// leaves a hand's room to pull. Common practice, no source.
const UNDER_PLATES: f64 = 76.2;
/// Heights are whole millimetres and limits whole inches: what is this near to the top of the
/// plates is over them.
const NEAR: f64 = 1.0;

/// What a hole out to an outside face goes through besides sheathing and siding.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OutsideHole {
    /// Nothing: it comes out of a bay.
    Bay,
    /// Nothing: it comes out over the plates, from an attic.
    Soffit,
    /// The header over this opening.
    Header(OpeningId),
    /// The top plates.
    TopPlates,
    /// The bottom plates, or what is under them.
    BottomPlates,
    /// The rim of the floor above, or the roof's framing where it is closed.
    Rim,
}

impl OutsideHole {
    /// Where a hole at this offset and height above the level's floor lies, both millimetres.
    pub fn at(level: &Level, wall: &WallFraming, offset: f64, height: f64) -> Self {
        if height >= wall.height - NEAR {
            return match is_attic(level.above) {
                true => Self::Soffit,
                false => Self::Rim,
            };
        }
        let header = wall.headers.iter().find(|header| {
            header.from - CLEAR < offset
                && offset < header.to + CLEAR
                && header.bottom - CLEAR < height
                && height < header.top + CLEAR
        });
        match header {
            _ if height > wall.top - CLEAR => Self::TopPlates,
            _ if height < wall.bottom + CLEAR => Self::BottomPlates,
            Some(header) => Self::Header(header.opening),
            None => Self::Bay,
        }
    }
}

/// The height nearest to a wanted one at which a hole comes out of a bay under the top plates of a
/// wall, or over them through the soffit where there is an attic: whole millimetres above the
/// level's finished floor.
pub fn outside_height(level: &Level, wall: &Wall, wanted: Mm) -> Mm {
    let over_plates = wanted.f64() >= level.ceiling.f64() - NEAR;
    if over_plates && is_attic(level.above) {
        return wanted;
    }
    let top = level.ceiling.f64() - f64::from(wall.top_plates) * BOARD;
    match wanted.f64() > top - CLEAR {
        true => Mm::rounded(top - UNDER_PLATES),
        false => wanted,
    }
}

fn is_attic(above: Above) -> bool {
    matches!(above, Above::AtticTrusses(_) | Above::AtticJoists(_))
}
