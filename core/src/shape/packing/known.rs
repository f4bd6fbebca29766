//! What is known without searching: closed forms, published radii, and what no bundle can beat.
//!
//! Nothing here is ever given out as the answer: a published radius only tells the search that it
//! may stop.

/// Radius of the smallest circle known to hold n unit circles, for n from 1 to 20.
///
/// R. L. Graham, B. D. Lubachevsky, K. J. Nurmela and P. R. J. Östergård, "Dense packings of
/// congruent circles in a circle", Discrete Mathematics 181 (1998), 139-154; digits recomputed
/// from the contact graphs. Proved best up to 13, for 14 and for 19; conjectured for the others.
const EQUAL: [f64; 20] = [
    1.0,
    2.0,
    2.154_700_538_379_251_5,
    2.414_213_562_373_095,
    2.701_301_616_704_079_8,
    3.0,
    3.0,
    3.304_764_870_962_486_6,
    3.613_125_929_752_753,
    3.813_025_631_398_124_6,
    3.923_804_400_163_087,
    4.029_601_930_116_184,
    4.236_067_977_499_79,
    4.328_428_554_860_837,
    4.521_356_964_706_165,
    4.615_425_594_873_194,
    4.792_033_748_310_579,
    4.863_703_305_156_273,
    4.863_703_305_156_273,
    5.122_320_736_991_528_5,
];

/// Those of the counts above whose radius is proved, and so bounds every bundle from below.
const PROVED: [usize; 15] = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 19];

/// Given away from a bound for rounding.
const ROUNDING: f64 = 1.0 - 1e-12;

/// The best-known radius for `count` unit circles, up to 20.
pub(super) fn equal(count: usize) -> Option<f64> {
    EQUAL.get(count.checked_sub(1)?).copied()
}

/// No bore smaller than this holds circles of these radii, sorted largest first.
///
/// The largest of: the bore with the area of all of them; the two largest side by side; the circle
/// about the three largest; and, for each proved count, as many circles of the least radius among
/// the largest.
pub(super) fn bound(radii: &[f64]) -> f64 {
    let area: f64 = radii.iter().map(|radius| radius * radius).sum();
    let three = if let [a, b, c, ..] = radii {
        around_three(*a, *b, *c)
    } else {
        0.0
    };
    let two = radii.iter().take(2).sum::<f64>();
    let alike = PROVED
        .iter()
        .filter_map(|&count| Some(equal(count)? * radii.get(count - 1)?));
    alike.fold(area.sqrt().max(two).max(three), f64::max) * ROUNDING
}

/// Radius of the smallest circle about three circles, largest first.
///
/// Descartes' circle theorem for three that touch one another; when the third fits beside the two
/// others inside the circle about those, that circle.
fn around_three(a: f64, b: f64, c: f64) -> f64 {
    let (ka, kb, kc) = (1.0 / a, 1.0 / b, 1.0 / c);
    let outer = 2.0 * (ka * kb + kb * kc + kc * ka).sqrt() - (ka + kb + kc);
    // The third circle inside the circle about two in line: k = k1 + k2 + k0 +- 2 sqrt(..), where
    // the root vanishes for circles in line.
    let beside = ka + kb - 1.0 / (a + b);
    if kc >= beside || outer <= 0.0 {
        a + b
    } else {
        1.0 / outer
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_equal_circles_match_the_closed_form() {
        assert!((around_three(1.0, 1.0, 1.0) - (1.0 + 2.0 / 3_f64.sqrt())).abs() < 1e-12);
    }

    #[test]
    fn two_unit_circles_leave_room_for_two_thirds() {
        assert_eq!(around_three(1.0, 1.0, 2.0 / 3.0), 2.0);
        assert!(around_three(1.0, 1.0, 0.67) > 2.0);
    }

    #[test]
    fn the_bound_of_equal_circles_is_the_proved_radius() {
        for count in PROVED {
            let bound = bound(&vec![1.0; count]);
            assert!((bound - EQUAL[count - 1]).abs() < 1e-9, "{count}: {bound}");
        }
    }

    #[test]
    fn radii_never_fall_with_the_count() {
        assert!(EQUAL.windows(2).all(|pair| pair[0] <= pair[1]));
    }
}
