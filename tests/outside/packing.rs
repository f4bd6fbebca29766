//! Packings against published radii: near them, and never below.
//!
//! The rows and their sources stand in `packing.json`. A radius below a published one would mean
//! that circles overlap, so the arrangement is measured again here, apart from the search.

#![expect(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

use borewright_core::shape::packing::{Effort, Packing, pack};
use serde_json::Value;

fn file() -> Value {
    serde_json::from_str(include_str!("packing.json")).unwrap()
}

fn rows(name: &str) -> Vec<(usize, f64, Value)> {
    let file = file();
    let row = |row: &Value| {
        let count = row["count"].as_u64().unwrap() as usize;
        (count, row["radius"].as_f64().unwrap(), row.clone())
    };
    file[name].as_array().unwrap().iter().map(row).collect()
}

/// Largest overlap or protrusion, in the unit of the diameters.
fn worst_fault(diameters: &[f64], packing: &Packing) -> f64 {
    let mut worst = f64::NEG_INFINITY;
    for (index, (x, y)) in packing.centres.iter().enumerate() {
        worst = worst.max(x.hypot(*y) + diameters[index] / 2.0 - packing.radius);
        for (other, (other_x, other_y)) in packing.centres.iter().enumerate().take(index) {
            let apart = (x - other_x).hypot(y - other_y);
            worst = worst.max((diameters[index] + diameters[other]) / 2.0 - apart);
        }
    }
    worst
}

/// Packs, checks the arrangement, and gives the error above the published radius.
fn error_above(diameters: &[f64], published: f64, effort: Effort) -> f64 {
    let packing = pack(diameters, effort).unwrap();
    assert!(worst_fault(diameters, &packing) <= 1e-9);
    packing.radius / published - 1.0
}

#[test]
fn equal_circles_reach_the_best_known_radius() {
    for (count, radius, row) in rows("equal") {
        let error = error_above(&vec![2.0; count], radius, Effort::LIVE);
        assert!(error <= 1e-4, "{count} circles: {error:e} above");
        assert!(
            error >= -1e-9,
            "{count} circles: {error:e} below what is possible"
        );
        let published = row["published"].as_f64().unwrap();
        assert!(
            (0.0..1e-3).contains(&(radius - published)),
            "{count}: {radius} {published}"
        );
    }
}

#[test]
fn counted_circles_come_near_the_best_known_radius() {
    for (count, radius, _) in rows("counted") {
        let diameters: Vec<f64> = (1..=count).map(|radius| 2.0 * radius as f64).collect();
        let error = error_above(&diameters, radius, Effort::CAREFUL);
        let allowed = if count <= 10 { 0.015 } else { 0.045 };
        assert!(error <= allowed, "1 to {count}: {error}");
        // The published radii have eight decimals.
        assert!(
            error >= -1e-8 / radius,
            "1 to {count}: {error:e} below the best known"
        );
    }
}

#[test]
fn mixed_cables_come_near_a_long_run() {
    for row in file()["mixed"].as_array().unwrap() {
        let diameters = row["diameters"].as_array().unwrap();
        let diameters: Vec<f64> = diameters.iter().map(|d| d.as_f64().unwrap()).collect();
        let error = error_above(&diameters, row["radius"].as_f64().unwrap(), Effort::CAREFUL);
        let allowed = if diameters.len() <= 16 { 0.015 } else { 0.025 };
        assert!(error <= allowed, "{diameters:?}: {error}");
    }
}

/// The same bits on every machine: these were found on x86-64 and by the same code as WebAssembly.
#[test]
fn a_packing_is_the_same_everywhere() {
    let packing = pack(&[9.5, 4.6, 7.1, 6.1, 6.1, 5.2, 5.8, 8.0], Effort::LIVE).unwrap();
    assert_eq!(
        format!("{:016x}", packing.radius.to_bits()),
        "40259f0989664636"
    );
}
