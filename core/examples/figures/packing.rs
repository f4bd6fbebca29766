//! Packing: how far above the best-known bore, and how long it takes.

use std::hint::black_box;

use borewright_core::shape::packing::{Effort, Remembered, pack};
use serde_json::Value;

use crate::figure;

struct Case {
    diameters: Vec<f64>,
    best: f64,
}

/// Prints the section.
pub fn print() {
    let file: Value =
        serde_json::from_str(include_str!("../../../tests/outside/packing.json")).unwrap();
    let equal = cases(&file["equal"], |row| vec![2.0; count(row)]);
    let counted = cases(&file["counted"], |row| {
        (1..=count(row)).map(|r| 2.0 * r as f64).collect()
    });
    let mixed = cases(&file["mixed"], diameters);
    print_published(&equal, &counted);
    print_mixed(&mixed);
    print_times(&mixed);
}

fn print_published(equal: &[Case], counted: &[Case]) {
    let published = "worst above the published radius";
    worst(
        ("equal circles 1-20, live", "0.01", published),
        equal,
        1..=20,
        Effort::LIVE,
    );
    worst(
        ("radii 1 to n, n 5-10, live", "-", published),
        counted,
        5..=10,
        Effort::LIVE,
    );
    worst(
        ("radii 1 to n, n 11-24, live", "-", published),
        counted,
        11..=24,
        Effort::LIVE,
    );
    worst(
        ("radii 1 to n, n 5-10, careful", "1.5", published),
        counted,
        5..=10,
        Effort::CAREFUL,
    );
    worst(
        ("radii 1 to n, n 11-24, careful", "4.5", published),
        counted,
        11..=24,
        Effort::CAREFUL,
    );
    worst(
        ("radii 1 to n, n 5-24, long", "2", published),
        counted,
        5..=24,
        Effort::LONG,
    );
}

fn print_mixed(mixed: &[Case]) {
    let long_run = "worst above own long run of 8 s a bundle";
    worst(
        ("mixed cable 6-16, live", "-", long_run),
        mixed,
        1..=16,
        Effort::LIVE,
    );
    worst(
        ("mixed cable 17-24, live", "-", long_run),
        mixed,
        17..=24,
        Effort::LIVE,
    );
    worst(
        ("mixed cable 6-16, careful", "1.5", long_run),
        mixed,
        1..=16,
        Effort::CAREFUL,
    );
    worst(
        ("mixed cable 17-24, careful", "2.5", long_run),
        mixed,
        17..=24,
        Effort::CAREFUL,
    );
    worst(
        ("mixed cable 6-24, long", "-", long_run),
        mixed,
        1..=24,
        Effort::LONG,
    );
}

/// Prints the worst error of the cases with so many cables; goal in per cent, and against what.
fn worst(
    (name, goal, against): (&str, &str, &str),
    cases: &[Case],
    counts: std::ops::RangeInclusive<usize>,
    effort: Effort,
) {
    let chosen = cases
        .iter()
        .filter(|case| counts.contains(&case.diameters.len()));
    let errors: Vec<f64> = chosen
        .map(|case| pack(&case.diameters, effort).unwrap().radius / case.best - 1.0)
        .collect();
    let worst = errors.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let how = format!("{against}, {} bundles", errors.len());
    figure::print(&format!("packing {name}"), 100.0 * worst, "%", goal, &how);
}

fn print_times(mixed: &[Case]) {
    let Some(case) = mixed.iter().max_by_key(|case| case.diameters.len()) else {
        return;
    };
    let how = format!("median of 9, {} mixed cables", case.diameters.len());
    let efforts = [
        ("live", Effort::LIVE, "5"),
        ("careful", Effort::CAREFUL, "20"),
        ("long", Effort::LONG, "100"),
    ];
    for (name, effort, goal) in efforts {
        figure::print_time(&format!("packing {name}"), goal, &how, || {
            black_box(pack(black_box(&case.diameters), effort).unwrap());
        });
    }
    let mut remembered = Remembered::default();
    remembered.pack(&case.diameters, Effort::LIVE).unwrap();
    figure::print_time("packing remembered", "-", &how, || {
        black_box(
            remembered
                .pack(black_box(&case.diameters), Effort::LIVE)
                .unwrap(),
        );
    });
}

fn cases(rows: &Value, diameters: impl Fn(&Value) -> Vec<f64>) -> Vec<Case> {
    let case = |row: &Value| Case {
        diameters: diameters(row),
        best: row["radius"].as_f64().unwrap(),
    };
    rows.as_array().unwrap().iter().map(case).collect()
}

fn count(row: &Value) -> usize {
    row["count"].as_u64().unwrap() as usize
}

fn diameters(row: &Value) -> Vec<f64> {
    row["diameters"]
        .as_array()
        .unwrap()
        .iter()
        .map(|d| d.as_f64().unwrap())
        .collect()
}
