//! The smallest round bore that holds a bundle of unequal round cables.
//!
//! Pure geometry: diameters in, centres out, all in millimetres. It knows no plan, no bit and no
//! limit, adds no pulling room, reads no clock and has no memory of its own.
//!
//! The story in steps: the diameters are sorted and scaled ([`Packing`] answers in the order of
//! the question); `start` lays a first arrangement; `search` hops from one to the next (`moves`),
//! walking downhill (`descent`) on the overlap that is left (`energy`) in a bore a little too small,
//! and closes the bore on whatever comes lowest (`repair`), which also makes the answer true; `known`
//! tells when there is nothing more to find; `memory` keeps what was packed before.

mod chance;
mod descent;
mod energy;
mod known;
mod memory;
mod moves;
#[cfg(test)]
mod properties;
mod repair;
mod search;
mod start;

use std::fmt;

pub use memory::Remembered;
use search::{Question, search};

/// Most cables of one bundle.
pub const MOST_CABLES: usize = 200;

/// Where each cable of a bundle lies in the smallest bore found for it.
#[derive(Clone, Debug, PartialEq)]
pub struct Packing {
    /// Radius of the bore, mm. No cable crosses it; 0 for an empty bundle.
    pub radius: f64,
    /// Centre of each cable from the middle of the bore, mm, in the order asked.
    pub centres: Vec<(f64, f64)>,
}

impl Packing {
    /// Diameter of the bore, mm.
    #[must_use]
    pub fn diameter(&self) -> f64 {
        2.0 * self.radius
    }
}

/// How long to look: a number of pairs of cables compared, so that the same question gives the
/// same answer on every machine.
///
/// The times named are those of a desktop computer and promise nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Effort {
    checks: u64,
    seed: u64,
}

impl Effort {
    /// While a hand drags: about 5 ms at most.
    pub const LIVE: Self = Self {
        checks: 1_000_000,
        seed: 1,
    };
    /// When the hand rests: about 20 ms at most.
    pub const CAREFUL: Self = Self {
        checks: 4_000_000,
        seed: 1,
    };
    /// For paper: about 100 ms at most.
    pub const LONG: Self = Self {
        checks: 20_000_000,
        seed: 1,
    };

    /// As many times longer.
    #[must_use]
    pub const fn times(self, factor: u64) -> Self {
        Self {
            checks: self.checks.saturating_mul(factor),
            ..self
        }
    }

    /// Another row of chances, as repeatable as the first.
    #[must_use]
    pub const fn seeded(self, seed: u64) -> Self {
        Self { seed, ..self }
    }
}

/// Why a bundle cannot be packed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PackingError {
    /// A diameter is zero, negative or not a number.
    Diameter {
        /// Place in the bundle, from 0.
        index: usize,
        /// The diameter given, mm.
        diameter: f64,
    },
    /// More than [`MOST_CABLES`].
    TooMany {
        /// Cables in the bundle.
        count: usize,
    },
}

impl fmt::Display for PackingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Diameter { index, diameter } => write!(
                f,
                "Cable {} of the bundle has a diameter of {diameter} mm; give it one above 0.",
                index + 1
            ),
            Self::TooMany { count } => write!(
                f,
                "The bundle has {count} cables; split it into bundles of at most {MOST_CABLES}."
            ),
        }
    }
}

impl std::error::Error for PackingError {}

/// Packs cables of the given diameters, mm, into the smallest bore found with this effort.
///
/// The same bundle in another order gives the same bore and the same arrangement. An empty bundle
/// has radius 0. The radius is that of the arrangement returned: never too small, perhaps a little
/// larger than the best there is.
///
/// # Errors
/// When a diameter is not a positive number, or there are more than [`MOST_CABLES`].
pub fn pack(diameters: &[f64], effort: Effort) -> Result<Packing, PackingError> {
    let bundle = Bundle::new(diameters)?;
    let enough = bundle.enough();
    Ok(bundle.packing(enough, effort))
}

/// Whether an arrangement was found that goes through a bore of this diameter, mm.
///
/// `true` is proved by an arrangement, or by the theorem that circles of at most half the area of
/// another can always be packed into it (Fekete, Keldenich and Scheffer, "Packing Disks into Disks
/// with Optimal Worst-Case Density", SoCG 2019; from memory); `false` means proved impossible or not found. A bundle that
/// just touches all around fits: a bore too small by a millionth is taken as touching.
///
/// # Errors
/// As for [`pack`].
pub fn fits(diameters: &[f64], bore_diameter: f64, effort: Effort) -> Result<bool, PackingError> {
    let bundle = Bundle::new(diameters)?;
    let bore = 0.5 * bore_diameter * (1.0 + TOUCHING);
    let sparse = bundle.areas() <= 0.5 * bore * bore && bore > 0.0;
    Ok(sparse || bundle.bound() <= bore && bundle.packing(bore, effort).radius <= bore)
}

/// A diameter, mm, that no bore for this bundle can be below; 0 for an empty bundle.
///
/// # Errors
/// As for [`pack`].
pub fn lower_bound(diameters: &[f64]) -> Result<f64, PackingError> {
    Ok(2.0 * Bundle::new(diameters)?.bound())
}

/// A bore smaller by this part is still taken for touching: far below what a bit can cut.
const TOUCHING: f64 = 1e-6;

/// Scaled radii are rounded to this part of the largest, so that a bundle in inches and one in
/// millimetres take the same way through the search.
const GRAIN: f64 = (1_u64 << 30) as f64;

/// A bundle in its own order: radii from the largest down, and whose they are.
struct Bundle {
    radii: Vec<f64>,
    order: Vec<usize>,
}

impl Bundle {
    fn new(diameters: &[f64]) -> Result<Self, PackingError> {
        check(diameters)?;
        let mut order: Vec<usize> = (0..diameters.len()).collect();
        order.sort_by(|&a, &b| diameters[b].total_cmp(&diameters[a]).then(a.cmp(&b)));
        let radii = order.iter().map(|&index| 0.5 * diameters[index]).collect();
        Ok(Self { radii, order })
    }

    fn bound(&self) -> f64 {
        known::bound(&self.radii)
    }

    /// The sum of the squares of the radii.
    fn areas(&self) -> f64 {
        self.radii.iter().map(|radius| radius * radius).sum()
    }

    /// A radius at which there is nothing more to find.
    fn enough(&self) -> f64 {
        let least = self.bound() * (1.0 + 1e-7);
        match (self.radii.first(), self.radii.last()) {
            (Some(first), Some(last)) if first == last => {
                let best = known::equal(self.radii.len()).unwrap_or(0.0);
                least.max(first * best * (1.0 + 1e-7))
            }
            _ => least,
        }
    }

    fn packing(&self, enough: f64, effort: Effort) -> Packing {
        let Some(&largest) = self.radii.first() else {
            return Packing {
                radius: 0.0,
                centres: Vec::new(),
            };
        };
        let scaled = |radius: &f64| ((radius / largest * GRAIN).round() / GRAIN).max(1.0 / GRAIN);
        let scaled: Vec<f64> = self.radii.iter().map(scaled).collect();
        let enough = enough / largest;
        let found = search(
            &scaled,
            Question {
                checks: effort.checks,
                enough,
                seed: effort.seed,
            },
        );
        let centres: Vec<_> = found
            .centres
            .iter()
            .map(|[x, y]| [x * largest, y * largest])
            .collect();
        self.in_the_order_asked(&centres)
    }

    fn in_the_order_asked(&self, centres: &[energy::Point]) -> Packing {
        let Some(fitted) = repair::repair(&self.radii, centres) else {
            return self.in_the_order_asked(&search::in_a_row(&self.radii).centres);
        };
        let mut centres = vec![(0.0, 0.0); self.radii.len()];
        for (&index, [x, y]) in self.order.iter().zip(fitted.centres) {
            centres[index] = (x, y);
        }
        Packing {
            radius: fitted.bore,
            centres,
        }
    }
}

fn check(diameters: &[f64]) -> Result<(), PackingError> {
    if diameters.len() > MOST_CABLES {
        return Err(PackingError::TooMany {
            count: diameters.len(),
        });
    }
    let wrong = diameters
        .iter()
        .position(|diameter| !(diameter.is_normal() && *diameter > 0.0));
    match wrong {
        Some(index) => Err(PackingError::Diameter {
            index,
            diameter: diameters[index],
        }),
        None => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_needs_no_bore() {
        let packing = pack(&[], Effort::LIVE).unwrap();
        assert_eq!(
            packing,
            Packing {
                radius: 0.0,
                centres: Vec::new()
            }
        );
        assert_eq!(lower_bound(&[]), Ok(0.0));
    }

    #[test]
    fn one_cable_fills_its_own_bore() {
        let packing = pack(&[6.1], Effort::LIVE).unwrap();
        assert!((packing.diameter() - 6.1).abs() < 1e-12);
    }

    #[test]
    fn two_cables_lie_side_by_side() {
        let packing = pack(&[9.5, 4.6], Effort::LIVE).unwrap();
        assert!(
            (packing.diameter() - 14.1).abs() < 1e-6,
            "{}",
            packing.diameter()
        );
    }

    #[test]
    fn a_third_cable_of_two_thirds_costs_nothing() {
        let packing = pack(&[6.0, 4.0, 6.0], Effort::LIVE).unwrap();
        assert!(
            (packing.diameter() - 12.0).abs() < 1e-5,
            "{}",
            packing.diameter()
        );
    }

    #[test]
    fn seven_equal_cables_fit_a_bore_of_three() {
        assert_eq!(fits(&[6.35; 7], 19.05, Effort::LIVE), Ok(true));
        assert_eq!(fits(&[6.35; 7], 19.04, Effort::LIVE), Ok(false));
    }

    /// Two circles of half the radius are the extreme case: half the area, and they just fit.
    #[test]
    fn half_the_area_always_fits() {
        for diameters in [vec![6.0, 6.0], vec![6.9, 6.0, 6.0, 7.5, 6.9, 6.0, 6.0, 6.0]] {
            let squares: f64 = diameters.iter().map(|d| d * d).sum();
            let bore = (2.0 * squares).sqrt();
            assert_eq!(fits(&diameters, bore, Effort::LIVE), Ok(true));
            assert!(pack(&diameters, Effort::CAREFUL).unwrap().diameter() <= bore + 1e-6);
        }
    }

    #[test]
    fn a_bore_that_is_no_number_holds_nothing() {
        assert_eq!(fits(&[6.0], f64::NAN, Effort::LIVE), Ok(false));
        assert_eq!(fits(&[6.0], -6.0, Effort::LIVE), Ok(false));
        assert_eq!(fits(&[6.0], f64::INFINITY, Effort::LIVE), Ok(true));
    }

    #[test]
    fn a_wrong_diameter_is_named() {
        for diameter in [0.0, -6.0, f64::NAN, f64::INFINITY] {
            let error = pack(&[6.0, diameter], Effort::LIVE).unwrap_err();
            assert!(matches!(error, PackingError::Diameter { index: 1, .. }));
            assert!(
                error
                    .to_string()
                    .starts_with("Cable 2 of the bundle has a diameter of")
            );
        }
    }

    #[test]
    fn too_many_cables_are_counted() {
        let error = pack(&[6.0; 201], Effort::LIVE).unwrap_err();
        assert_eq!(
            error.to_string(),
            "The bundle has 201 cables; split it into bundles of at most 200."
        );
    }

    #[test]
    fn sizes_far_apart_still_pack() {
        let packing = pack(&[100.0, 1e-3, 1e-6, 50.0], Effort::LIVE).unwrap();
        assert!(
            (packing.diameter() - 150.0).abs() < 1e-3,
            "{}",
            packing.diameter()
        );
    }
}
