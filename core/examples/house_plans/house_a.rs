//! House A: one storey on a slab under trusses, as its truth file has it.

use borewright_core::plan::edit::Edit;
use borewright_core::plan::{
    Above, Below, DropKind, Entry, Lumber, Opening, OpeningId, OpeningKind, Plan, Role, WallId,
};
use borewright_core::shape::{Direction, Point};
use borewright_core::units::Mm;
use serde::Deserialize;

use crate::Outcome;
use crate::draft::Draft;

#[derive(Deserialize)]
struct Truth {
    name: String,
    levels: Vec<Level>,
}

#[derive(Deserialize)]
struct Level {
    name: String,
    ceiling: i32,
    walls: Vec<Wall>,
    openings: Vec<Door>,
    rooms: Vec<Room>,
    marks: Vec<Mark>,
}

#[derive(Deserialize)]
struct Wall {
    a: [i32; 2],
    b: [i32; 2],
    role: String,
    lumber: String,
}

#[derive(Deserialize)]
struct Door {
    wall: usize,
    offset: i32,
    width: i32,
    kind: String,
    sill: i32,
    head: i32,
}

#[derive(Deserialize)]
struct Room {
    name: String,
    at: [i32; 2],
}

#[derive(Deserialize)]
struct Mark {
    kind: String,
    at: [i32; 2],
    cables: usize,
}

/// The plan of the truth file.
pub fn plan(truth: &[u8]) -> Outcome<Plan> {
    let truth: Truth = serde_json::from_slice(truth)?;
    let level = truth.levels.first().ok_or("House A has one level")?;
    let mut draft = Draft::new(&truth.name)?;
    draft.make(Edit::SetLevel {
        level: draft.level,
        name: level.name.clone(),
        ceiling: Mm(level.ceiling),
    })?;
    draft.make(Edit::SetBelow(draft.level, Below::Slab))?;
    // Trusses span north to south, 610 mm on centre: the usual 24 in.
    let attic = Above::attic_over_trusses(Direction::ALONG_Y);
    draft.make(Edit::SetAbove(draft.level, attic))?;
    let walls = walls(&mut draft, level)?;
    openings(&mut draft, level, &walls)?;
    for room in &level.rooms {
        draft.room(&room.name, point(room.at))?;
    }
    for mark in &level.marks {
        place(&mut draft, mark)?;
    }
    Ok(draft.plan)
}

fn point([x, y]: [i32; 2]) -> Point {
    Point::new(x, y)
}

fn walls(draft: &mut Draft, level: &Level) -> Outcome<Vec<WallId>> {
    let mut walls = Vec::new();
    for wall in &level.walls {
        let lumber = match wall.lumber.as_str() {
            "2x6" => Lumber::TwoBySix,
            _ => Lumber::TwoByFour,
        };
        let role = match wall.role.as_str() {
            "exterior" => Role::Exterior,
            "bearing" => Role::Bearing,
            _ => Role::Partition,
        };
        walls.push(draft.wall(point(wall.a), point(wall.b), (lumber, role))?);
    }
    // The garage lies east of the sixth wall and south of the twelfth.
    for place in [5, 11] {
        draft.garage_side(*walls.get(place).ok_or("a wall is missing")?)?;
    }
    Ok(walls)
}

fn openings(draft: &mut Draft, level: &Level, walls: &[WallId]) -> Outcome<()> {
    for door in &level.openings {
        let kind = match door.kind.as_str() {
            "window" => OpeningKind::Window,
            _ => OpeningKind::Door,
        };
        draft.make(Edit::AddOpening(Opening {
            id: OpeningId(0),
            wall: *walls.get(door.wall).ok_or("an opening names no wall")?,
            offset: Mm(door.offset),
            width: Mm(door.width),
            sill: Mm(door.sill),
            head: Mm(door.head),
            kind,
        }))?;
    }
    Ok(())
}

fn place(draft: &mut Draft, mark: &Mark) -> Outcome<()> {
    let kind = match mark.kind.as_str() {
        "closet" => return draft.closet(point(mark.at), Entry::Either),
        "television" => DropKind::Television,
        "access point" => DropKind::CeilingAccessPoint,
        "camera" => DropKind::Camera,
        "doorbell" => DropKind::Doorbell,
        _ => DropKind::Data,
    };
    draft.drop(kind, point(mark.at), mark.cables)?;
    Ok(())
}
