//! What must hold of every packing, asked of bundles made at random.
//!
//! The checker shares nothing with the search: it measures every pair from the answer alone.

use proptest::prelude::*;

use super::{Effort, Packing, fits, lower_bound, pack};

/// Enough to search a little; what must hold does not depend on it.
const QUICK: Effort = Effort {
    checks: 30_000,
    seed: 1,
};

/// Nothing when every cable is inside the bore and no two overlap by more than `slack` mm.
fn fault(diameters: &[f64], packing: &Packing, slack: f64) -> Option<String> {
    if packing.centres.len() != diameters.len() {
        return Some("a cable is missing".into());
    }
    let circles: Vec<_> = packing.centres.iter().zip(diameters).collect();
    for (index, ((x, y), diameter)) in circles.iter().enumerate() {
        let out = (x * x + y * y).sqrt() + *diameter / 2.0 - packing.radius;
        if out.is_nan() || out > slack {
            return Some(format!("cable {index} is {out} mm outside"));
        }
        for ((other_x, other_y), other) in &circles[..index] {
            let apart = ((x - other_x) * (x - other_x) + (y - other_y) * (y - other_y)).sqrt();
            let overlap = (*diameter + *other) / 2.0 - apart;
            if overlap.is_nan() || overlap > slack {
                return Some(format!("cable {index} overlaps another by {overlap} mm"));
            }
        }
    }
    None
}

/// Each cable as diameter and centre, sorted: the picture without the numbers on it.
fn picture(diameters: &[f64], packing: &Packing) -> Vec<[u64; 3]> {
    let bits = |((x, y), d): (&(f64, f64), &f64)| [d.to_bits(), x.to_bits(), y.to_bits()];
    let mut picture: Vec<_> = packing.centres.iter().zip(diameters).map(bits).collect();
    picture.sort_unstable();
    picture
}

fn bundle(most: usize) -> impl Strategy<Value = Vec<f64>> {
    let cable = prop_oneof![
        4 => (40_u32..100).prop_map(|tenths| f64::from(tenths) / 10.0),
        1 => 0.01..60.0,
    ];
    prop::collection::vec(cable, 1..=most)
}

#[test]
fn the_checker_sees_an_overlap_and_a_protrusion() {
    let packing = Packing {
        radius: 2.0,
        centres: vec![(-1.0, 0.0), (0.9, 0.0)],
    };
    assert!(fault(&[2.0, 2.0], &packing, 1e-9).is_some_and(|fault| fault.contains("overlaps")));
    let packing = Packing {
        radius: 2.0,
        centres: vec![(-1.1, 0.0), (1.0, 0.0)],
    };
    assert!(fault(&[2.0, 2.0], &packing, 1e-9).is_some_and(|fault| fault.contains("outside")));
}

#[test]
fn two_hundred_cables_pack_without_overlap() {
    let diameters: Vec<f64> = (0..200)
        .map(|index| 4.6 + f64::from(index % 7) * 0.8)
        .collect();
    let packing = pack(&diameters, QUICK).unwrap();
    assert_eq!(fault(&diameters, &packing, 1e-9), None);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn no_cable_overlaps_and_all_are_inside(diameters in bundle(24)) {
        let packing = pack(&diameters, QUICK).unwrap();
        prop_assert_eq!(fault(&diameters, &packing, 1e-9), None);
        prop_assert!(packing.diameter() >= lower_bound(&diameters).unwrap() * (1.0 - 1e-9));
    }

    #[test]
    fn sizes_of_any_scale_pack(diameters in prop::collection::vec(1e-6..1e6_f64, 1..12)) {
        let packing = pack(&diameters, QUICK).unwrap();
        prop_assert_eq!(fault(&diameters, &packing, 1e-9 * packing.radius), None);
    }

    #[test]
    fn another_order_gives_the_same_picture(
        (diameters, shuffled) in bundle(14).prop_flat_map(|one| (Just(one.clone()), Just(one).prop_shuffle()))
    ) {
        let one = pack(&diameters, QUICK).unwrap();
        let other = pack(&shuffled, QUICK).unwrap();
        prop_assert_eq!(one.radius, other.radius);
        prop_assert_eq!(picture(&diameters, &one), picture(&shuffled, &other));
    }

    #[test]
    fn inches_and_millimetres_give_the_same_picture(diameters in bundle(14)) {
        let inches: Vec<f64> = diameters.iter().map(|diameter| diameter / 25.4).collect();
        let one = pack(&diameters, QUICK).unwrap();
        let other = pack(&inches, QUICK).unwrap();
        prop_assert!((one.radius / (25.4 * other.radius) - 1.0).abs() < 1e-8);
        for (a, b) in one.centres.iter().zip(&other.centres) {
            prop_assert!((a.0 - 25.4 * b.0).abs() < 1e-7 * one.radius);
            prop_assert!((a.1 - 25.4 * b.1).abs() < 1e-7 * one.radius);
        }
    }

    #[test]
    fn the_bore_found_fits_and_the_bound_does_not(diameters in bundle(10)) {
        let found = pack(&diameters, QUICK).unwrap().diameter();
        prop_assert!(fits(&diameters, 1.02 * found, QUICK).unwrap());
        let bound = lower_bound(&diameters).unwrap();
        prop_assert!(!fits(&diameters, 0.999 * bound, QUICK).unwrap());
    }
}
