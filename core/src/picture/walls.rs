//! Walls in plan: mitred at corners, cut at openings.

use super::{About, Ink, Item, Picture, Shape};
use crate::framing::{Joint, JointKind, LevelFraming, WallFraming};
use crate::plan::{Level, Opening, Role, Wall};
use crate::shape::{Pos, Segment};

/// A mitre longer than this many wall widths is cut square.
const LONGEST_MITRE: f64 = 3.0;

/// Distance between the crosses of a wall that is never drilled, paper millimetres.
const CROSSES: f64 = 28.0;
/// Most crosses of one stretch.
const MOST_CROSSES: u32 = 100;

/// A solid stretch of a wall in plan.
#[derive(Clone, Debug)]
pub(super) struct Solid {
    /// Left and right corner where it starts.
    pub start: (Pos, Pos),
    /// Left and right corner where it ends.
    pub end: (Pos, Pos),
    /// Whether its start or end is an end of its own, and not hidden in another wall.
    pub capped: (bool, bool),
}

/// The solid stretches of a wall between its openings, from its first end.
pub(super) fn solids(level: &Level, framing: &LevelFraming, wall: &Wall) -> Vec<Solid> {
    let Some(frame) = framing.wall(wall.id) else {
        return Vec::new();
    };
    let half = wall.width().0 / 2.0;
    let cross = |offset: f64| (frame.line.at(offset, -half), frame.line.at(offset, half));
    let mut from = end_corners(level, frame, half, false);
    let mut near_capped = is_free(frame, false);
    let mut solids = Vec::new();
    for opening in level.openings_of(wall.id) {
        let (near, far) = reach(opening);
        if far <= frame.start || near >= frame.end {
            continue;
        }
        if near > frame.start {
            solids.push(Solid {
                start: from,
                end: cross(near),
                capped: (near_capped, true),
            });
        }
        (from, near_capped) = (cross(far), true);
    }
    solids.push(Solid {
        start: from,
        end: end_corners(level, frame, half, true),
        capped: (near_capped, is_free(frame, true)),
    });
    solids
}

/// Draws every wall of a level: partitions first, so that the filled walls lie over their ends.
pub(super) fn draw(picture: &mut Picture, level: &Level, framing: &LevelFraming, faint: bool) {
    for partitions in [true, false] {
        let walls = level
            .walls
            .iter()
            .filter(|wall| (wall.role == Role::Partition) == partitions);
        for wall in walls {
            draw_wall(picture, level, framing, wall, faint);
        }
    }
}

fn draw_wall(
    picture: &mut Picture,
    level: &Level,
    framing: &LevelFraming,
    wall: &Wall,
    faint: bool,
) {
    let ink = match wall.role {
        Role::Exterior => Ink::WallExterior,
        Role::Bearing => Ink::WallBearing,
        Role::Partition => Ink::WallPartition,
    };
    let words = words(wall);
    for solid in solids(level, framing, wall) {
        let corners = vec![solid.start.0, solid.end.0, solid.end.1, solid.start.1];
        let about = About::Wall(wall.id);
        picture.push(Item::about(ink, Shape::Area(corners), about, words.clone()).faint_if(faint));
        if wall.role == Role::Partition {
            faces(picture, framing, wall, &solid, faint);
        }
        if wall.never_drill {
            crosses(picture, wall, &solid, faint);
        }
    }
}

/// Crosses along a wall that is never drilled, standing out of it on both sides.
fn crosses(picture: &mut Picture, wall: &Wall, solid: &Solid, faint: bool) {
    let half = wall.width().0 / 2.0 + 1.2 * picture.scale;
    let (from, to) = (
        (solid.start.0 + solid.start.1) * 0.5,
        (solid.end.0 + solid.end.1) * 0.5,
    );
    let Some(line) = Segment::between(from, to) else {
        return;
    };
    let count = (line.length / (CROSSES * picture.scale)).ceil().max(1.0) as u32;
    for place in 0..count.min(MOST_CROSSES) {
        let offset = line.length * (f64::from(place) + 0.5) / f64::from(count);
        for way in [-1.0, 1.0] {
            let ends = [
                line.at(offset - half, -half * way),
                line.at(offset + half, half * way),
            ];
            let item = Item::about(
                Ink::NeverDrill,
                Shape::Line(ends.to_vec()),
                About::Wall(wall.id),
                "",
            );
            picture.push(item.faint_if(faint));
        }
    }
}

fn words(wall: &Wall) -> String {
    let (label, role) = (wall.label(), wall.role.name());
    let never = if wall.never_drill {
        ", never drill"
    } else {
        ""
    };
    format!("{label}, {role} {}{never}", wall.lumber.name())
}

/// The faces of a partition, left open where another partition runs into them.
fn faces(picture: &mut Picture, framing: &LevelFraming, wall: &Wall, solid: &Solid, faint: bool) {
    let Some(frame) = framing.wall(wall.id) else {
        return;
    };
    let mut line = |points: Vec<Pos>| {
        picture.push(Item::plain(Ink::WallFace, Shape::Line(points)).faint_if(faint));
    };
    for (from, to, right) in [
        (solid.start.0, solid.end.0, false),
        (solid.start.1, solid.end.1, true),
    ] {
        for (near, far) in between_tees(frame, from, to, right) {
            line(vec![near, far]);
        }
    }
    if solid.capped.0 {
        line(vec![solid.start.0, solid.start.1]);
    }
    if solid.capped.1 {
        line(vec![solid.end.0, solid.end.1]);
    }
}

/// The stretches of a face between the walls that run into it.
fn between_tees(frame: &WallFraming, from: Pos, to: Pos, right: bool) -> Vec<(Pos, Pos)> {
    let (near, far) = (frame.line.offset_of(from), frame.line.offset_of(to));
    let aside = frame.line.aside_of(from);
    let mut gaps: Vec<(f64, f64)> = frame
        .joints
        .iter()
        .filter(|joint| joint.kind == JointKind::TeeThrough)
        .filter(|joint| if right { joint.right } else { joint.left })
        .map(|joint| (joint.at - joint.half, joint.at + joint.half))
        .collect();
    gaps.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut stretches = Vec::new();
    let mut at = near;
    for (start, end) in gaps {
        if start > at && start < far {
            stretches.push((at, start));
        }
        at = at.max(end);
    }
    if at < far {
        stretches.push((at, far));
    }
    let place = |offset: f64| frame.line.at(offset, aside);
    stretches
        .into_iter()
        .map(|(a, b)| (place(a), place(b)))
        .collect()
}

/// Near and far offset of an opening.
pub(super) fn reach(opening: &Opening) -> (f64, f64) {
    (opening.offset.f64(), (opening.offset + opening.width).f64())
}

/// Joints at the first or second end of a wall.
fn joints_at(frame: &WallFraming, second: bool) -> Vec<&Joint> {
    let end = if second { frame.line.length } else { 0.0 };
    let near = |joint: &&Joint| {
        let ends = !matches!(joint.kind, JointKind::TeeThrough);
        ends && (joint.at - end).abs() < joint.half + 200.0
    };
    frame.joints.iter().filter(near).collect()
}

/// Whether an end of a wall stands free.
fn is_free(frame: &WallFraming, second: bool) -> bool {
    joints_at(frame, second).is_empty()
}

/// Left and right corner of a wall's end: mitred with the one wall it makes a corner with, at the
/// near face of a wall it runs into, square otherwise.
fn end_corners(level: &Level, frame: &WallFraming, half: f64, second: bool) -> (Pos, Pos) {
    let square = if second { frame.end } else { frame.start };
    let square = (frame.line.at(square, -half), frame.line.at(square, half));
    let joints = joints_at(frame, second);
    let [joint] = joints.as_slice() else {
        return square;
    };
    let other = level
        .wall(joint.other)
        .and_then(|wall| Some((wall.line()?, wall.width().0 / 2.0)));
    let met = other.and_then(|(line, wide)| match joint.kind {
        JointKind::CornerThrough | JointKind::CornerButt => mitre(frame, half, second, &line, wide),
        JointKind::TeeButt => run_into(frame, half, second, &line, wide),
        JointKind::Splice | JointKind::TeeThrough => None,
    });
    met.unwrap_or(square)
}

/// Where the faces of two walls that make a corner meet.
fn mitre(
    frame: &WallFraming,
    half: f64,
    second: bool,
    other: &Segment,
    wide: f64,
) -> Option<(Pos, Pos)> {
    let corner = if second {
        frame.line.to
    } else {
        frame.line.from
    };
    let ends_there = other.to.distance(corner) < other.from.distance(corner);
    // Walked through the corner, the left face goes on as the left face; the other wall's left is
    // on our right where both are drawn away from the corner or both towards it.
    let flip = if ends_there == second { -1.0 } else { 1.0 };
    let face = |side: f64| {
        let ours = Segment::between(
            frame.line.at(0.0, side * half),
            frame.line.at(1.0, side * half),
        )?;
        let theirs = Segment::between(
            other.at(0.0, flip * side * wide),
            other.at(1.0, flip * side * wide),
        )?;
        let (offset, _) = ours.crossing(&theirs)?;
        let met = ours.at(offset, 0.0);
        (met.distance(corner) <= LONGEST_MITRE * (half + wide)).then_some(met)
    };
    Some((face(-1.0)?, face(1.0)?))
}

/// Where the faces of a wall reach the near face of the wall it runs into.
fn run_into(
    frame: &WallFraming,
    half: f64,
    second: bool,
    other: &Segment,
    wide: f64,
) -> Option<(Pos, Pos)> {
    let inside = if second {
        frame.line.from
    } else {
        frame.line.to
    };
    let side = if other.aside_of(inside) < 0.0 {
        -wide
    } else {
        wide
    };
    let near = Segment::between(other.at(0.0, side), other.at(1.0, side))?;
    let face = |aside: f64| {
        let ours = Segment::between(frame.line.at(0.0, aside), frame.line.at(1.0, aside))?;
        let (offset, _) = ours.crossing(&near)?;
        let end = if second { frame.end } else { frame.start };
        ((offset - end).abs() <= LONGEST_MITRE * (half + wide)).then(|| ours.at(offset, 0.0))
    };
    Some((face(-half)?, face(half)?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::framing::Framing;
    use crate::plan::{LevelId, Lumber, OpeningId, OpeningKind, Plan, WallId};
    use crate::shape::Point;
    use crate::units::Mm;

    type Ends = ((i32, i32), (i32, i32));

    fn plan(walls: &[Ends]) -> Plan {
        let mut plan = Plan::new();
        for (place, (from, to)) in walls.iter().enumerate() {
            let id = WallId(place as u32 + 1);
            let (from, to) = (Point::new(from.0, from.1), Point::new(to.0, to.1));
            plan.levels[0].walls.push(Wall::new(
                id,
                from,
                to,
                Lumber::Width(crate::units::Size(100.0)),
                Role::Partition,
            ));
        }
        plan
    }

    fn solids_of(plan: &Plan, place: usize) -> Vec<Solid> {
        let framing = Framing::of(plan);
        let level = &plan.levels[0];
        solids(
            level,
            framing.level(LevelId(1)).unwrap(),
            &level.walls[place],
        )
    }

    #[test]
    fn a_corner_is_mitred_whichever_way_it_was_drawn() {
        let walls = [((0, 0), (4000, 0)), ((4000, 0), (4000, 3000))];
        let turned = [((4000, 0), (0, 0)), ((4000, 3000), (4000, 0))];
        let one = &solids_of(&plan(&walls), 0)[0];
        assert_eq!(one.end, (Pos::new(4050.0, -50.0), Pos::new(3950.0, 50.0)));
        let other = &solids_of(&plan(&turned), 0)[0];
        assert_eq!(
            other.start,
            (Pos::new(3950.0, 50.0), Pos::new(4050.0, -50.0))
        );
        let mixed = [walls[0], turned[1]];
        assert_eq!(solids_of(&plan(&mixed), 0)[0].end, one.end);
    }

    #[test]
    fn a_tee_stops_at_the_face_and_opens_it() {
        let walls = [((0, 0), (4000, 0)), ((2000, 0), (2000, 3000))];
        let plan = plan(&walls);
        let stem = &solids_of(&plan, 1)[0];
        assert_eq!(stem.start.0.y, 50.0);
        assert_eq!(stem.capped, (false, true));
        let framing = Framing::of(&plan);
        let frame = framing.wall(WallId(1)).unwrap();
        let bar = &solids_of(&plan, 0)[0];
        assert_eq!(between_tees(frame, bar.start.1, bar.end.1, true).len(), 2);
        assert_eq!(between_tees(frame, bar.start.0, bar.end.0, false).len(), 1);
    }

    #[test]
    fn an_opening_cuts_its_wall_in_two() {
        let mut plan = plan(&[((0, 0), (4000, 0))]);
        plan.levels[0].openings.push(Opening {
            id: OpeningId(1),
            wall: WallId(1),
            offset: Mm(1000),
            width: Mm(900),
            sill: Mm(0),
            head: Mm(2032),
            kind: OpeningKind::Door,
        });
        let solids = solids_of(&plan, 0);
        assert_eq!(solids.len(), 2);
        assert_eq!(solids[0].end.0.x, 1000.0);
        assert_eq!(solids[1].start.0.x, 1900.0);
        assert_eq!(solids[0].capped, (true, true));
    }
}
