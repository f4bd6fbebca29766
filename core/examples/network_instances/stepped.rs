//! Invented houses of two levels, each wall with three lanes, whose bores come in kinds as those of real
//! plates and studs do: bare, with steel, with steel and a tie. Some cables have hardly more than their
//! shortest way, so that limits bind.

use borewright_core::route::network::{Bore, Crossing, Problem};

use super::house::House;
use super::random::Random;
use super::thinned::distances;

/// Two areas of cable, in hundredths of a square millimetre: 6.0 and 6.9 mm across.
const AREAS: [u32; 2] = [2_828, 3_740];

/// Supports hold more than this.
const SUPPORTS: u32 = 50_000_000;

/// How the kinds of bores and the limits are drawn.
#[derive(Clone, Copy)]
pub struct Stepped {
    /// The house whose bores get kinds.
    pub house: House,
    /// The area that a bare bore holds.
    pub bare: u32,
    /// Of ten cables so many are of the second area.
    pub second: usize,
    /// Of ten cables so many have a limit that is near their shortest way.
    pub limited: usize,
}

impl Stepped {
    /// The problem, with its kinds and limits.
    pub fn problem(self) -> Problem {
        let mut problem = self.house.problem();
        let mut random = Random(self.house.seed + 7);
        for crossing in problem
            .crossings
            .iter_mut()
            .filter(|c| c.capacity < SUPPORTS)
        {
            *crossing = self.kinds(crossing.price).unwrap_or(*crossing);
        }
        let home = distances(&problem, problem.sink, |edge| edge.length_mm.into());
        for cable in &mut problem.cables {
            cable.area = AREAS[usize::from(random.below(10) < self.second as u32)];
            let shortest = home[cable.source as usize];
            if random.below(10) < self.limited as u32 {
                let more = u64::from(random.between(0, 8));
                cable.max_length_mm = (shortest + shortest * more / 100) as u32;
            }
        }
        problem
    }

    /// Joists have bare bores only; what is dearer has steel beyond those, and the dearest a tie as well.
    fn kinds(self, price: u32) -> Option<Crossing> {
        let bore = |more: u32, tenths: u32| Bore {
            price: price + more,
            capacity: self.bare * tenths / 10,
        };
        let all = [bore(0, 10), bore(2_000, 19), bore(3_000, 26)];
        let count = match price {
            0..2_000 => 1,
            2_000..3_000 => 2,
            _ => 3,
        };
        Crossing::dealt(&all[..count])
    }
}
