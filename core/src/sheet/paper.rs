//! Paper: its sizes, the room on it, and the usual scales.

use crate::shape::Pos;
use crate::tongue::Tongue;
use crate::units::Units;

use serde::{Deserialize, Serialize};

/// Usual paper sizes of a crew's printer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Size {
    /// 8-1/2 by 11 in.
    #[default]
    Letter,
    /// 11 by 17 in.
    Tabloid,
    /// 210 by 297 mm.
    A4,
    /// 297 by 420 mm.
    A3,
}

/// How a page lies.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lie {
    /// Each page as it serves best.
    #[default]
    Best,
    /// Higher than wide.
    Portrait,
    /// Wider than high.
    Landscape,
}

/// The paper sheets are laid out for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Paper {
    /// Its size.
    pub size: Size,
    /// How it lies.
    pub lie: Lie,
    /// The tongue of the fixed words on a crew's sheets; all other sheets are in English.
    pub tongue: Tongue,
}

/// Width and height of a page in millimetres.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Extent {
    /// Across.
    pub width: f64,
    /// Down.
    pub height: f64,
}

/// A box on a page, millimetres from the page's upper left corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Area {
    /// Upper left corner.
    pub low: Pos,
    /// Lower right corner.
    pub high: Pos,
}

impl Size {
    /// Every size.
    pub const ALL: [Size; 4] = [Self::Letter, Self::Tabloid, Self::A4, Self::A3];

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::Letter => "Letter",
            Self::Tabloid => "11x17",
            Self::A4 => "A4",
            Self::A3 => "A3",
        }
    }

    /// The size of that name, in any case.
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL
            .into_iter()
            .find(|size| size.name().eq_ignore_ascii_case(name))
    }

    /// Higher than wide. ANSI/ASME Y14.1 for letter and 11x17, ISO 216 for A4 and A3.
    pub fn portrait(self) -> Extent {
        let (width, height) = match self {
            Self::Letter => (215.9, 279.4),
            Self::Tabloid => (279.4, 431.8),
            Self::A4 => (210.0, 297.0),
            Self::A3 => (297.0, 420.0),
        };
        Extent { width, height }
    }

    /// Wider than high.
    pub fn landscape(self) -> Extent {
        let Extent { width, height } = self.portrait();
        Extent {
            width: height,
            height: width,
        }
    }
}

impl Paper {
    /// Paper of this size, each page lying as it serves best.
    pub fn of(size: Size) -> Self {
        Self {
            size,
            lie: Lie::Best,
            tongue: Tongue::English,
        }
    }

    /// The same paper, a crew's sheets on it in this tongue.
    pub fn in_tongue(self, tongue: Tongue) -> Self {
        Self { tongue, ..self }
    }

    /// The way a page lies where only one is tried.
    pub(super) fn extent(&self, preferred: Lie) -> Extent {
        self.extents(preferred).first().copied().unwrap_or_default()
    }

    /// The ways a page may lie, the preferred one first.
    pub(super) fn extents(&self, preferred: Lie) -> Vec<Extent> {
        let (portrait, landscape) = (self.size.portrait(), self.size.landscape());
        match (self.lie, preferred) {
            (Lie::Portrait, _) => vec![portrait],
            (Lie::Landscape, _) => vec![landscape],
            (Lie::Best, Lie::Portrait) => vec![portrait, landscape],
            (Lie::Best, _) => vec![landscape, portrait],
        }
    }
}

impl Area {
    /// The box between two corners.
    pub fn new(low: Pos, high: Pos) -> Self {
        Self { low, high }
    }

    /// Its width.
    pub fn width(&self) -> f64 {
        self.high.x - self.low.x
    }

    /// Its height.
    pub fn height(&self) -> f64 {
        self.high.y - self.low.y
    }

    /// Its middle.
    pub fn middle(&self) -> Pos {
        (self.low + self.high) * 0.5
    }
}

/// A scale: what one unit on paper is in the house, and what it is called.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// House millimetres to a paper millimetre.
    pub ratio: f64,
    /// What it is called on the sheet.
    pub name: &'static str,
}

/// Usual architect's scales, the largest drawing first.
const IMPERIAL: [Scale; 12] = [
    Scale {
        ratio: 12.0,
        name: "1 in = 1 ft",
    },
    Scale {
        ratio: 16.0,
        name: "3/4 in = 1 ft",
    },
    Scale {
        ratio: 24.0,
        name: "1/2 in = 1 ft",
    },
    Scale {
        ratio: 32.0,
        name: "3/8 in = 1 ft",
    },
    Scale {
        ratio: 48.0,
        name: "1/4 in = 1 ft",
    },
    Scale {
        ratio: 64.0,
        name: "3/16 in = 1 ft",
    },
    Scale {
        ratio: 96.0,
        name: "1/8 in = 1 ft",
    },
    Scale {
        ratio: 128.0,
        name: "3/32 in = 1 ft",
    },
    Scale {
        ratio: 192.0,
        name: "1/16 in = 1 ft",
    },
    Scale {
        ratio: 360.0,
        name: "1 in = 30 ft",
    },
    Scale {
        ratio: 720.0,
        name: "1 in = 60 ft",
    },
    Scale {
        ratio: 2400.0,
        name: "1 in = 200 ft",
    },
];

/// Usual metric scales, the largest drawing first.
const METRIC: [Scale; 11] = [
    Scale {
        ratio: 10.0,
        name: "1:10",
    },
    Scale {
        ratio: 20.0,
        name: "1:20",
    },
    Scale {
        ratio: 25.0,
        name: "1:25",
    },
    Scale {
        ratio: 50.0,
        name: "1:50",
    },
    Scale {
        ratio: 75.0,
        name: "1:75",
    },
    Scale {
        ratio: 100.0,
        name: "1:100",
    },
    Scale {
        ratio: 125.0,
        name: "1:125",
    },
    Scale {
        ratio: 150.0,
        name: "1:150",
    },
    Scale {
        ratio: 200.0,
        name: "1:200",
    },
    Scale {
        ratio: 500.0,
        name: "1:500",
    },
    Scale {
        ratio: 2500.0,
        name: "1:2500",
    },
];

impl Scale {
    /// The largest usual scale, not above `largest`, at which something so wide and high (house
    /// millimetres) fits a box so wide and high (paper millimetres); the smallest where none does.
    pub fn fitting(units: Units, largest: f64, house: (f64, f64), paper: (f64, f64)) -> Self {
        let usual = Self::usual(units);
        let fits = |scale: &&Scale| {
            scale.ratio >= largest
                && house.0 <= paper.0 * scale.ratio
                && house.1 <= paper.1 * scale.ratio
        };
        let smallest = usual[usual.len() - 1];
        usual.iter().find(fits).copied().unwrap_or(smallest)
    }

    /// Usual scales, the largest drawing first.
    fn usual(units: Units) -> &'static [Scale] {
        match units {
            Units::Imperial => &IMPERIAL,
            Units::Metric => &METRIC,
        }
    }

    /// The next smaller usual scale; `None` where this is the smallest.
    pub fn smaller(self, units: Units) -> Option<Self> {
        let usual = Self::usual(units).iter();
        usual.copied().find(|scale| scale.ratio > self.ratio)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_largest_usual_scale_that_fits_is_taken() {
        let scale = |units, house| Scale::fitting(units, 20.0, house, (240.0, 160.0)).name;
        assert_eq!(scale(Units::Imperial, (10_000.0, 7_000.0)), "1/4 in = 1 ft");
        assert_eq!(
            scale(Units::Imperial, (16_459.0, 10_363.0)),
            "1/8 in = 1 ft"
        );
        assert_eq!(scale(Units::Metric, (10_000.0, 7_000.0)), "1:50");
        assert_eq!(scale(Units::Metric, (0.0, 0.0)), "1:20");
        assert_eq!(scale(Units::Metric, (1e9, 1e9)), "1:2500");
    }

    #[test]
    fn scales_grow_smaller_to_the_last() {
        for units in [Units::Imperial, Units::Metric] {
            let mut scale = Scale::fitting(units, 0.0, (0.0, 0.0), (1.0, 1.0));
            let mut count = 1;
            while let Some(next) = scale.smaller(units) {
                assert!(next.ratio > scale.ratio);
                scale = next;
                count += 1;
            }
            assert_eq!(count, Scale::usual(units).len());
        }
    }

    #[test]
    fn sizes_are_found_by_name() {
        assert_eq!(Size::named("a3"), Some(Size::A3));
        assert_eq!(Size::named("11x17"), Some(Size::Tabloid));
        assert_eq!(Size::named("foolscap"), None);
        assert_eq!(Size::A4.landscape().width, 297.0);
    }
}
