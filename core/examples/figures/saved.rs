//! The plans that figures are taken of.

use borewright_core::file;
use borewright_core::plan::Plan;

use crate::crowded::crowded;

/// The demo and the three houses of the tests, with their names.
pub fn plans() -> Vec<(&'static str, Plan)> {
    let read = |(name, bytes): (_, &[u8])| (name, file::read(bytes).unwrap().plan);
    let all: [(_, &[u8]); 4] = [
        ("demo", include_bytes!("../../../static/demo/demo.json")),
        (
            "house A",
            include_bytes!("../../../tests/plans/house-a.json"),
        ),
        (
            "house B",
            include_bytes!("../../../tests/plans/house-b.json"),
        ),
        (
            "house C",
            include_bytes!("../../../tests/plans/house-c.json"),
        ),
    ];
    all.map(read).into()
}

/// The demo of two storeys, with its name.
pub fn two_storeys() -> (&'static str, Plan) {
    let bytes = include_bytes!("../../../static/demo/two-storeys.json");
    ("two storeys", file::read(bytes).unwrap().plan)
}

/// House C with outlets along its walls, up to 60 drops.
pub fn sixty_drops() -> Plan {
    let bytes = include_bytes!("../../../tests/plans/house-c.json");
    crowded(file::read(bytes).unwrap().plan, 60)
}
