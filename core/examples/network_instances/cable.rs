//! Invented cables: four outside diameters such as data cables have, and their limit.

use borewright_core::route::network::Cable;

use super::random::Random;

/// Cross-sections in hundredths of a square millimetre: 5.2, 6.2, 6.9 and 7.5 mm across.
const AREAS: [u32; 4] = [2_124, 3_019, 3_739, 4_418];

/// The longest permanent link in millimetres.
pub const LIMIT_MM: u32 = 90_000;

/// A cable of a random kind.
pub fn cable(id: u64, source: u32, random: &mut Random) -> Cable {
    Cable {
        id,
        source,
        area: AREAS[random.below(4) as usize],
        max_length_mm: LIMIT_MM,
    }
}
