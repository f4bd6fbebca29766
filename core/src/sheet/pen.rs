//! What each ink is in black on white: weight, dash and fill.
//!
//! No line is thinner than [`FINEST`], and nothing is told by tone alone, so that a sheet survives a
//! photocopier.

use crate::picture::{Ink, casing_width, trunk_width};

/// The thinnest line on paper, millimetres.
pub const FINEST: f64 = 0.35;

/// How a shape is drawn on paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pen {
    /// Line weight in millimetres; `None` for no line.
    pub stroke: Option<f64>,
    /// What fills it.
    pub fill: Fill,
    /// Dash and gap lengths in millimetres; empty for solid.
    pub dashes: &'static [f64],
}

/// What fills a shape.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fill {
    /// Nothing: what lies under it stays.
    Open,
    /// Paper.
    White,
    /// Ink.
    Black,
}

/// The pen of an ink.
pub fn pen(ink: Ink) -> Pen {
    let (stroke, fill) = match ink {
        Ink::WallBearing | Ink::WallExterior => (Some(FINEST), Fill::Black),
        Ink::WallPartition | Ink::OpeningGap | Ink::Paper => (None, Fill::White),
        Ink::BoreRing => (Some(0.7), Fill::White),
        Ink::BoreDown => (Some(0.7), Fill::Black),
        Ink::Bore | Ink::BoreOver | Ink::BoreUnder => (Some(0.9), Fill::Open),
        Ink::BoreCircle => (Some(0.6), Fill::White),
        Ink::Drop | Ink::Wood | Ink::CableEnd(_) => (Some(0.45), Fill::White),
        Ink::Closet | Ink::NailPlate | Ink::BoreDot | Ink::Riser => (Some(FINEST), Fill::Black),
        Ink::Tie | Ink::Steel => (Some(0.9), Fill::Open),
        Ink::ClosetMark => (Some(0.5), Fill::Open),
        Ink::Casing(count) => (Some(casing_width(count)), Fill::Open),
        Ink::Trunk(count) => (Some(trunk_width(count)), Fill::Open),
        Ink::Cable(_) | Ink::Frame | Ink::Box => (Some(0.5), Fill::Open),
        Ink::Stud | Ink::Plate | Ink::Header | Ink::Cripple => (Some(FINEST), Fill::White),
        Ink::Heavy => (Some(0.7), Fill::Open),
        Ink::Solid => (None, Fill::Black),
        _ => (Some(FINEST), Fill::Open),
    };
    Pen {
        stroke,
        fill,
        dashes: ink.dashes(),
    }
}

/// Whether an ink is drawn in white over black.
pub(super) fn is_reversed(ink: Ink) -> bool {
    matches!(ink, Ink::ClosetMark | Ink::Casing(_))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_line_is_thinner_than_the_finest() {
        let inks = [
            Ink::Leader,
            Ink::Stud,
            Ink::Cable(3),
            Ink::Trunk(2),
            Ink::KeepOut,
            Ink::Dimension,
        ];
        for ink in inks {
            assert!(
                pen(ink).stroke.is_some_and(|weight| weight >= FINEST),
                "{ink:?}"
            );
        }
    }
}
