//! Makes an arrangement true: whatever the search left, here it ends without overlap.
//!
//! The radius given out is always measured after the repair, never taken from the search.

use super::descent::{Descent, FITS, Patience};
use super::energy::{Energy, Point, between, length};

/// Centres without overlap, and the bore that holds them.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Fitted {
    pub(super) bore: f64,
    pub(super) centres: Vec<Point>,
}

/// Spreads (or gathers) the centres until the closest pair just touches, then measures the bore.
/// Nothing when two centres coincide or one is nowhere.
pub(super) fn repair(radii: &[f64], centres: &[Point]) -> Option<Fitted> {
    let spread = tightest(radii, centres);
    let lost = centres.as_flattened().iter().any(|part| !part.is_finite());
    if lost || !spread.is_finite() {
        return None;
    }
    let centres: Vec<Point> = centres
        .iter()
        .map(|[x, y]| [x * spread, y * spread])
        .collect();
    let reach = |(centre, radius): (&Point, &f64)| length(*centre) + radius;
    let bore = centres.iter().zip(radii).map(reach).fold(0.0, f64::max);
    Some(Fitted { bore, centres })
}

/// The factor by which distances must grow so that no pair overlaps.
fn tightest(radii: &[f64], centres: &[Point]) -> f64 {
    let mut factor: f64 = if radii.len() < 2 { 1.0 } else { 0.0 };
    for (index, (centre, radius)) in centres.iter().zip(radii).enumerate() {
        for (other, other_radius) in centres.iter().zip(radii).take(index) {
            factor = factor.max((radius + other_radius) / length(between(*centre, *other)));
        }
    }
    factor
}

/// How closely a bore is closed.
#[derive(Clone, Copy, Debug)]
pub(super) struct Care {
    /// Part of the bore left open.
    near: f64,
    /// Most walks downhill.
    rounds: usize,
    patience: Patience,
}

/// During the search, where the next hop may beat it anyway.
pub(super) const QUICK: Care = Care {
    near: 1e-4,
    rounds: 12,
    patience: Patience {
        steps: 100,
        flat: 1e-5,
    },
};

/// At the end, as far as double precision goes.
pub(super) const FULL: Care = Care {
    near: 1e-8,
    rounds: 15,
    patience: Patience {
        steps: 200,
        flat: 1e-5,
    },
};

/// Closes the bore on an arrangement until nothing gives, keeping who lies beside whom.
///
/// Just below the smallest bore the root of the energy falls in a straight line with the bore, so
/// two walks at two bores foretell where it reaches zero.
pub(super) fn polish(
    energy: &mut Energy,
    descent: &mut Descent,
    centres: &[Point],
    care: Care,
) -> Option<Fitted> {
    let mut best = repair(&energy.radii, centres)?;
    let mut at = best.centres.clone();
    let mut before: Option<(f64, f64)> = None;
    let mut close = 1e-3;
    let mut bore = best.bore * (1.0 - close);
    for _ in 0..care.rounds {
        energy.bore = bore;
        let root = descent
            .walk(energy, &mut at, care.patience, f64::INFINITY)
            .sqrt();
        if let Some(fitted) = repair(&energy.radii, &at)
            && fitted.bore < best.bore
        {
            best = fitted;
        }
        if root * root <= FITS {
            // It fits with room to spare: close further.
            before = None;
            close = (2.0 * close).min(0.1);
            bore = best.bore * (1.0 - close);
            continue;
        }
        close = 1e-3;
        let zero = zero_of(before, (bore, root), best.bore);
        if zero - bore <= care.near * zero {
            break;
        }
        before = Some((bore, root));
        bore = zero - 0.02 * (zero - bore);
    }
    Some(best)
}

/// The bore at which the root of the energy is foretold to vanish.
fn zero_of(before: Option<(f64, f64)>, now: (f64, f64), upper: f64) -> f64 {
    let (bore, root) = now;
    let straight = before
        .filter(|(_, earlier)| *earlier > root)
        .map(|(earlier_bore, earlier)| bore + root * (bore - earlier_bore) / (earlier - root));
    let halfway = 0.5 * (bore + upper);
    straight
        .filter(|zero| *zero > bore && *zero <= upper)
        .unwrap_or(halfway)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn overlapping_circles_are_spread_until_they_touch() {
        let fitted = repair(&[1.0, 1.0], &[[-0.5, 0.0], [0.5, 0.0]]).unwrap();
        assert_eq!(
            fitted,
            Fitted {
                bore: 2.0,
                centres: vec![[-1.0, 0.0], [1.0, 0.0]]
            }
        );
    }

    #[test]
    fn loose_circles_are_gathered() {
        let fitted = repair(&[1.0, 1.0], &[[-5.0, 0.0], [5.0, 0.0]]).unwrap();
        assert_eq!(fitted.bore, 2.0);
    }

    #[test]
    fn circles_on_one_spot_cannot_be_spread() {
        assert_eq!(repair(&[1.0, 1.0], &[[0.5, 0.0]; 2]), None);
        assert_eq!(repair(&[1.0, 1.0], &[[f64::NAN, 0.0], [1.0, 0.0]]), None);
    }

    #[test]
    fn one_circle_stays_where_it_is() {
        assert_eq!(repair(&[1.0], &[[0.5, 0.0]]).unwrap().bore, 1.5);
    }

    #[test]
    fn polishing_closes_three_circles_on_one_another() {
        let radii = [1.0; 3];
        let mut energy = Energy::new(&radii);
        let loose = [[-1.2, 0.0], [1.1, 0.1], [0.2, 1.9]];
        let best = 1.0 + 2.0 / 3_f64.sqrt();
        let quick = polish(&mut energy, &mut Descent::new(3), &loose, QUICK).unwrap();
        assert!((0.0..3e-3).contains(&(quick.bore - best)), "{}", quick.bore);
        let full = polish(&mut energy, &mut Descent::new(3), &loose, FULL).unwrap();
        assert!(
            (-1e-12..1e-6).contains(&(full.bore - best)),
            "{}",
            full.bore
        );
    }
}
