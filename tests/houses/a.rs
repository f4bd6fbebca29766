//! House A counted by hand.

use crate::{Counted, agrees};

/// House A, one storey on a slab under trusses: drop, cables, and the way as a person with a tape
/// counts it on the drawing, in millimetres: left or right to the closet, up or down the sheet to
/// the closet, and the rise from the box to the top of the trusses' bottom chords (the ceiling at
/// 2743 and a dressed 2x4 of 89 over it). From there it is 2832 - 1524 = 1308 down to the panel.
/// Boxes under a window go sideways round its jack and king studs; that is in the tolerance.
const DROPS: [(&str, usize, i32, i32, i32); 24] = [
    ("D1", 2, 9750, 577, 2426),
    ("D2", 1, 6092, 4177, 2426),
    ("D3", 2, 6092, 1577, 2426),
    ("D4", 1, 2435, 3977, 2426),
    ("D5", 2, 2435, 1277, 2426),
    ("T6", 2, 1223, 3377, 1308),
    ("D7", 2, 1223, 977, 2426),
    ("D8", 2, 9750, 4423, 2426),
    ("D9", 1, 6702, 2723, 2426),
    ("D10", 2, 3654, 4823, 2426),
    ("T11", 2, 3654, 3123, 1308),
    ("D12", 2, 1223, 3723, 2426),
    ("D13", 1, 1223, 3677, 2426),
    ("D14", 2, 6709, 1677, 2426),
    ("T15", 2, 3950, 609, 1308),
    ("D16", 1, 1223, 4523, 2426),
    ("D17", 1, 6709, 4721, 2426),
    ("A18", 1, 4550, 603, 89),
    ("A19", 1, 3950, 2177, 89),
    ("C20", 1, 9550, 4877, 89),
    ("C21", 1, 6509, 4877, 89),
    ("C22", 1, 6509, 5486, 89),
    ("C23", 1, 9750, 5286, 89),
    ("B24", 1, 153, 5486, 1689),
];
const DOWN_TO_THE_PANEL: i32 = 2832 - 1524;

#[test]
fn every_cable_of_house_a_is_as_long_as_counted_by_hand() {
    let count = |(label, cables, across, along, rise): (_, _, i32, i32, i32)| Counted {
        label,
        cables,
        length: across + along + rise + DOWN_TO_THE_PANEL,
    };
    agrees("house-a", DROPS.into_iter().map(count));
}
