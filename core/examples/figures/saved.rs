//! The saved plans that figures are taken of.

use borewright_core::file;
use borewright_core::plan::Plan;

/// The demo and the three houses of the tests, with their names.
pub fn plans() -> Vec<(&'static str, Plan)> {
    let top = concat!(env!("CARGO_MANIFEST_DIR"), "/..");
    let read = |(name, path)| {
        let bytes = std::fs::read(format!("{top}/{path}")).unwrap();
        (name, file::read(&bytes).unwrap().plan)
    };
    let all = [
        ("demo", "static/demo/demo.json"),
        ("house A", "tests/plans/house-a.json"),
        ("house B", "tests/plans/house-b.json"),
        ("house C", "tests/plans/house-c.json"),
    ];
    all.map(read).into()
}
