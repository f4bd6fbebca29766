//! Places among joists: counted from the outside of a wall, and so far in along them.

use super::{Across, Along, Face, Whereabouts, Which};
use crate::bore::Bore;
use crate::framing::{Framing, Space};
use crate::plan::{Level, Lumber, Plan, Role, Wall};
use crate::route::{Member, Ways};
use crate::shape::{Pos, Segment};
use crate::units::Size;

/// A joist this near to flush with the outside of a wall is counted from it, millimetres: a wall on a
/// border may lie askew by three.
const FLUSH: f64 = 4.0;
/// Half of a board, which a joist at the outside is flush with.
const HALF: f64 = Lumber::THICKNESS.0 / 2.0;
/// A face that is so much nearer to one end of a row than to the other is told at both: a sixteenth of an inch,
/// as finely as places are told, millimetres.
const ASKEW: f64 = 25.4 / 16.0;
/// Distances that differ by less are alike, so that a mirror does not tip them, millimetres.
const ALIKE: f64 = 1.0;

pub(super) fn of(
    plan: &Plan,
    framing: &Framing,
    ways: &Ways,
    index: usize,
    row: &[&Bore],
) -> Option<Whereabouts> {
    let space = framing.spaces.get(index)?;
    let crossings = row
        .iter()
        .filter_map(|bore| ways.crossings.get(bore.crossing));
    let mut joists: Vec<usize> = crossings
        .map(|crossing| joist(space, space.across_of(crossing.at)))
        .collect();
    joists.sort_unstable();
    joists.dedup();
    let (first, last) = (*joists.first()?, *joists.last()?);
    let bore = row.first()?;
    let level = plan.level(ways.crossings.get(bore.crossing)?.level)?;
    let at = |joist: usize| space.at(bore.offset, middle(space, joist));
    let (which, is_rising) = which(level, space, &joists, (at(first), at(last)))?;
    let (begin, end) = match is_rising {
        true => (at(first), at(last)),
        false => (at(last), at(first)),
    };
    let (from, distance, last) = in_from(level, space, begin, end)?;
    Some(Whereabouts {
        along: Along::Joists {
            space: index,
            which,
        },
        across: Across::In {
            from,
            distance,
            last: last.filter(|last| (last - distance).abs() > ASKEW),
        },
    })
}

/// How far the face that is so far from one place is from another, along the same way.
fn again(
    level: &Level,
    face: Face,
    (one, distance): (Pos, f64),
    other: Pos,
    along: Pos,
) -> Option<f64> {
    let (wall, sign) = match face {
        Face::Outside(wall) | Face::Line(wall) => (wall, 1.0),
        Face::Near(wall) => (wall, -1.0),
        Face::End(_) => return None,
    };
    let wall = level.wall(wall)?;
    let off = |at: Pos, way: Pos| {
        let met = Met::of(wall, at, way)?;
        Some(met.middle + sign * met.half)
    };
    let mut ways = [along * -1.0, along].into_iter();
    let way = ways.find(|way| off(one, *way).is_some_and(|off| (off - distance).abs() < 1e-6))?;
    off(other, way)
}

/// Which joist is the first, how far apart they stand, and from where they are laid out: what one must know
/// to count to those of a row. `None` for a row that goes through no counted joist.
pub fn count_words(plan: &Plan, framing: &Framing, ways: &Ways, row: &[&Bore]) -> Option<String> {
    let crossing = ways.crossings.get(row.first()?.crossing)?;
    let (Member::Joist { space } | Member::Web { space }) = crossing.member else {
        return None;
    };
    let space = framing.spaces.get(space)?;
    let level = plan.level(crossing.level)?;
    let apart = plan.units.size(Size(space.spacing));
    let low = space.strips.first().map_or(0.0, |strip| strip.from) - HALF;
    let away = space.across_of(crossing.at) - low;
    let way = space.across * -1.0;
    let wall = outside(level, crossing.at, way).filter(|(_, off)| (off - away).abs() < FLUSH);
    let from = match wall {
        Some((wall, _)) => Face::Outside(wall.id).words(),
        None => String::from(sheet_side(way)),
    };
    Some(format!(
        "Joist 1 is the end joist, flush with the outside of the wall it is counted from. Joists {apart} on centre, measured from {from}."
    ))
}

/// The side of the sheet a way leads to.
fn sheet_side(way: Pos) -> &'static str {
    match (way.x.abs() > way.y.abs(), way.x > 0.0, way.y > 0.0) {
        (true, true, _) => "the rim on the right of the sheet",
        (true, false, _) => "the rim on the left of the sheet",
        (false, _, true) => "the rim at the foot of the sheet",
        (false, _, false) => "the rim at the top of the sheet",
    }
}

/// Which joist stands at a coordinate across them.
fn joist(space: &Space, across: f64) -> usize {
    let strips = space.strips.iter().enumerate();
    let off = |place: f64| (place - across).abs();
    let near = strips.min_by(|a, b| off(a.1.from).total_cmp(&off(b.1.from)));
    let last = space
        .strips
        .last()
        .map_or(f64::INFINITY, |strip| off(strip.to));
    near.map_or(0, |(place, strip)| match off(strip.from) <= last {
        true => place,
        false => space.strips.len(),
    })
}

/// Where a joist's middle is, measured across.
fn middle(space: &Space, joist: usize) -> f64 {
    let strip = space.strips.get(joist).map(|strip| strip.from);
    let last = space.strips.last().map_or(0.0, |strip| strip.to);
    strip.unwrap_or(last)
}

/// Joists counted from the side that takes less counting, where one is flush with the first or the
/// last of them; and whether they are told in the order in which they were given.
fn which(
    level: &Level,
    space: &Space,
    joists: &[usize],
    ends: (Pos, Pos),
) -> Option<(Which, bool)> {
    let count = space.strips.len();
    let (first, last) = (*joists.first()?, *joists.last()?);
    let low = outside(level, ends.0, space.across * -1.0);
    let high = outside(level, ends.1, space.across);
    let flush = |found: Option<(&Wall, f64)>, joist: usize, edge: usize| {
        let (wall, distance) = found?;
        let off = (middle(space, joist) - middle(space, edge)).abs() + HALF - distance;
        (off.abs() < FLUSH).then_some(wall.id)
    };
    let from_low = flush(low, first, 0).map(|wall| (first + 1, wall));
    let from_high = flush(high, last, count).map(|wall| (count - last + 1, wall));
    if let Some((number, from)) =
        from_low.filter(|low| from_high.is_none_or(|high| low.0 <= high.0))
    {
        let numbers = joists.iter().map(|joist| (number + joist - first) as u32);
        let numbers = numbers.collect();
        return Some((Which::Counted { from, numbers }, true));
    }
    if let Some((number, from)) = from_high {
        let numbers = joists.iter().rev();
        let numbers = numbers
            .map(|joist| (number + last - joist) as u32)
            .collect();
        return Some((Which::Counted { from, numbers }, false));
    }
    let (low, high) = (
        face(level, ends.0, space.across * -1.0),
        face(level, ends.1, space.across),
    );
    let (from, nearest) = nearer(low, high).or_else(|| end(level, ends.0, space.across))?;
    let farthest = nearest + middle(space, last) - middle(space, first);
    let is_rising = high != Some((from, nearest));
    let off = Which::Off {
        from,
        nearest,
        farthest,
    };
    Some((off, is_rising))
}

/// How far the first and the last place of a row are in along the joists: from the nearer outside, else from a
/// face; but from one that neither of them lies behind, as a face may that is askew.
fn in_from(
    level: &Level,
    space: &Space,
    begin: Pos,
    last: Pos,
) -> Option<(Face, f64, Option<f64>)> {
    let (back, ahead) = (space.along * -1.0, space.along);
    let outside =
        |way: Pos| outside(level, begin, way).map(|(wall, d)| (Face::Outside(wall.id), d));
    let face = |way: Pos| face(level, begin, way);
    let measured = |from: Option<(Face, f64)>| {
        let (from, distance) = from?;
        let last = again(level, from, (begin, distance), last, space.along);
        Some((from, distance, last))
    };
    let tried = [
        nearer(outside(back), outside(ahead)),
        outside(back),
        outside(ahead),
        nearer(face(back), face(ahead)),
        face(back),
        face(ahead),
        end(level, begin, space.along),
    ];
    let mut tried = tried.into_iter().filter_map(measured);
    let first = tried.next()?;
    let is_before = |(_, _, last): &(Face, f64, Option<f64>)| last.is_none_or(|last| last >= 0.0);
    match is_before(&first) {
        true => Some(first),
        false => Some(tried.find(is_before).unwrap_or(first)),
    }
}

fn nearer(one: Option<(Face, f64)>, other: Option<(Face, f64)>) -> Option<(Face, f64)> {
    match (one, other) {
        (Some(one), Some(other)) if other.1 < one.1 - ALIKE => Some(other),
        (one, other) => one.or(other),
    }
}

/// The outside wall first met from a place on a way, and how far its outside is.
fn outside(level: &Level, at: Pos, way: Pos) -> Option<(&Wall, f64)> {
    let exterior = level
        .walls
        .iter()
        .filter(|wall| wall.role == Role::Exterior);
    let met = exterior.filter_map(|wall| {
        let met = Met::of(wall, at, way)?;
        (met.within && met.middle > -met.half).then_some((wall, met.middle + met.half))
    });
    met.min_by(|a, b| a.1.total_cmp(&b.1))
}

/// The near face of the first wall of any kind on a way, or else the far face of the nearest one whose
/// line the way meets.
fn face(level: &Level, at: Pos, way: Pos) -> Option<(Face, f64)> {
    let met = || {
        let walls = level.walls.iter();
        let met = walls.filter_map(|wall| Some((wall.id, Met::of(wall, at, way)?)));
        met.filter(|(_, met)| met.middle > -met.half)
    };
    let clear = met().filter(|(_, met)| met.within && met.middle >= met.half);
    let near = clear.map(|(wall, met)| (Face::Near(wall), met.middle - met.half));
    let line = met().map(|(wall, met)| (Face::Line(wall), met.middle + met.half));
    let first = |a: &(Face, f64), b: &(Face, f64)| a.1.total_cmp(&b.1);
    near.min_by(first).or_else(|| line.min_by(first))
}

/// The nearest end of a wall, measured along a way that no wall crosses.
fn end(level: &Level, at: Pos, way: Pos) -> Option<(Face, f64)> {
    let walls = level.walls.iter();
    let ends = walls.flat_map(|wall| [(wall.id, wall.from), (wall.id, wall.to)]);
    let off = ends.map(|(wall, end)| (Face::End(wall), (end.pos() - at).dot(way).abs()));
    off.min_by(|a, b| a.1.total_cmp(&b.1))
}

/// Where a way from a place meets the middle of a wall.
struct Met {
    /// How far along the way, millimetres.
    middle: f64,
    /// Half of what the wall takes up of the way.
    half: f64,
    /// Whether it does so between the wall's ends.
    within: bool,
}

impl Met {
    fn of(wall: &Wall, at: Pos, way: Pos) -> Option<Self> {
        let (line, ray) = (wall.line()?, Segment::between(at, at + way)?);
        let (middle, on_wall) = ray.crossing(&line)?;
        let half = wall.width().0 / 2.0;
        Some(Self {
            middle,
            half: half / way.cross(line.along).abs(),
            within: (-half..=line.length + half).contains(&on_wall),
        })
    }
}
