//! How walls meet: corners, tees, crosses and straight splices, by the drawn geometry.

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use crate::plan::{Level, Role, Wall, WallId};
use crate::shape::{Point, Pos, Segment};

/// Ends nearer to a line than this meet it, millimetres beyond half the other wall's width.
const TOLERANCE: f64 = 60.0;
/// A splice no farther than this from a corner is at it, millimetres: half a wide wall and the tolerance.
const REACH: f64 = 200.0;
/// Sine of the angle up to which two walls end to end are in one line, 3 degrees: whole millimetres bend
/// a line that lies askew, and a corner as flat as that has no inside.
const STRAIGHT: f64 = 0.05;
/// Lengths that differ by less than this are alike: each end of a wall that lies askew is up to 0.71 mm off
/// its true place, so that two walls that are alike differ by up to 2.83 mm.
const ALIKE: f64 = 3.0;
/// The most walls that carry one on at one end: in a house it is one, or two where a splice is also a corner.
const MOST_SPLICES: usize = 4;

/// Where another wall meets this one.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Joint {
    /// The other wall.
    pub other: WallId,
    /// Where on this wall's centre line, millimetres from its first end.
    pub at: f64,
    /// Half of what the other wall takes up along this one, millimetres.
    pub half: f64,
    /// How they meet.
    pub kind: JointKind,
    /// Whether the other wall lies on the right of this one, on the left, or on both sides.
    pub right: bool,
    /// See `right`.
    pub left: bool,
}

/// How a wall meets another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum JointKind {
    /// Both end here; this one runs through to the outside of the corner.
    CornerThrough,
    /// Both end here; this one stops at the other's face.
    CornerButt,
    /// This wall ends against the other's face.
    TeeButt,
    /// The other wall ends against this one's face, or stops on both sides of it. At an end of this one,
    /// another carries it on in its line.
    TeeThrough,
    /// Both end here in one line.
    Splice,
}

/// A wall's joints and the extent of its plates.
#[derive(Clone, Debug, PartialEq)]
pub struct WallEnds {
    /// Where its plates start, millimetres from the first end; below zero where it runs through.
    pub start: f64,
    /// Where its plates end.
    pub end: f64,
    /// Joints in order along the wall.
    pub joints: Vec<Joint>,
}

/// Finds every joint of every wall of a level; one entry a wall, in the order of the plan.
pub(super) fn join(level: &Level) -> Vec<WallEnds> {
    let splices = Splices::of(level);
    let walls = level.walls.iter();
    walls.map(|wall| ends_of(level, &splices, wall)).collect()
}

fn ends_of(level: &Level, splices: &Splices, wall: &Wall) -> WallEnds {
    let Some(line) = wall.line() else {
        return WallEnds {
            start: 0.0,
            end: 0.0,
            joints: Vec::new(),
        };
    };
    let mut joints: Vec<Joint> = level
        .walls
        .iter()
        .filter(|other| other.id != wall.id)
        .filter_map(|other| joint(splices, wall, &line, other))
        .collect();
    joints.sort_by(|a, b| a.at.total_cmp(&b.at).then(a.half.total_cmp(&b.half)));
    fewer_splices(level, &mut joints);
    let start = plate_end(&joints, 0.0);
    let end = line.length - plate_end(&joints, line.length);
    WallEnds { start, end, joints }
}

/// Keeps the first splices at each end, in the order of where the other walls lie. Walls that lie on each
/// other are all spliced to each other; without this their joints, and all that is made of joints, grow with
/// the square of their number.
fn fewer_splices(level: &Level, joints: &mut Vec<Joint>) {
    let is_splice = |joint: &&Joint| joint.kind == JointKind::Splice;
    if joints.iter().filter(is_splice).count() <= MOST_SPLICES {
        return;
    }
    let spliced: BTreeSet<WallId> = joints.iter().filter(is_splice).map(|j| j.other).collect();
    let others = level.walls.iter().filter(|wall| spliced.contains(&wall.id));
    let mut others: Vec<&Wall> = others.collect();
    others.sort_by_key(|wall| (ends_in_order(wall), wall.id));
    let place: BTreeMap<WallId, usize> =
        others.iter().enumerate().map(|(n, w)| (w.id, n)).collect();
    let mut of_end = [(); 2].map(|()| Vec::new());
    for joint in joints.iter().filter(is_splice) {
        of_end[usize::from(joint.at > 0.0)].push(joint.other);
    }
    for end in &mut of_end {
        end.sort_by_key(|other| place.get(other).copied());
        end.truncate(MOST_SPLICES);
    }
    joints.retain(|joint| {
        !is_splice(&joint) || of_end.iter().flatten().any(|other| *other == joint.other)
    });
}

/// How far inside the drawn end the plates stop (above zero) or run past it (below zero).
fn plate_end(joints: &[Joint], at: f64) -> f64 {
    let here = joints
        .iter()
        .filter(|joint| (joint.at - at).abs() < TOLERANCE + joint.half);
    let inset = here.filter_map(|joint| match joint.kind {
        JointKind::CornerThrough => Some(-joint.half),
        JointKind::CornerButt | JointKind::TeeButt => Some(joint.half),
        // The wall that carries this one on begins where it ends.
        JointKind::Splice => Some(0.0),
        JointKind::TeeThrough => None,
    });
    // A butt wins over a through corner: three walls at one point leave one through wall.
    inset
        .fold(None, |worst: Option<f64>, next| {
            Some(worst.map_or(next, |w| w.max(next)))
        })
        .unwrap_or(0.0)
}

fn joint(splices: &Splices, wall: &Wall, line: &Segment, other: &Wall) -> Option<Joint> {
    let beyond = other.line()?;
    splice(line, other, &beyond).or_else(|| {
        let (at, on_other) = line.crossing(&beyond)?;
        meeting(splices, wall, line, other, &beyond, at, on_other)
    })
}

fn meeting(
    splices: &Splices,
    wall: &Wall,
    line: &Segment,
    other: &Wall,
    beyond: &Segment,
    at: f64,
    on_other: f64,
) -> Option<Joint> {
    let reach = other.width().0 / 2.0 + TOLERANCE;
    let reach_other = wall.width().0 / 2.0 + TOLERANCE;
    if !(-reach..=line.length + reach).contains(&at)
        || !(-reach_other..=beyond.length + reach_other).contains(&on_other)
    {
        return None;
    }
    let ends_here = at <= reach || at >= line.length - reach;
    let other_ends = on_other <= reach_other || on_other >= beyond.length - reach_other;
    let kind = match (ends_here, other_ends) {
        (true, true) => corner(splices, wall, other, line.at(at, 0.0)),
        (true, false) => JointKind::TeeButt,
        (false, _) => JointKind::TeeThrough,
    };
    let sine = line.along.cross(beyond.along).abs();
    let (right, left) = sides(line, beyond, reach_other);
    Some(Joint {
        other: other.id,
        at,
        half: other.width().0 / 2.0 / sine,
        kind,
        right,
        left,
    })
}

/// How a wall meets another where both end. Each counts together with the wall that carries it on in its
/// line, so that two halves of a line agree on which of them and the third runs through.
fn corner(splices: &Splices, wall: &Wall, other: &Wall, place: Pos) -> JointKind {
    let mine = splices.carried_on(wall, place);
    let theirs = splices.carried_on(other, place);
    let through = runs_through(&mine.unwrap_or(*wall), &theirs.unwrap_or(*other));
    match (through, mine.is_some()) {
        (true, true) => JointKind::TeeThrough,
        (true, false) => JointKind::CornerThrough,
        (false, _) => JointKind::CornerButt,
    }
}

/// For each wall and each of its ends the wall that carries it on there.
struct Splices(BTreeMap<WallId, [Option<Wall>; 2]>);

impl Splices {
    /// Of several that carry a wall on at one end it is the first of [`ends_in_order`].
    fn of(level: &Level) -> Self {
        let walls = level.walls.iter();
        let lines = walls.filter_map(|wall| Some((wall, wall.line()?)));
        let lines: Vec<_> = lines.collect();
        let at_ends = |(wall, line): &(&Wall, Segment)| {
            let mut ends = [None; 2];
            let others = lines.iter().filter(|(other, _)| other.id != wall.id);
            for (other, beyond) in others {
                let Some(joint) = splice(line, other, beyond) else {
                    continue;
                };
                let end = &mut ends[usize::from(joint.at > 0.0)];
                if end.is_none_or(|found| ends_in_order(other) < ends_in_order(&found)) {
                    *end = Some(**other);
                }
            }
            (wall.id, ends)
        };
        Self(lines.iter().map(at_ends).collect())
    }

    /// A wall as one with another that is spliced to it near a place: from the far end of one to the far
    /// end of the other, as wide as the wider and carrying what either carries. `None` where none is.
    fn carried_on(&self, wall: &Wall, place: Pos) -> Option<Wall> {
        let ends = [wall.from, wall.to].into_iter().zip(self.0.get(&wall.id)?);
        let near = ends.filter(|(end, _)| end.pos().distance(place) < REACH);
        let others = near.filter_map(|(_, other)| *other);
        let other = others.min_by_key(ends_in_order)?;
        Some(as_one(wall, &other, place))
    }
}

fn as_one(wall: &Wall, other: &Wall, place: Pos) -> Wall {
    let far = |wall: &Wall| match wall.from.pos().distance(place) > wall.to.pos().distance(place) {
        true => wall.from,
        false => wall.to,
    };
    let wider = other.width().micrometres() > wall.width().micrometres();
    Wall {
        from: far(wall),
        to: far(other),
        lumber: if wider { other.lumber } else { wall.lumber },
        role: if carries(other) < carries(wall) {
            other.role
        } else {
            wall.role
        },
        ..*wall
    }
}

/// On which sides of `line` the other wall reaches out.
fn sides(line: &Segment, beyond: &Segment, reach: f64) -> (bool, bool) {
    let asides = [line.aside_of(beyond.from), line.aside_of(beyond.to)];
    (
        asides.iter().any(|a| *a > reach),
        asides.iter().any(|a| *a < -reach),
    )
}

fn splice(line: &Segment, other: &Wall, beyond: &Segment) -> Option<Joint> {
    if line.along.cross(beyond.along).abs() > STRAIGHT {
        return None;
    }
    let mine = [(0.0, line.from), (line.length, line.to)];
    let near =
        |end: Pos| beyond.from.distance(end) < TOLERANCE || beyond.to.distance(end) < TOLERANCE;
    let (at, _) = mine.into_iter().find(|(_, end)| near(*end))?;
    Some(Joint {
        other: other.id,
        at,
        half: 0.0,
        kind: JointKind::Splice,
        right: false,
        left: false,
    })
}

/// Which of two walls runs through a corner or a cross: the one that carries more, then the wider, then the
/// longer, then the one that [`leads`]. The order of drawing decides nothing.
pub(crate) fn runs_through(wall: &Wall, other: &Wall) -> bool {
    let rank = |wall: &Wall| (carries(wall), -wall.width().micrometres());
    let length = |wall: &Wall| wall.line().map_or(0.0, |line| line.length);
    let longer = length(wall) - length(other);
    match rank(wall).cmp(&rank(other)) {
        Ordering::Less => true,
        Ordering::Greater => false,
        Ordering::Equal if longer.abs() > ALIKE => longer > 0.0,
        Ordering::Equal => leads(wall, other),
    }
}

/// A wall's place by what it carries: outside walls first, partitions last.
fn carries(wall: &Wall) -> u8 {
    match wall.role {
        Role::Exterior => 0,
        Role::Bearing => 1,
        Role::Partition => 2,
    }
}

/// Which of two walls that are alike runs through where they meet. How they lie to each other decides, so
/// that the answer turns along with the house: first the one that is met nearer its middle; of two met
/// equally far from it, as at a corner, the one whose longer part has the other's on its right, so that
/// a square room is framed as a pinwheel; of two met in their middles, the one from which the other is
/// less than a quarter turn to the right. Two that cross squarely in their middles look the same from
/// every side: there the one drawn nearer the top left runs through.
fn leads(wall: &Wall, other: &Wall) -> bool {
    let drawn_first = || ends_in_order(wall) < ends_in_order(other);
    let Some((one, beyond)) = wall.line().zip(other.line()) else {
        return drawn_first();
    };
    let Some((at, on_other)) = one.crossing(&beyond) else {
        return drawn_first();
    };
    let (mine, theirs) = (from_middle(&one, at), from_middle(&beyond, on_other));
    let turn = one.along.cross(beyond.along);
    let skew = turn * one.along.dot(beyond.along);
    match mine.abs() - theirs.abs() {
        farther if farther.abs() > ALIKE => farther < 0.0,
        _ if mine.abs() > ALIKE => turn * mine * theirs > 0.0,
        _ if skew.abs() > 1e-9 => skew > 0.0,
        _ => drawn_first(),
    }
}

/// How far from its middle a wall is met; above zero where the longer part is towards its first end.
fn from_middle(line: &Segment, at: f64) -> f64 {
    at - line.length / 2.0
}

fn ends_in_order(wall: &Wall) -> (Point, Point) {
    (wall.from.min(wall.to), wall.from.max(wall.to))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{LevelId, Lumber};

    /// From and to, each as x and y.
    type Ends = ((i32, i32), (i32, i32));

    fn level(walls: &[Ends]) -> Level {
        let mut level = Level::new(LevelId(1), "Ground");
        for (place, (from, to)) in walls.iter().enumerate() {
            level.walls.push(Wall::new(
                WallId(place as u32 + 1),
                Point::new(from.0, from.1),
                Point::new(to.0, to.1),
                Lumber::TwoByFour,
                Role::Partition,
            ));
        }
        level
    }

    #[test]
    fn the_longer_wall_runs_through_a_corner() {
        let ends = join(&level(&[((0, 0), (5000, 0)), ((5000, 0), (5000, 3000))]));
        assert_eq!(ends[0].joints[0].kind, JointKind::CornerThrough);
        assert_eq!(ends[1].joints[0].kind, JointKind::CornerButt);
        assert!((ends[0].end - 5044.45).abs() < 1e-6, "{:?}", ends[0]);
        assert!((ends[1].start - 44.45).abs() < 1e-6, "{:?}", ends[1]);
        assert_eq!((ends[0].start, ends[1].end), (0.0, 3000.0));
    }

    /// How the walls of a square room meet at their ends, going round from the top left corner.
    fn round_a_square(turns: usize) -> Vec<JointKind> {
        let turn = |(x, y): (i32, i32)| (0..turns).fold((x, y), |(x, y), _| (-y, x));
        let corners = [(0, 0), (4000, 0), (4000, 4000), (0, 4000)].map(turn);
        let walls: Vec<Ends> = (0..4)
            .map(|at| (corners[at], corners[(at + 1) % 4]))
            .collect();
        let joints = join(&level(&walls))
            .into_iter()
            .flat_map(|ends| ends.joints);
        joints.map(|joint| joint.kind).collect()
    }

    /// By hand: looking out of its first corner along each wall, the wall before it is on the right;
    /// looking back from its second, the next one is on the left. So each wall runs through where it starts,
    /// over the end of the wall before it, and stops where it ends, at the face of the next.
    #[test]
    fn a_square_room_is_a_pinwheel_however_it_is_turned() {
        use JointKind::{CornerButt, CornerThrough};
        let each = [CornerThrough, CornerButt];
        for turns in 0..4 {
            assert_eq!(round_a_square(turns), each.repeat(4), "{turns}");
        }
    }

    #[test]
    fn alike_walls_that_cross_are_told_apart_by_how_they_lie() {
        let pair = |walls: &[Ends]| {
            let level = level(walls);
            let (one, other) = (&level.walls[0], &level.walls[1]);
            assert_ne!(runs_through(one, other), runs_through(other, one));
            runs_through(one, other)
        };
        // Met in its middle against a thousand off it.
        assert!(pair(&[((-2000, 0), (2000, 0)), ((0, -1000), (0, 3000))]));
        assert!(!pair(&[((0, -1000), (0, 3000)), ((-2000, 0), (2000, 0))]));
        // Both a thousand off: the longer part of one points right, of the other down.
        assert!(pair(&[((-1000, 0), (3000, 0)), ((0, -1000), (0, 3000))]));
        assert!(pair(&[((0, -1000), (0, 3000)), ((1000, 0), (-3000, 0))]));
        assert!(!pair(&[((-1000, 0), (3000, 0)), ((0, 1000), (0, -3000))]));
        // Both in their middles: the other is 53 degrees to the right, drawn from either end.
        assert!(pair(&[
            ((-2000, 0), (2000, 0)),
            ((-1200, -1600), (1200, 1600))
        ]));
        assert!(pair(&[
            ((-2000, 0), (2000, 0)),
            ((1200, 1600), (-1200, -1600))
        ]));
        assert!(!pair(&[
            ((-2000, 0), (2000, 0)),
            ((-1200, 1600), (1200, -1600))
        ]));
    }

    #[test]
    fn a_tee_stops_at_the_face_and_is_backed() {
        let ends = join(&level(&[((0, 0), (5000, 0)), ((2000, 0), (2000, 3000))]));
        assert_eq!(ends[0].joints[0].kind, JointKind::TeeThrough);
        assert_eq!(
            (ends[0].joints[0].right, ends[0].joints[0].left),
            (true, false)
        );
        assert_eq!(ends[1].joints[0].kind, JointKind::TeeButt);
        assert!((ends[1].start - 44.45).abs() < 1e-6);
        assert_eq!((ends[0].start, ends[0].end), (0.0, 5000.0));
    }

    #[test]
    fn a_cross_is_a_tee_on_both_sides_and_a_straight_line_is_spliced() {
        let ends = join(&level(&[((0, 0), (5000, 0)), ((2000, -900), (2000, 900))]));
        assert_eq!(
            (ends[0].joints[0].right, ends[0].joints[0].left),
            (true, true)
        );
        let ends = join(&level(&[((0, 0), (2000, 0)), ((2000, 0), (5000, 0))]));
        assert_eq!(ends[0].joints[0].kind, JointKind::Splice);
        assert_eq!(ends[0].end, 2000.0);
    }

    /// How each wall meets the others at (3000, 0), and how far from it its plates end, hundredths of a
    /// millimetre.
    fn at_the_splice(walls: &[Ends]) -> Vec<(Vec<JointKind>, i64)> {
        let level = level(walls);
        let place = Pos::new(3000.0, 0.0);
        let walls = join(&level).into_iter().zip(&level.walls);
        let told = walls.map(|(ends, wall)| {
            let line = wall.line().unwrap();
            let first = line.from.distance(place) < 1.0;
            let end = match first {
                true => ends.start,
                false => line.length - ends.end,
            };
            let kinds = ends.joints.iter().map(|joint| joint.kind).collect();
            (kinds, (end * 100.0).round() as i64)
        });
        told.collect()
    }

    /// By hand: a line of 3 m and 1 m is longer than the wall of 2 m that ends at its joint, though one
    /// part of it is shorter: both parts end at the joint, and the third at their face, 44.45 mm off it.
    /// A wall of 6 m runs through between them.
    #[test]
    fn two_walls_in_one_line_agree_on_a_third_that_ends_at_their_joint() {
        use JointKind::{CornerButt, CornerThrough, Splice, TeeThrough};
        let ends = |walls: &[Ends]| {
            let mut found = at_the_splice(walls);
            for (kinds, _) in &mut found {
                kinds.sort();
            }
            found
        };
        let (near, far) = (((0, 0), (3000, 0)), ((3000, 0), (4000, 0)));
        let goes_on = || (vec![TeeThrough, Splice], 0);
        assert_eq!(
            ends(&[near, far, ((3000, 0), (3000, 2000))]),
            [goes_on(), goes_on(), (vec![CornerButt; 2], 4445)]
        );
        let stops = || (vec![CornerButt, Splice], 4445);
        assert_eq!(
            ends(&[near, far, ((3000, 0), (3000, 6000))]),
            [stops(), stops(), (vec![CornerThrough; 2], -4445)]
        );
    }

    /// Halves of a line that whole millimetres have bent by less than half a degree.
    #[test]
    fn a_line_that_is_bent_by_a_hair_is_spliced() {
        let ends = join(&level(&[((0, 0), (2000, 7)), ((2000, 7), (5000, 0))]));
        assert_eq!(ends[0].joints.len(), 1);
        assert_eq!(ends[0].joints[0].kind, JointKind::Splice);
        assert!((ends[0].end - 2000.0).abs() < 0.1);
    }

    #[test]
    fn walls_apart_do_not_meet() {
        let ends = join(&level(&[((0, 0), (5000, 0)), ((2000, 400), (2000, 3000))]));
        assert!(ends.iter().all(|wall| wall.joints.is_empty()));
    }
}
