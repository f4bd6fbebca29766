//! The part of a level that the one above it does not stand on: no joists lie over it.

use super::{Outline, encloses};
use crate::plan::{KeepOut, KeepOutShape, Level};
use crate::shape::Pos;

/// Looked at this far apart, millimetres.
pub(crate) const STEP: f64 = 400.0;

/// The most places looked at from one side to the other; a larger level is looked at more coarsely.
const MOST: f64 = 100.0;

/// So many places are a part of a level, about 1 m²; fewer come of how the walls were drawn.
const PART: usize = 6;

/// A place near the middle of the part of a level that the next one does not stand on and that is not kept
/// clear overhead; `None` where there is no such part.
pub(super) fn bare(level: &Level, outline: &Outline, above: &Outline) -> Option<Pos> {
    if !above.closed {
        return None;
    }
    let places = places(level, outline, above);
    (places.len() >= PART).then(|| most_central(&places))?
}

/// Places inside a level, not inside the one above, and not kept clear overhead.
fn places(level: &Level, outline: &Outline, above: &Outline) -> Vec<Pos> {
    let Some((low, high)) = outline.bounds() else {
        return Vec::new();
    };
    let count = |from: f64, to: f64| ((to - from) / STEP).ceil().clamp(0.0, MOST) as u32;
    let (across, down) = (count(low.x, high.x), count(low.y, high.y));
    let step = Pos::new(
        (high.x - low.x) / f64::from(across.max(1)),
        (high.y - low.y) / f64::from(down.max(1)),
    );
    let clear = kept_clear(level);
    let is_bare = |at: &Pos| {
        outline.contains(*at)
            && !above.contains(*at)
            && !clear.iter().any(|corners| encloses(corners, *at))
    };
    let middle = |place: u32| f64::from(place) + 0.5;
    let row =
        |y: u32| (0..across).map(move |x| low + Pos::new(middle(x) * step.x, middle(y) * step.y));
    (0..down).flat_map(row).filter(is_bare).collect()
}

/// The corners of what is kept clear over the ceiling.
fn kept_clear(level: &Level) -> Vec<Vec<Pos>> {
    let overhead = |keep_out: &&KeepOut| keep_out.top > level.ceiling;
    let corners = |keep_out: &KeepOut| match &keep_out.shape {
        KeepOutShape::Region(corners) => Some(corners.iter().map(|corner| corner.pos()).collect()),
        KeepOutShape::Stretch { .. } => None,
    };
    level
        .keep_outs
        .iter()
        .filter(overhead)
        .filter_map(corners)
        .collect()
}

/// The place nearest to the middle of all: what is found lies in it even where that middle does not.
fn most_central(places: &[Pos]) -> Option<Pos> {
    let sum = places.iter().fold(Pos::new(0.0, 0.0), |sum, at| sum + *at);
    let middle = sum * (1.0 / places.len().max(1) as f64);
    let nearer = |a: &&Pos, b: &&Pos| a.distance(middle).total_cmp(&b.distance(middle));
    places.iter().min_by(nearer).copied()
}
