//! House B counted by hand, as someone with a tape does on the drawing once the crew has said where
//! the trunks go.
//!
//! Heights above the basement floor, millimetres: basement ceiling 8 ft = 2438; I-joists 11-7/8 in
//! and 3/4 in of floor on them = 321, so the ground floor is at 2759, its ceiling of 9 ft at 5502,
//! the upper floor at 5823, its ceiling of 8 ft at 8261 and the top of the trusses' bottom chords 89
//! over that, at 8350. In a floor the cable lies at half the joist: 2589 and 5653. The panel is at
//! 1524 on the bearing wall, 9601 from its west end and 5486 from the north wall.
//!
//! - Out of the basement: up to 2589, down 1065 to the panel.
//! - From the ground floor: down 170 and the height of the box to 2589, then the same 1065. A camera
//!   under the ground floor's top plates is 3 in under them, 2591 over its floor: in at 5350 and up 303
//!   into the floor above; down from there it is 5653 - 1524 = 4129. All but the north-east one go
//!   down in their bay instead, 5350 - 1524 = 3826 in all.
//! - From the upper floor: down 170 and the height of the box to 5653, then 4129. The western rooms go
//!   up into the attic instead, where cable lies across the trusses without a bore, and down from
//!   there 8350 - 1524 = 6826.
//!
//! The trunk through the webs of both floors runs 304 north of the bearing wall. Who comes along the
//! wall or from the south goes out to it and back: 608 aside, and so does D18. Over the basement it is two
//! holes a web, as one would not hold it. The doorbell's bay has the stairs under
//! it: it goes round into the wall that meets it there and down on its other side, 522 more.
//! Boxes under a window go sideways round its jack and king studs; that is in the tolerance.

use crate::{Counted, Stretches, agrees};

const DROPS: [Stretches; 38] = [
    ("D1", 2, 2895, 4267, 2183, 1065, 0),
    ("D2", 2, 8687, 0, 2183, 1065, 1218),
    ("T3", 2, 4419, 0, 1065, 1065, 608),
    ("D4", 1, 8382, 0, 2183, 1065, 1218),
    ("A5", 1, 6248, 2438, 151, 1065, 0),
    ("D6", 2, 9601, 4267, 0, 1641, 608),
    ("D7", 2, 5943, 4572, 0, 1641, 608),
    ("D8", 2, 1676, 561, 0, 1641, 0),
    ("D9", 2, 1676, 4267, 0, 1641, 0),
    ("D10", 2, 1372, 1219, 0, 1641, 0),
    ("D11", 2, 457, 0, 0, 1641, 0),
    ("D12", 2, 9601, 915, 0, 1641, 608),
    ("D13", 2, 5334, 5487, 0, 1641, 608),
    ("D14", 2, 3505, 4722, 0, 1641, 608),
    ("T15", 2, 8839, 0, 0, 2759, 1218),
    ("T16", 2, 3505, 0, 0, 2759, 608),
    ("A17", 1, 3810, 1828, 151, 4129, 0),
    ("D18", 1, 1371, 4621, 0, 1641, 608),
    ("C19", 1, 9401, 5486, 0, 3826, 0),
    ("C20", 1, 1372, 5286, 303, 4129, 0),
    ("C21", 1, 1372, 5287, 0, 3826, 608),
    ("C22", 1, 9401, 5487, 0, 3826, 608),
    ("B23", 1, 3444, 5487, 0, 2378, 1130),
    ("D24", 2, 9601, 914, 2121, 6826, 0),
    ("D25", 2, 5639, 4267, 2121, 6826, 0),
    ("D26", 2, 3200, 2743, 0, 4705, 0),
    ("D27", 2, 1372, 914, 0, 4705, 0),
    ("D28", 2, 1372, 4572, 0, 4705, 0),
    ("D29", 2, 9601, 1829, 2121, 6826, 0),
    ("D30", 2, 9601, 4572, 2121, 6826, 0),
    ("D31", 2, 4115, 2134, 0, 4705, 608),
    ("D32", 2, 3810, 5487, 0, 4705, 608),
    ("T33", 2, 8991, 0, 1003, 6826, 0),
    ("T34", 2, 457, 0, 0, 5823, 0),
    ("T35", 2, 7772, 1220, 1003, 6826, 0),
    ("D36", 1, 1371, 1679, 0, 4705, 0),
    ("A37", 1, 5943, 610, 89, 6826, 0),
    ("A38", 1, 3810, 0, 0, 6433, 608),
];

#[test]
fn every_cable_of_house_b_is_as_long_as_counted_by_hand() {
    agrees("house-b", DROPS.into_iter().map(Counted::by_stretches));
}
