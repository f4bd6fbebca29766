//! Standard areas, for the lower bound: cables that count as the same area never go through a
//! crossing against each other.
//!
//! Given which crossings have bores, let every cable go its cheapest way through those, at what its
//! edges cost and its area pays. Cables for whom every edge costs the same then go along one tree
//! towards the sink, and no edge of a tree is passed both ways. So of what they pay at a crossing for
//! one way through it and for the other, only the dearer is ever paid (the directed formulation,
//! whose bound is the closer one: Magnanti and Wolsey, "Optimal trees", Handbooks in Operations
//! Research and Management Science 7, 1995, from memory).
//!
//! For cables of unlike areas edges do not cost the same. Each is therefore split: most of it counts
//! as a cable of the area found most often, the rest as one of no area or of a very large one, such
//! that their mean is not above its own area. What a cable pays is at least the mean of what they
//! would pay on its way, and so at least the mean of their own cheapest ways.

/// What a whole cable counts.
pub(super) const WHOLE: u64 = 256;

/// The areas that cables are split into.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Standard {
    usual: u32,
    large: u32,
}

impl Standard {
    /// Every cable counts as no area at all: close where one bore holds them all.
    pub const NONE: Self = Self { usual: 0, large: 0 };

    /// From the areas of all cables. What the large one is, was chosen on invented houses.
    pub fn new(areas: impl Iterator<Item = u32>) -> Self {
        let mut areas: Vec<u32> = areas.collect();
        areas.sort_unstable();
        let alike = areas.chunk_by(|a, b| a == b).rev();
        let usual = alike.max_by_key(|alike| alike.len()).map_or(0, |a| a[0]);
        let most = areas.last().copied().unwrap_or(0);
        Self {
            usual,
            large: most.saturating_add(most / 3),
        }
    }

    /// Areas, and how many 256ths of a cable count as each.
    pub fn split(self, area: u32) -> impl Iterator<Item = (u32, u64)> {
        let [usual, large, own] = [self.usual, self.large, area].map(u64::from);
        let parts = match own > usual {
            true => {
                let part = ((own - usual) * WHOLE)
                    .checked_div(large.saturating_sub(usual))
                    .unwrap_or(0);
                [(self.usual, WHOLE - part), (self.large, part)]
            }
            false => {
                let part = (own * WHOLE).checked_div(usual).unwrap_or(WHOLE);
                [(self.usual, part), (0, WHOLE - part)]
            }
        };
        parts.into_iter().filter(|(_, part)| *part > 0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_make_a_whole_and_their_mean_is_not_above_the_area() {
        let areas = [2_124, 3_019, 3_019, 3_739, 4_418];
        let standard = Standard::new(areas.into_iter());
        for area in areas {
            let parts: Vec<(u32, u64)> = standard.split(area).collect();
            let mean: u64 = parts.iter().map(|(a, part)| u64::from(*a) * part).sum();
            assert_eq!(parts.iter().map(|(_, part)| part).sum::<u64>(), WHOLE);
            assert!(mean <= u64::from(area) * WHOLE);
            assert!(mean * 100 > u64::from(area) * WHOLE * 99, "and close to it");
        }
        assert_eq!(standard.split(3_019).collect::<Vec<_>>(), [(3_019, WHOLE)]);
        assert_eq!(Standard::NONE.split(50).collect::<Vec<_>>(), [(0, WHOLE)]);
        assert_eq!(
            Standard::new([0].into_iter()).split(0).collect::<Vec<_>>(),
            [(0, WHOLE)]
        );
    }

    #[test]
    fn equal_areas_are_not_split() {
        let standard = Standard::new([70; 5].into_iter());
        assert_eq!(standard.split(70).collect::<Vec<_>>(), [(70, WHOLE)]);
    }
}
