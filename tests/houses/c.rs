//! House C counted by hand, as someone with a tape does on the drawing.
//!
//! Heights above the ground floor, millimetres: ceiling 9 ft = 2743; open-web trusses of 16 in and
//! 3/4 in of floor on them = 425, so the upper floor is at 3168, its ceiling of 8 ft at 5607 and the top
//! of the roof trusses' bottom chords 89 over that, at 5695. In the floor the cable lies at half its
//! depth: 2946. The panel is at 1524 on the bearing wall, 11430 from its west end and 4877 from the
//! north wall, and entered from above.
//!
//! - From the ground floor: up to 2946, down 1422 to the panel; a ceiling, at 2743, is 203 below the
//!   cable, a camera 3 in under the top plates, at 2591, is 355 below it.
//! - From the upper floor: down 222 and the height of the box to 2946, then the same 1422. The upper
//!   ceiling and the rear camera go by the attic, and down from there 5695 - 1524 = 4171.
//!
//! Open webs let cable go straight in both directions, so nothing goes out of its way but D9: it is
//! under a window and goes out past its jack and king studs, 502 west, and back. T38 goes through two
//! studs of its wall, on its way, to the hole that A44 has in the bottom plate.

use crate::{Counted, Stretches, agrees};

const DROPS: [Stretches; 46] = [
    ("D1", 2, 11430, 4267, 2540, 1422, 0),
    ("D2", 2, 11430, 915, 2540, 1422, 0),
    ("D3", 2, 8230, 4877, 2540, 1422, 0),
    ("D4", 2, 5486, 4877, 2540, 1422, 0),
    ("D5", 2, 1676, 1829, 2540, 1422, 0),
    ("D6", 2, 1372, 0, 2540, 1422, 0),
    ("D7", 2, 11430, 609, 2540, 1422, 0),
    ("D8", 2, 8077, 609, 2540, 1422, 0),
    ("D9", 2, 9906, 4267, 2540, 1422, 1004),
    ("D10", 2, 11430, 3353, 2540, 1422, 0),
    ("D11", 2, 5639, 609, 2540, 1422, 0),
    ("D12", 2, 5639, 3810, 2540, 1422, 0),
    ("D13", 2, 1676, 1524, 2540, 1422, 0),
    ("D14", 2, 2438, 4877, 2540, 1422, 0),
    ("D15", 2, 5182, 0, 2540, 1422, 0),
    ("T16", 2, 7925, 0, 1422, 1422, 0),
    ("T17", 6, 1676, 3810, 1422, 1422, 0),
    ("A18", 1, 6248, 1829, 203, 1422, 0),
    ("A19", 1, 3810, 2438, 203, 1422, 0),
    ("C20", 1, 11230, 4877, 355, 1422, 0),
    ("C21", 1, 762, 4677, 355, 1422, 0),
    ("C22", 1, 762, 4067, 355, 1422, 0),
    ("C23", 1, 11230, 4267, 355, 1422, 0),
    ("B24", 1, 6187, 4267, 1803, 1422, 0),
    ("B25", 1, 152, 4267, 1803, 1422, 0),
    ("D26", 2, 11430, 4267, 0, 2050, 0),
    ("D27", 2, 7772, 2439, 0, 2050, 0),
    ("D28", 2, 5944, 3658, 0, 2050, 0),
    ("D29", 2, 2591, 1219, 0, 2050, 0),
    ("D30", 2, 2591, 3658, 0, 2050, 0),
    ("D31", 2, 762, 915, 0, 2050, 0),
    ("D32", 2, 11430, 609, 0, 2050, 0),
    ("D33", 2, 8077, 1829, 0, 2050, 0),
    ("D34", 2, 10516, 4267, 0, 2050, 0),
    ("D35", 2, 5639, 3657, 0, 2050, 0),
    ("D36", 2, 1676, 1829, 0, 2050, 0),
    ("D37", 2, 2591, 4267, 0, 2050, 0),
    ("T38", 2, 9906, 0, 0, 3168, 0),
    ("T39", 2, 3505, 0, 0, 3168, 0),
    ("T40", 2, 152, 0, 0, 3168, 0),
    ("T41", 2, 11430, 3198, 0, 3168, 0),
    ("T42", 2, 3505, 1219, 0, 3168, 0),
    ("A43", 1, 5029, 609, 89, 4171, 0),
    ("A44", 1, 8992, 0, 0, 3778, 0),
    ("D45", 1, 1372, 1219, 0, 2050, 0),
    ("C46", 1, 7163, 4267, 0, 4387, 0),
];

#[test]
fn every_cable_of_house_c_is_as_long_as_counted_by_hand() {
    agrees("house-c", DROPS.into_iter().map(Counted::by_stretches));
}
