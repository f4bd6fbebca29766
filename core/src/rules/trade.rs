//! Sizes of the trade that are the same under every book and that nobody edits: how a house is framed, what
//! is kept free around a hole, how large a box is. Lengths are millimetres where nothing else is said.
//!
//! Each says where it is from. Those that only say "common practice" were read nowhere; the builder's plans,
//! the engineer and the maker's sheet govern.

use crate::units::Size;

const INCH: f64 = 25.4;

/// What a finding cites where nothing was read.
pub const PRACTICE: &str = "common practice, no source";

/// Thickness of the subfloor on joists: 3/4 in. Common practice, no source.
pub const SUBFLOOR: f64 = 19.05;
/// Depth of a roof truss's bottom chord: a dressed 2x4. Common practice, no source.
pub const CHORD: f64 = 88.9;
/// How wide a sawn joist is where it lies on the plates: a dressed 2x board. Common practice, no source.
pub const SAWN_JOIST: Size = Size::inches(1.5);
/// How wide the flange of an I-joist is. Common practice, no source.
pub const I_JOIST: Size = Size::inches(2.5);
/// How wide the chord of an open-web truss is, laid flat. Common practice, no source.
pub const OPEN_WEB: Size = Size::inches(3.5);
/// No roof of a house rises more than this in 12 of run. Common practice, no source.
pub const STEEPEST_ROOF: u8 = 24;
/// Eaves that reach out less than this have no soffit a hole comes out of: 6 in, the ledger and the trim
/// left out. Common practice, no source.
pub const SOFFIT: f64 = 152.4;
/// From the face of the wall to the middle of a hole in its soffit: clear of the ledger and of trim. Common
/// practice, no source.
pub const SOFFIT_HOLE: Size = Size::inches(4.0);
/// Bays are blocked no farther apart than this up a wall: 10 ft. [`FIREBLOCK_SOURCE`] says where that is from.
pub const FIREBLOCK: f64 = 3_048.0;
/// Where [`FIREBLOCK`] is from.
pub const FIREBLOCK_SOURCE: &str = "IRC, R302.11 item 1, from memory; sealed as item 4 asks";
/// Where it is from that blocking stands on what bears joists.
pub const BLOCKING_SOURCE: &str =
    "IRC 2018, R502.7, from memory: joists are held by full-depth blocking at each support";

/// Where it is from that joists are doubled under a bearing wall that runs along them.
pub const DOUBLED_SOURCE: &str =
    "IRC, R502.4, from memory: joists under parallel bearing partitions are doubled or as strong";

/// A drawn opening this little over a nominal width is of that width: half an inch. Common practice, no
/// source.
pub const NOMINAL: f64 = 12.7;
/// Openings wider than so many feet get two jack studs a side. Common practice, no source.
pub const ONE_JACK_FEET: f64 = 6.0;
/// Headers: 2x6 over openings of up to 4 ft, 2x8 to 6 ft, 2x10 to 8 ft, as feet and depth; [`DEEPEST_HEADER`]
/// beyond. Common practice, no source: the builder's plans or the engineer govern.
pub const HEADERS: [(f64, f64); 3] = [(4.0, 5.5 * INCH), (6.0, 7.25 * INCH), (8.0, 9.25 * INCH)];
/// The header over an opening wider than all of [`HEADERS`]: 2x12. Common practice, no source.
pub const DEEPEST_HEADER: f64 = 11.25 * INCH;

/// A bore keeps this far from the ends of an upright: 3 in. Common practice, no source.
pub const FROM_ENDS: f64 = 75.0;
/// Wood between a plate's bore and the stud beside it, for the stud's nails: half an inch. Common practice,
/// no source.
pub const NAILS: f64 = 12.7;
/// Wood or air kept between the middle of a hole through an outside wall and what lies over and under the
/// bay: 1 in. Common practice, no source.
pub const CLEAR_OF_BAY: f64 = 25.4;
/// How far under the plates a hole through an outside wall is put that would else lie in them: 3 in, which
/// leaves a hand's room to pull. Common practice, no source.
pub const UNDER_PLATES: f64 = 76.2;
/// Room for a finger between a joist and a bore beside it, to get hold of the cable: 3/4 in. Common practice,
/// no source.
pub const FINGER: f64 = 19.05;
/// A bit leans this far past a joist: 3/8 in. Common practice, no source.
pub const BIT_LEANS: f64 = 9.525;
/// The hole an electrician bores for one cable: 3/4 in. Common practice, no source.
pub const POWER_HOLE: f64 = 19.05;
/// A gap between uprights narrower than this is no bay: no hand and no cable goes in. Common practice, no
/// source.
pub const NARROWEST_BAY: f64 = 40.0;
/// Space under a sill or over a header lower than this is no bay. Common practice, no source.
pub const LOWEST_BAY: f64 = 100.0;
/// A lane keeps this far under a sill and away from plates. Common practice, no source.
pub const UNDER_SILL: f64 = 75.0;
/// A lane is not laid over this height without a ladder. Common practice, no source.
pub const REACH: f64 = 1_800.0;
/// Sine of the angle up to which two cables run along one another: 15 degrees. Common practice, no source:
/// power is crossed squarely.
pub const PARALLEL: f64 = 0.26;

/// A box of one gang: width and height. Common practice, no source.
pub const GANG: (f64, f64) = (54.0, 95.0);
/// What each further gang adds to the width. Common practice, no source.
pub const NEXT_GANG: f64 = 46.0;
/// How deep a bracket is in its wall: it is open, so a connector and the bend of its cable, 1-1/2 in. Common
/// practice, no source.
pub const BRACKET_DEPTH: f64 = 38.1;
/// How deep a box of a trade's usual kind is: 2-3/4 in. Common practice, no source.
pub const BOX_DEPTH: f64 = 69.85;
/// A box whose side is no farther than this from an upright is nailed to it: half an inch. Common practice,
/// no source.
pub const NAILED: f64 = 12.7;

/// Width of a door, of a window and of a cased opening before anybody says more. Common practice, no source.
pub const OPENINGS: [Size; 3] = [Size::inches(32.0), Size::inches(36.0), Size::inches(48.0)];
/// Height of a window's sill before anybody says more. Common practice, no source.
pub const SILL: Size = Size::inches(36.0);
/// Height of an opening's head before anybody says more. Common practice, no source.
pub const HEAD: Size = Size::inches(80.0);

/// Diameter of a Cat 6 cable. A usual size, common practice, no source; the maker's sheet governs.
pub const CAT_6: Size = Size(6.0);
/// Diameter of a Cat 6A cable. A usual size, common practice, no source; the maker's sheet governs.
pub const CAT_6A: Size = Size(7.5);
/// Diameter of an RG-6 cable. A usual size, common practice, no source; the maker's sheet governs.
pub const RG_6: Size = Size(6.9);
/// Diameter of a Cat 6 cable for outdoors. A usual size, common practice, no source; the maker's sheet
/// governs.
pub const CAT_6_OUTDOOR: Size = Size(6.5);
/// Where it is from how a job is pulled: written nowhere.
pub const PULLING_SOURCE: &str =
    "common practice: one length from one reel, one reel for each cable of a pull";
/// Length of a full reel, feet. Common practice, no source.
pub const REEL_FEET: f64 = 1_000.0;

/// What is kept free on both sides of a service panel: 30 in, the width of the working space in front of it.
/// [`WORKING_SOURCE`] says where that is from.
pub const WORKING: f64 = 762.0;
/// Where [`WORKING`] is from.
pub const WORKING_SOURCE: &str = "common practice, no source (the NEC asks for working space before a panel, 110.26(A), from memory)";
/// A service panel reaches so far up and down from its middle: 15 in. Common practice, no source.
pub const PANEL: f64 = 381.0;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn headers_grow_with_their_openings() {
        let rising = |pair: &[(f64, f64)]| pair[0].0 < pair[1].0 && pair[0].1 < pair[1].1;
        assert!(HEADERS.windows(2).all(rising));
        assert!(HEADERS.iter().all(|(_, depth)| *depth < DEEPEST_HEADER));
    }
}
