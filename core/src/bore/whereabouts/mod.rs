//! Where a bore or a straight row of bores is: two coordinates from what stands there when it is
//! drilled. Members are counted, distances run from a face; centre lines, which exist on paper only,
//! are no datum. Derived from the framing and the drawn walls alone; moves nothing.

mod joists;
#[cfg(test)]
mod laws;
mod uprights;
mod words;

pub use joists::count_words;

use serde::{Deserialize, Serialize};

use super::Bore;
use crate::framing::{Framing, StudKind};
use crate::plan::{ClosetPlace, Plan, WallId};
use crate::route::{Member, MoveKind, Ways};

/// Where one bore or a straight row of them is.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Whereabouts {
    /// Where along its wall or among its joists.
    pub along: Along,
    /// The other coordinate.
    pub across: Across,
}

/// The first coordinate. Studs go by their number among a wall's full-height studs, counted from its
/// first end, as elevations number them.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Along {
    /// Through uprights that have numbers, or some of which have.
    Studs {
        /// The wall.
        wall: WallId,
        /// The numbers, rising.
        numbers: Vec<u32>,
        /// Every upright bored, in order from the wall's first end, jacks and cripples included.
        kinds: Vec<StudKind>,
    },
    /// Through uprights that have none: jacks and cripples.
    Short {
        /// The wall.
        wall: WallId,
        /// The numbered stud before them; 0 for the end of the plates.
        past: u32,
        /// Which uprights after that one, as they stand at the height of the bore.
        nth: (u32, u32),
        /// What they are.
        kinds: Vec<StudKind>,
    },
    /// In a wall beside an upright.
    Past(Past),
    /// Round a corner, or into a tee: from a bay of one wall into a bay of another, each after the
    /// stud it comes after.
    Corner {
        /// The bay it is drilled from.
        from: Past,
        /// The bay it comes out in.
        into: Past,
    },
    /// Through joists of a space.
    Joists {
        /// Index into [`Framing::spaces`].
        space: usize,
        /// Which of them.
        which: Which,
    },
}

/// A place in a wall: this far past the far face of a stud.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Past {
    /// The wall.
    pub wall: WallId,
    /// The stud's number; 0 for the end of the plates.
    pub stud: u32,
    /// From its far face to the middle of the bore, millimetres; below zero only where that is before
    /// the end of the plates.
    pub distance: f64,
}

/// Which joists.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Which {
    /// Counted from this wall's outside, with which the first is flush.
    Counted {
        /// The wall.
        from: WallId,
        /// The numbers, rising.
        numbers: Vec<u32>,
    },
    /// Where no wall is flush with a joist: this far from a face to the middle of the nearest and of
    /// the farthest, millimetres.
    Off {
        /// The face.
        from: Face,
        /// To the nearest.
        nearest: f64,
        /// To the farthest.
        farthest: f64,
    },
}

/// The second coordinate.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Across {
    /// Above the underside of the wall's bottom plate, which is the finished floor here, millimetres.
    Height(f64),
    /// In the middle of the plates' width.
    Centred,
    /// Along the joist: this far in from a face, millimetres.
    In {
        /// The face.
        from: Face,
        /// How far: at the first joist of a row, in the order in which they are told.
        distance: f64,
        /// ... and at the last, where the face lies askew to the row. Between the two the row is straight.
        last: Option<f64>,
    },
}

/// What a tape is held to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Face {
    /// The outside of an outside wall.
    Outside(WallId),
    /// The near face of another wall.
    Near(WallId),
    /// The far face of a wall, carried on beyond its end.
    Line(WallId),
    /// An end of a wall that lies along the joists, measured along it.
    End(WallId),
}

impl Whereabouts {
    /// Where the bores of a row are, which go through members of one kind one after the other.
    pub(super) fn of(plan: &Plan, framing: &Framing, ways: &Ways, row: &[&Bore]) -> Option<Self> {
        let bore = row.first()?;
        let crossing = ways.crossings.get(bore.crossing)?;
        let wall = crossing.wall.and_then(|wall| framing.wall(wall));
        let height = Across::Height(bore.height);
        Some(match (&crossing.member, wall) {
            (Member::Joist { space } | Member::Web { space }, _) => {
                joists::of(plan, framing, ways, *space, row)?
            }
            (Member::Studs(_), Some(wall)) => Self {
                along: uprights::of(wall, ways, row),
                across: height,
            },
            (Member::Corner { to, .. }, Some(wall)) => {
                let (from, into) = turn(framing, ways, bore.crossing, *to)
                    .unwrap_or_else(|| (wall.past(bore.offset), wall.past(bore.offset)));
                Self {
                    along: Along::Corner { from, into },
                    across: height,
                }
            }
            (member, Some(wall)) => Self {
                along: Along::Past(wall.past(bore.offset)),
                across: match member {
                    Member::TopPlates(_) | Member::BottomPlates(_) => Across::Centred,
                    _ => height,
                },
            },
            (_, None) => return None,
        })
    }
}

/// The bays on both sides of a corner, the drilled wall's first, by a move that goes through it.
pub(super) fn turn(
    framing: &Framing,
    ways: &Ways,
    crossing: usize,
    to: WallId,
) -> Option<(Past, Past)> {
    let moves = ways.ways.iter().flat_map(|way| &way.moves);
    let step = moves.into_iter().find(|m| m.crossing == Some(crossing))?;
    let MoveKind::IntoWall { from, to: other } = step.kind else {
        return None;
    };
    debug_assert_eq!(other, to);
    let (from, into) = (framing.wall(from)?, framing.wall(to)?);
    // A move may go either way; the place in the wall that is drilled from lies on its line, between
    // its ends, and the other one beyond them or beside it.
    let off = |at| from.line.distance_to(at) - into.line.distance_to(at);
    let (mine, theirs) = match off(step.from.at) <= off(step.to.at) {
        true => (step.from.at, step.to.at),
        false => (step.to.at, step.from.at),
    };
    let past = |frame: &crate::framing::WallFraming, at| frame.past(frame.line.offset_of(at));
    Some((past(from, mine), past(into, theirs)))
}

/// Where the panel hangs along its wall; `None` where it hangs on none.
pub fn of_closet(plan: &Plan, framing: &Framing) -> Option<Along> {
    let ClosetPlace::Wall { wall, offset, .. } = plan.closet?.place else {
        return None;
    };
    Some(Along::Past(framing.wall(wall)?.past(offset.f64())))
}
