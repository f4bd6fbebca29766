//! The room list: every box by room, clockwise from the door, with two offsets and a height, so that
//! it is found again after paint.

use std::fmt;

use crate::framing::{
    Framing, Joint, JointKind, WallFraming, hang_near, hang_of, hang_words, room_at,
};
use crate::plan::{
    BoxKind, CableId, Drop, DropId, Level, LevelId, Place, Plan, Room, RoomId, Side, WallId,
};
use crate::shape::{Pos, Segment};
use crate::units::{Mm, has_words};

/// The plates of a wall end at the face of another that is this near, millimetres.
const AT: f64 = 1.0;
/// Towards the left and the top of the sheet.
const LEFT: Pos = Pos { x: -1.0, y: 0.0 };
const UP: Pos = Pos { x: 0.0, y: -1.0 };

/// One box of the room list.
#[derive(Clone, Debug, PartialEq)]
pub struct RoomRow {
    /// The level.
    pub level: LevelId,
    /// The room; `None` outdoors, and where no room is named.
    pub room: Option<RoomId>,
    /// The drop.
    pub drop: DropId,
    /// Its wall; `None` on the ceiling and adrift.
    pub wall: Option<WallId>,
    /// Facing the wall from inside: from the corner on the left hand to the centre of the box. On
    /// the ceiling: from the wall on the left of the sheet.
    pub left: Option<Mm>,
    /// From the corner on the right hand; on the ceiling: from the wall towards the sheet's top.
    pub right: Option<Mm>,
    /// The walls these two run from, on the ceiling.
    pub walls: [Option<WallId>; 2],
    /// Centre above the finished floor; `None` on the ceiling.
    pub height: Option<Mm>,
    /// Gangs of the box.
    pub gangs: u8,
    /// Its cables.
    pub cables: Vec<CableId>,
    /// What the crew is told: the box, and whatever is unusual.
    pub instruction: Instruction,
}

/// The box of a drop and what is to be known of it, part by part.
#[derive(Clone, Debug, PartialEq)]
pub struct Instruction {
    /// What the cables end in.
    pub fixing: BoxKind,
    /// "on stud 4, W1 side"; `None` where it hangs on nothing, or cannot hang where it is drawn.
    pub hang: Option<String>,
    /// "outdoors", "buried until trim-out", "spare".
    pub marks: Vec<&'static str>,
    /// What a person noted, if anything.
    pub note: String,
}

impl Instruction {
    fn of(plan: &Plan, framing: &Framing, drop: &Drop) -> Self {
        let marks = [
            (drop.outdoors, "outdoors"),
            (drop.buried, "buried until trim-out"),
            (drop.spare, "spare"),
        ];
        let marks = marks.into_iter().filter(|(is_so, _)| *is_so);
        Self {
            fixing: drop.fixing,
            hang: hang_words(plan, framing, drop),
            marks: marks.map(|(_, word)| word).collect(),
            note: drop.note.trim().to_string(),
        }
    }

    /// "on stud 4, W1 side, spare: to the island": all but what the box is.
    pub fn without_fixing(&self) -> String {
        let marks = self.marks.iter().copied();
        let parts: Vec<&str> = self.hang.as_deref().into_iter().chain(marks).collect();
        let parts = parts.join(", ");
        match (parts.is_empty(), self.note.is_empty()) {
            (_, true) => parts,
            (true, false) => self.note.clone(),
            (false, false) => format!("{parts}: {}", self.note),
        }
    }
}

/// "low-voltage bracket on stud 4, W1 side, spare: to the island".
impl fmt::Display for Instruction {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.fixing.name())?;
        if let Some(hang) = &self.hang {
            write!(f, " {hang}")?;
        }
        for mark in &self.marks {
            write!(f, ", {mark}")?;
        }
        match self.note.is_empty() {
            true => Ok(()),
            false => write!(f, ": {}", self.note),
        }
    }
}

impl RoomRow {
    /// The level and room it stands under: "Ground · Bed 1".
    pub fn heading(&self, plan: &Plan) -> String {
        let [level, room] = self.place(plan);
        format!("{level} · {room}")
    }

    /// The level and the room it stands under.
    pub fn place(&self, plan: &Plan) -> [String; 2] {
        let level = plan.level(self.level);
        let name = level.map_or("Level", |level| level.name.as_str());
        let room = self
            .room
            .and_then(|id| level.and_then(|level| level.room(id)));
        let outdoors = plan.drop(self.drop).is_some_and(|drop| drop.outdoors);
        let room = match (room, outdoors) {
            (Some(room), _) => room.name.as_str(),
            (None, true) => "outdoors",
            (None, false) => "no room named",
        };
        [name.to_string(), room.to_string()]
    }

    /// Whether every word of a search is in what it is called, what it is, where it is, one of its cables
    /// or its note.
    pub fn answers(&self, plan: &Plan, search: &str) -> bool {
        let Some(drop) = plan.drop(self.drop) else {
            return false;
        };
        let cables = drop.cables.iter().map(|cable| drop.cable_label(cable));
        let cables: Vec<String> = cables.collect();
        let (label, kind, cables) = (drop.label(), drop.kind.name(), cables.join(" "));
        let place = self.heading(plan);
        let all = format!("{label} {kind} {cables} {place} {}", drop.note);
        has_words(&all, search)
    }

    /// What finds it again, in words: its wall, two offsets and its height.
    pub fn finds(&self, plan: &Plan) -> String {
        let units = plan.units;
        let (left, right) = match self.wall {
            Some(_) => ("from the left corner", "from the right"),
            None => (
                "from the wall on the sheet's left",
                "from the one at its top",
            ),
        };
        let place = match (self.wall, self.left) {
            (Some(wall), _) => Some(format!("W{}", wall.0)),
            (None, Some(_)) => Some(String::from("ceiling")),
            (None, None) => None,
        };
        let offset = |length: Option<Mm>, words: &str| {
            length.map(|length| format!("{} {words}", units.position(length)))
        };
        let height = self.height.map(|h| format!("{} AFF", units.height(h)));
        let parts = [
            place,
            offset(self.left, left),
            offset(self.right, right),
            height,
        ];
        let parts: Vec<String> = parts.into_iter().flatten().collect();
        match parts.is_empty() {
            true => String::from("adrift: it is on no wall"),
            false => parts.join(", "),
        }
    }
}

/// Every drop by level and room, clockwise on the sheet from the room's door; outdoors comes last
/// on each level.
pub fn room_list(plan: &Plan, framing: &Framing) -> Vec<RoomRow> {
    let mut rows = Vec::new();
    for level in &plan.levels {
        let mut here: Vec<Placed> = plan
            .drops
            .iter()
            .filter(|drop| drop.level == level.id)
            .map(|drop| Placed::of(plan, framing, level, drop))
            .collect();
        here.sort_by(|a, b| a.rank.cmp(&b.rank).then(a.turn.total_cmp(&b.turn)));
        rows.extend(here.into_iter().map(|placed| placed.row));
    }
    rows
}

/// The row of one drop.
pub fn room_row(plan: &Plan, framing: &Framing, drop: DropId) -> Option<RoomRow> {
    let drop = plan.drop(drop)?;
    let level = plan.level(drop.level)?;
    Some(Placed::of(plan, framing, level, drop).row)
}

/// A row and where it comes in the list.
struct Placed {
    row: RoomRow,
    /// Rooms in the order they were named; places without a room after them, outdoors last.
    rank: usize,
    /// How far round from the door, 0 to 4.
    turn: f64,
}

impl Placed {
    fn of(plan: &Plan, framing: &Framing, level: &Level, drop: &Drop) -> Self {
        let at = position(plan, drop);
        let room = at
            .filter(|_| !drop.outdoors)
            .and_then(|at| room_at(level, at));
        let rank = match room {
            Some(room) => level.rooms.iter().position(|r| r.id == room.id),
            None => None,
        };
        let outside = level.rooms.len() + usize::from(drop.outdoors);
        let turn = room.zip(at).map_or(0.0, |(room, at)| {
            let door = door(level, room).unwrap_or(room.at.pos() + Pos::new(0.0, -1.0));
            round(room.at.pos(), door, at)
        });
        let (left, right) = offsets(framing, level, drop);
        let row = RoomRow {
            level: level.id,
            room: room.map(|room| room.id),
            drop: drop.id,
            wall: drop.place.on_wall().map(|(wall, _)| wall),
            left,
            right,
            walls: ceiling_walls(level, drop),
            height: drop.height(),
            gangs: drop.gangs,
            cables: drop.cables.iter().map(|cable| cable.id).collect(),
            instruction: Instruction::of(plan, framing, drop),
        };
        Self {
            row,
            rank: rank.unwrap_or(outside),
            turn,
        }
    }
}

/// Where a drop is, a little off its wall towards the side it faces.
fn position(plan: &Plan, drop: &Drop) -> Option<Pos> {
    drop.place.in_front(plan, 50.0)
}

/// The middle of a room's door: the first opening without a sill from which the room is entered.
fn door(level: &Level, room: &Room) -> Option<Pos> {
    level
        .openings
        .iter()
        .filter(|opening| opening.sill == Mm(0))
        .find_map(|opening| {
            let wall = level.wall(opening.wall)?;
            let line = wall.line()?;
            let middle = opening.offset.f64() + opening.width.f64() / 2.0;
            let off = wall.width().0 / 2.0 + 100.0;
            let enters = |aside: f64| {
                room_at(level, line.at(middle, aside)).is_some_and(|here| here.id == room.id)
            };
            (enters(off) || enters(-off)).then(|| line.at(middle, 0.0))
        })
}

/// How far clockwise on the sheet one has to turn from the door to a place, counted in right
/// angles, 0 to 4. No angle is taken, so that every machine agrees.
fn round(middle: Pos, door: Pos, place: Pos) -> f64 {
    let turn = quarters(place - middle) - quarters(door - middle);
    if turn < 0.0 { turn + 4.0 } else { turn }
}

/// A number from 0 to 4 that grows clockwise on the sheet as an angle does.
fn quarters(way: Pos) -> f64 {
    let reach = way.x.abs() + way.y.abs();
    if reach < 1e-9 {
        return 0.0;
    }
    let share = way.y / reach;
    match (way.x >= 0.0, way.y >= 0.0) {
        (true, true) => share,
        (false, _) => 2.0 - share,
        (true, false) => 4.0 + share,
    }
}

/// A corner that boxes on a wall are measured from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoxCorner {
    /// From the wall's first end, millimetres.
    pub at: f64,
    /// The wall whose face makes it; `None` at the end of the wall.
    pub wall: Option<WallId>,
}

/// The corners that a box on a wall is measured from: before it and behind it, from the wall's first end. `None`
/// for a drop on no wall.
pub fn corners_of(framing: &Framing, drop: &Drop) -> Option<[BoxCorner; 2]> {
    match drop.place {
        Place::Wall {
            wall, offset, side, ..
        } => Some(corners(framing.wall(wall)?, offset.f64(), side)),
        Place::Outside { wall, .. } => {
            let (near, far) = outside_corners(framing.wall(wall)?);
            Some([near, far].map(|at| BoxCorner { at, wall: None }))
        }
        Place::Ceiling { .. } | Place::Adrift { .. } => None,
    }
}

/// Two offsets that find a box again.
fn offsets(framing: &Framing, level: &Level, drop: &Drop) -> (Option<Mm>, Option<Mm>) {
    match drop.place {
        Place::Wall {
            wall, offset, side, ..
        } => on_wall(framing, wall, offset.f64(), side),
        Place::Outside {
            wall, offset, side, ..
        } => outside(framing, wall, offset.f64(), side),
        Place::Ceiling { at } => {
            let off = |way: Pos| to_wall(level, at.pos(), way).map(|(_, off)| Mm::rounded(off));
            (off(LEFT), off(UP))
        }
        Place::Adrift { .. } => (None, None),
    }
}

/// The walls that a place on the ceiling is measured from.
fn ceiling_walls(level: &Level, drop: &Drop) -> [Option<WallId>; 2] {
    let Place::Ceiling { at } = drop.place else {
        return [None, None];
    };
    [LEFT, UP].map(|way| to_wall(level, at.pos(), way).map(|(wall, _)| wall))
}

/// From the inside corners on both hands, seen facing the wall.
fn on_wall(framing: &Framing, wall: WallId, offset: f64, side: Side) -> (Option<Mm>, Option<Mm>) {
    let Some(frame) = framing.wall(wall) else {
        return (None, None);
    };
    let [near, far] = corners(frame, offset, side);
    hands(side, offset - near.at, far.at - offset)
}

/// Where the wall's face ends on both sides of an offset: at the faces of the walls that stop it.
fn corners(frame: &WallFraming, offset: f64, side: Side) -> [BoxCorner; 2] {
    let stops = |joint: &&Joint| match joint.kind {
        JointKind::Splice => false,
        JointKind::TeeButt => true,
        _ => match side {
            Side::Right => joint.right,
            Side::Left => joint.left,
        },
    };
    let end = |at| BoxCorner { at, wall: None };
    let (mut near, mut far) = (end(frame.start), end(frame.end));
    for joint in frame.joints.iter().filter(stops) {
        let wall = Some(joint.other);
        let (before, behind) = (joint.at - joint.half, joint.at + joint.half);
        if joint.at <= offset && behind > near.at - AT {
            let at = behind.max(near.at);
            near = BoxCorner { at, wall };
        } else if joint.at > offset && before < far.at + AT {
            let at = before.min(far.at);
            far = BoxCorner { at, wall };
        }
    }
    [near, far]
}

/// From the outside corners of the wall on both hands.
fn outside(framing: &Framing, wall: WallId, offset: f64, side: Side) -> (Option<Mm>, Option<Mm>) {
    let Some(frame) = framing.wall(wall) else {
        return (None, None);
    };
    let (near, far) = outside_corners(frame);
    hands(side, offset - near, far - offset)
}

/// The outside corners of a wall.
fn outside_corners(frame: &WallFraming) -> (f64, f64) {
    let at = |end: f64| {
        let joint = frame
            .joints
            .iter()
            .find(|joint| (joint.at - end).abs() < joint.half + 1.0);
        joint.map_or(0.0, |joint| joint.half)
    };
    (
        frame.start.min(-at(0.0)),
        frame.end.max(frame.line.length + at(frame.line.length)),
    )
}

/// Facing a wall's right face, its first end is on the left hand.
fn hands(side: Side, near: f64, far: f64) -> (Option<Mm>, Option<Mm>) {
    let (near, far) = (Some(Mm::rounded(near)), Some(Mm::rounded(far)));
    match side {
        Side::Right => (near, far),
        Side::Left => (far, near),
    }
}

/// The first wall in a direction from a place, and how far its face is.
fn to_wall(level: &Level, from: Pos, way: Pos) -> Option<(WallId, f64)> {
    let ray = Segment::between(from, from + way)?;
    let hits = level.walls.iter().filter_map(|wall| {
        let line = wall.line()?;
        let (along, on) = ray.crossing(&line)?;
        let slant = ray.along.cross(line.along).abs();
        let face = along - wall.width().0 / 2.0 / slant.max(0.1);
        (along > 0.0 && (0.0..=line.length).contains(&on)).then_some((wall.id, face.max(0.0)))
    });
    hits.min_by(|a, b| a.1.total_cmp(&b.1))
}

/// "cannot hang here: nearest 3' 4\" from left, on stud 4, W1 side"; `None` for a box that hangs where it is
/// drawn.
pub fn hangs_elsewhere(plan: &Plan, framing: &Framing, drop: &Drop) -> Option<String> {
    hang_of(plan, framing, drop)?.err()?;
    let near = hang_near(plan, framing, drop).and_then(|(at, hang)| {
        let Place::Wall { wall, side, .. } = drop.place else {
            return None;
        };
        let (left, _) = on_wall(framing, wall, at.f64(), side);
        let left = plan.units.position(left?);
        let hang = framing
            .wall(wall)?
            .hang_words(hang, plan.wall(wall)?.1.lumber);
        Some(format!(
            "cannot hang here: nearest {left} from left, {hang}"
        ))
    });
    near.or_else(|| {
        Some(String::from(
            "cannot hang here: nor anywhere on this wall at this height",
        ))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::sample;

    fn rows() -> (Plan, Vec<RoomRow>) {
        let plan = sample::house();
        let rows = room_list(&plan, &Framing::of(&plan));
        (plan, rows)
    }

    fn row<'r>(plan: &Plan, rows: &'r [RoomRow], label: &str) -> &'r RoomRow {
        let drop = plan
            .drops
            .iter()
            .find(|drop| drop.label() == label)
            .unwrap();
        rows.iter().find(|row| row.drop == drop.id).unwrap()
    }

    #[test]
    fn every_drop_stands_once() {
        let (plan, rows) = rows();
        let mut listed: Vec<DropId> = rows.iter().map(|row| row.drop).collect();
        listed.sort();
        assert_eq!(
            listed,
            plan.drops.iter().map(|drop| drop.id).collect::<Vec<_>>()
        );
    }

    #[test]
    fn a_row_alone_is_that_of_the_list_and_is_found_by_its_words() {
        let (plan, rows) = rows();
        let framing = Framing::of(&plan);
        for row in &rows {
            assert_eq!(room_row(&plan, &framing, row.drop).as_ref(), Some(row));
            let drop = plan.drop(row.drop).unwrap();
            let words = [drop.label(), row.heading(&plan)];
            assert!(words.iter().all(|words| row.answers(&plan, words)));
            for cable in &drop.cables {
                assert!(row.answers(&plan, &drop.cable_label(cable).to_lowercase()));
            }
            assert!(!row.answers(&plan, "nowhere at all"));
        }
    }

    #[test]
    fn offsets_run_from_the_inside_corners() {
        let (plan, rows) = rows();
        // W6 runs down from W1 (2x6) to W5 (2x4); its right face looks to the left of the sheet.
        let d4 = row(&plan, &rows, "D4");
        let half_2x6 = 139.7 / 2.0;
        let half_2x4 = 88.9 / 2.0;
        assert_eq!(d4.left, Some(Mm::rounded(1600.0 - half_2x6)));
        assert_eq!(d4.right, Some(Mm::rounded(4200.0 - 1600.0 - half_2x4)));
        // On a left face the hands change.
        let d6 = row(&plan, &rows, "D6");
        assert_eq!(d6.right, Some(Mm::rounded(1400.0 - half_2x6)));
    }

    #[test]
    fn a_ceiling_place_is_measured_from_two_walls() {
        let (plan, rows) = rows();
        let a15 = row(&plan, &rows, "A15");
        assert_eq!(a15.height, None);
        assert_eq!(a15.left, Some(Mm::rounded(3200.0 - 139.7 / 2.0)));
        assert_eq!(a15.right, Some(Mm::rounded(4850.0 - 4200.0 - 88.9 / 2.0)));
    }

    #[test]
    fn boxes_follow_clockwise_from_the_door() {
        assert!(quarters(Pos::new(1.0, 0.0)) < quarters(Pos::new(0.5, 1.0)));
        assert!(quarters(Pos::new(-1.0, 0.1)) < quarters(Pos::new(-1.0, -0.1)));
        assert!(quarters(Pos::new(0.0, -1.0)) < quarters(Pos::new(1.0, -0.1)));
        let middle = Pos::new(0.0, 0.0);
        let door = Pos::new(0.0, 1.0);
        let turn = |x, y| round(middle, door, Pos::new(x, y));
        assert!(turn(-1.0, 0.0) < turn(0.0, -1.0));
        assert!(turn(0.0, -1.0) < turn(1.0, 0.0));
    }

    /// A bare box says what it is; with what it hangs on, marks and a note these follow it.
    #[test]
    fn an_instruction_is_its_parts_in_order() {
        let mut told = Instruction {
            fixing: BoxKind::Bracket,
            hang: None,
            marks: Vec::new(),
            note: String::from("low"),
        };
        let words = |told: &Instruction| [told.to_string(), told.without_fixing()];
        assert_eq!(words(&told), ["low-voltage bracket: low", "low"]);
        told.marks = vec!["outdoors", "spare"];
        assert_eq!(told.without_fixing(), "outdoors, spare: low");
        told.hang = Some(String::from("on stud 4"));
        let all = "low-voltage bracket on stud 4, outdoors, spare: low";
        assert_eq!(words(&told), [all, "on stud 4, outdoors, spare: low"]);
        told.note.clear();
        assert_eq!(told.without_fixing(), "on stud 4, outdoors, spare");
    }

    #[test]
    fn outdoors_comes_last() {
        let (plan, rows) = rows();
        let outdoors = |row: &RoomRow| plan.drop(row.drop).unwrap().outdoors;
        let first = rows.iter().position(outdoors).unwrap();
        assert!(rows[first..].iter().all(outdoors));
        assert!(rows[first..].iter().all(|row| row.room.is_none()));
    }
}
