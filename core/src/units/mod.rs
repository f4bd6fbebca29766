//! Lengths as people on site write and read them.
//!
//! Plan lengths are whole millimetres ([`Mm`]): one sixteenth of an inch is 1.5875 mm, so every
//! sixteenth survives the trip through [`Mm`] and back. Sizes of bores, cables and lumber need
//! finer steps and are [`Size`]. Nothing here knows what a plan is.

use serde::{Deserialize, Serialize};

mod read;
mod reel;
mod show;
mod words;

pub use read::{LengthError, read_length, read_size, read_sizes};
pub use reel::{read_reel, read_reels, read_run};
pub use show::{counted, fraction, inches, millimetres, thousands};
pub use words::has_words;

/// A plan length in whole millimetres. Negative only for differences.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
pub struct Mm(pub i32);

impl Mm {
    /// The nearest whole millimetre to a length in inches, zero or more.
    pub const fn inches(inches: f64) -> Self {
        Self((inches * MM_PER_INCH + 0.5 + TIE) as i32)
    }

    /// The nearest whole millimetre to a length in feet.
    pub const fn feet(feet: f64) -> Self {
        Self::inches(feet * 12.0)
    }

    /// The nearest whole millimetre; lengths beyond 2,000 km saturate, not-a-number is zero.
    pub fn rounded(mm: f64) -> Self {
        Self((mm + TIE).round() as i32)
    }

    /// The same length as a number of millimetres.
    pub fn f64(self) -> f64 {
        f64::from(self.0)
    }
}

impl std::ops::Add for Mm {
    type Output = Mm;
    fn add(self, other: Mm) -> Mm {
        Mm(self.0.saturating_add(other.0))
    }
}

impl std::ops::Sub for Mm {
    type Output = Mm;
    fn sub(self, other: Mm) -> Mm {
        Mm(self.0.saturating_sub(other.0))
    }
}

impl std::ops::Neg for Mm {
    type Output = Mm;
    fn neg(self) -> Mm {
        Mm(self.0.saturating_neg())
    }
}

impl std::iter::Sum for Mm {
    fn sum<I: Iterator<Item = Mm>>(lengths: I) -> Mm {
        lengths.fold(Mm(0), |total, length| total + length)
    }
}

/// A fine size in millimetres: bores, cables, dressed lumber.
///
/// Compared with a tolerance of one micrometre, so that limits that hold with equality (a 1 in
/// bore centred in a dressed 2x4 leaves exactly 1-1/4 in on each side) are not lost to rounding.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize, Deserialize)]
pub struct Size(pub f64);

impl Size {
    /// One micrometre: two sizes nearer than this are equal.
    pub const TOLERANCE: f64 = 0.001;

    /// A size given in inches.
    pub const fn inches(inches: f64) -> Self {
        Self(inches * MM_PER_INCH)
    }

    /// The size in inches.
    pub fn in_inches(self) -> f64 {
        self.0 / MM_PER_INCH
    }

    /// Whether this size is not above `limit`, with equality holding.
    pub fn within(self, limit: Size) -> bool {
        self.0 <= limit.0 + Self::TOLERANCE
    }

    /// Area of a circle of this diameter.
    pub fn circle(self) -> Area {
        Area(std::f64::consts::FRAC_PI_4 * self.0 * self.0)
    }

    /// The size in whole micrometres, the form in which sizes are saved and keyed.
    pub fn micrometres(self) -> i64 {
        (self.0 * 1000.0).round() as i64
    }

    /// A size from whole micrometres.
    pub fn from_micrometres(micrometres: i64) -> Self {
        Self(micrometres as f64 / 1000.0)
    }
}

/// An area in square millimetres.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Area(pub f64);

impl std::iter::Sum for Area {
    fn sum<I: Iterator<Item = Area>>(areas: I) -> Area {
        Area(areas.map(|a| a.0).sum())
    }
}

/// How lengths are shown and how a bare number is read. Changing it changes no geometry.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Units {
    /// Feet, inches and fractions; a bare number is inches.
    #[default]
    Imperial,
    /// Millimetres and metres; a bare number is millimetres.
    Metric,
}

impl Units {
    /// A position (a box, an offset, a wall): to 1/16 in, or to the millimetre.
    pub fn position(self, length: Mm) -> String {
        match self {
            Units::Imperial => show::feet_inches(length, 16),
            Units::Metric => show::millimetres(length),
        }
    }

    /// A length along a path: to 1/4 in, or to the centimetre.
    pub fn path(self, length: Mm) -> String {
        match self {
            Units::Imperial => show::feet_inches(length, 4),
            Units::Metric => show::metres(length, 2),
        }
    }

    /// A total or a length to cut: whole feet rounded up, or tenths of a metre rounded up.
    pub fn total(self, length: Mm) -> String {
        match self {
            Units::Imperial => format!("{} ft", thousands(self.whole(length))),
            Units::Metric => show::metres(Mm((length.0 + 99).div_euclid(100) * 100), 1),
        }
    }

    /// The difference of two totals as they are written, with its sign: "+38 ft", "−0.4 m"; `None`
    /// where both are written alike.
    pub fn total_change(self, before: Mm, after: Mm) -> Option<String> {
        let written = |length: Mm| match self {
            Units::Imperial => self.whole(length),
            Units::Metric => i64::from((length.0 + 99).div_euclid(100)),
        };
        let step = written(after) - written(before);
        let sign = if step > 0 { "+" } else { "−" };
        let size = step.abs();
        (step != 0).then(|| match self {
            Units::Imperial => format!("{sign}{} ft", thousands(size)),
            Units::Metric => format!("{sign}{}.{} m", thousands(size / 10), size % 10),
        })
    }

    /// Whole feet, or whole metres, rounded up: what a cut list counts in. Half a millimetre is the
    /// grain of a plan length and does not start a new foot.
    pub fn whole(self, length: Mm) -> i64 {
        let step = match self {
            Units::Imperial => MM_PER_INCH * 12.0,
            Units::Metric => 1000.0,
        };
        ((length.f64() - 0.5) / step).ceil() as i64
    }

    /// A height above the finished floor: "30 in", or "762 mm".
    pub fn height(self, height: Mm) -> String {
        match self {
            Units::Imperial => show::inches(height.f64(), 16),
            Units::Metric => show::millimetres(height),
        }
    }

    /// A bit, a cable or a board: "1-1/4 in" to 1/16 in, or "31.8 mm".
    pub fn size(self, size: Size) -> String {
        match self {
            Units::Imperial => show::inches(size.0, 16),
            Units::Metric => format!("{:.1} mm", size.0).replace(".0 mm", " mm"),
        }
    }

    /// A limit, rounded down so that what is shown is never above what is meant.
    pub fn limit(self, limit: Size) -> String {
        match self {
            Units::Imperial => show::inches_down(limit.0, 16),
            Units::Metric => format!("{} mm", (limit.0 + Size::TOLERANCE).floor()),
        }
    }
}

const MM_PER_INCH: f64 = 25.4;

/// Halves are rounded up even when a sum of inches fell a hair short of them.
const TIE: f64 = 1e-6;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sixteenth_survives_whole_millimetres() {
        for sixteenths in 0..16 * 12 * 200 {
            let mm = Mm::inches(f64::from(sixteenths) / 16.0);
            let back = (mm.f64() / MM_PER_INCH * 16.0).round() as i32;
            assert_eq!(back, sixteenths);
        }
    }

    #[test]
    fn equality_passes_a_limit_and_a_hair_more_does_not() {
        let left = (Size::inches(3.5).0 - Size::inches(1.0).0) / 2.0;
        assert!(Size::inches(1.25).within(Size(left)));
        assert!(!Size::inches(1.25 + 1.0 / 48.0).within(Size(left)));
    }

    #[test]
    fn totals_round_up_and_limits_round_down() {
        assert_eq!(Units::Imperial.total(Mm::feet(12.0)), "12 ft");
        assert_eq!(Units::Imperial.total(Mm(3659)), "13 ft");
        assert_eq!(Units::Imperial.total(Mm::feet(1214.0)), "1,214 ft");
        assert_eq!(Units::Metric.total(Mm(3601)), "3.7 m");
        assert_eq!(Units::Imperial.limit(Size::inches(2.2)), "2-3/16 in");
        assert_eq!(Units::Imperial.limit(Size::inches(1.4)), "1-3/8 in");
        assert_eq!(Units::Metric.limit(Size(35.56)), "35 mm");
    }

    #[test]
    fn a_change_is_that_of_the_totals_as_written() {
        let change = |units: Units, before, after| units.total_change(Mm(before), Mm(after));
        let feet = |feet: i32| Mm::feet(f64::from(feet)).0;
        let imperial = change(Units::Imperial, feet(100), feet(1338));
        assert_eq!(imperial.as_deref(), Some("+1,238 ft"));
        assert_eq!(change(Units::Imperial, feet(7), feet(7)), None);
        assert_eq!(change(Units::Metric, 3601, 3700), None, "both 3.7 m");
        let metric = change(Units::Metric, 4000, 3601);
        assert_eq!(metric.as_deref(), Some("−0.3 m"));
    }

    #[test]
    fn shows_each_kind_of_length_in_its_own_grain() {
        let length = Mm::inches(12.0 * 12.0 + 6.5);
        assert_eq!(Units::Imperial.position(length), "12' 6-1/2\"");
        assert_eq!(Units::Metric.position(length), "3823 mm");
        assert_eq!(Units::Imperial.height(Mm::inches(30.0)), "30 in");
        assert_eq!(Units::Imperial.size(Size::inches(1.25)), "1-1/4 in");
        assert_eq!(Units::Metric.size(Size(6.0)), "6 mm");
        assert_eq!(Units::Metric.path(Mm(3823)), "3.82 m");
    }
}
