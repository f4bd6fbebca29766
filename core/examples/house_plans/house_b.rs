//! House B, invented: two storeys of 36 by 36 ft over a basement, I-joists front to back over a
//! bearing wall of 2x4 that stacks through all levels, 38 drops, the closet in the basement.

use borewright_core::plan::edit::Edit;
use borewright_core::plan::{
    Above, Below, DropKind, Entry, Floor, JoistKind, Lumber, Plan, Role, Wall,
};
use borewright_core::shape::Direction;
use borewright_core::units::Size;

use crate::Outcome;
use crate::draft::{BEARING, Draft, OUTSIDE, PARTITION, feet};

const SIDE: f64 = 36.0;
/// The bearing wall's line, feet from the north wall.
const CENTRE: f64 = 18.0;

pub fn plan() -> Outcome<Plan> {
    let mut draft = Draft::new("House B, two storeys over a basement")?;
    basement(&mut draft)?;
    ground(&mut draft)?;
    upper(&mut draft)?;
    let attic = Above::attic_over_trusses(Direction::ALONG_Y);
    draft.make(Edit::SetAbove(draft.level, attic))?;
    Ok(draft.plan)
}

/// I-joists 11-7/8 in deep, 16 in on centre, front to back.
fn joists() -> Floor {
    Floor {
        kind: JoistKind::IJoist,
        depth: Size::inches(11.875),
        spacing: Size::inches(16.0),
        ..Floor::sawn(Direction::ALONG_Y)
    }
}

fn next_level(draft: &mut Draft, name: &str, ceiling: f64) -> Outcome<()> {
    let floor = joists();
    draft.level_over(name, floor)?;
    draft.set_level(name, ceiling)
}

/// Stairs along the bearing wall; they close the floor over them.
fn stairs(draft: &mut Draft) -> Outcome<()> {
    draft.stairs_ft((20.5, 19.0), (24.0, 31.0), 3600)
}

fn basement(draft: &mut Draft) -> Outcome<()> {
    draft.set_level("Basement", 8.0)?;
    draft.make(Edit::SetBelow(draft.level, Below::Slab))?;
    // Foundation walls of concrete: nobody drills them.
    let concrete = (Lumber::Width(Size(203.0)), Role::Exterior);
    for wall in draft.box_ft((0.0, 0.0), (SIDE, SIDE), concrete)? {
        let (_, known) = draft.plan.wall(wall).ok_or("no such wall")?;
        let never_drill = true;
        draft.make(Edit::SetWall(Wall {
            never_drill,
            ..*known
        }))?;
    }
    let centre = draft.wall_ft((0.0, CENTRE), (SIDE, CENTRE), BEARING)?;
    draft.cased_ft(centre, 8.0, 5.0)?;
    draft.door_ft(centre, 25.0, 2.667)?;
    let mechanical = draft.wall_ft((27.0, CENTRE), (27.0, SIDE), PARTITION)?;
    draft.door_ft(mechanical, 12.0, 2.667)?;
    let storage = draft.wall_ft((22.0, 0.0), (22.0, CENTRE), PARTITION)?;
    draft.door_ft(storage, 10.0, 2.667)?;
    stairs(draft)?;
    draft.room_ft("Recreation", (10.0, 8.0))?;
    draft.room_ft("Storage", (29.0, 8.0))?;
    draft.room_ft("Workshop", (8.0, 28.0))?;
    draft.room_ft("Mechanical", (32.0, 28.0))?;
    draft.closet(feet((31.5, 19.0)), Entry::Either)?;
    draft.outlets_ft(&[(21.3, 4.0), (3.0, 17.3)])?;
    draft.drop_ft(DropKind::Television, (17.0, 17.3), 2)?;
    draft.drop_ft(DropKind::Data, (4.0, 18.7), 1)?;
    draft.drop_ft(DropKind::CeilingAccessPoint, (11.0, 10.0), 1)?;
    Ok(())
}

fn ground(draft: &mut Draft) -> Outcome<()> {
    next_level(draft, "Ground", 9.0)?;
    let [north, east, south, west] = draft.box_ft((0.0, 0.0), (SIDE, SIDE), OUTSIDE)?;
    let centre = draft.wall_ft((0.0, CENTRE), (SIDE, CENTRE), BEARING)?;
    let dining = draft.wall_ft((12.0, 0.0), (12.0, CENTRE), PARTITION)?;
    let study = draft.wall_ft((26.0, 0.0), (26.0, CENTRE), PARTITION)?;
    let living = draft.wall_ft((20.0, CENTRE), (20.0, SIDE), PARTITION)?;
    let entry = draft.wall_ft((27.0, CENTRE), (27.0, SIDE), PARTITION)?;
    let powder = draft.wall_ft((27.0, 25.0), (SIDE, 25.0), PARTITION)?;
    for (offset, width) in [(4.0, 5.0), (16.0, 5.0), (29.0, 5.0)] {
        draft.window_ft(north, offset, width, 914)?;
    }
    for (offset, width) in [(5.0, 4.0), (28.0, 3.0)] {
        draft.window_ft(east, offset, width, 762)?;
    }
    draft.door_ft(south, 12.0, 3.0)?;
    draft.window_ft(south, 20.0, 6.0, 610)?;
    draft.window_ft(west, 6.0, 6.0, 610)?;
    draft.window_ft(west, 25.0, 4.0, 762)?;
    draft.cased_ft(centre, 5.0, 5.0)?;
    draft.cased_ft(centre, 22.0, 3.0)?;
    draft.cased_ft(dining, 7.0, 5.0)?;
    draft.door_ft(study, 13.0, 2.667)?;
    draft.cased_ft(living, 9.0, 6.0)?;
    draft.door_ft(entry, 2.0, 2.333)?;
    draft.door_ft(entry, 12.0, 2.667)?;
    draft.window_ft(powder, 3.0, 2.0, 1219)?;
    stairs(draft)?;
    for (name, at) in [
        ("Dining", (6.0, 8.0)),
        ("Kitchen", (18.0, 8.0)),
        ("Study", (31.0, 8.0)),
        ("Living", (9.0, 28.0)),
        ("Entry", (25.5, 33.0)),
        ("Powder", (31.0, 21.0)),
        ("Mudroom", (31.0, 31.0)),
    ] {
        draft.room_ft(name, at)?;
    }
    draft.outlets_ft(&[
        (0.7, 4.0),
        (12.7, 3.0),
        (25.3, 16.0),
        (26.7, 4.0),
        (35.3, 14.0),
        (33.0, 17.3),
    ])?;
    draft.outlets_ft(&[(0.7, 21.0), (14.0, 35.3), (19.3, 30.0)])?;
    draft.drop_ft(DropKind::Television, (2.5, 18.7), 2)?;
    draft.drop_ft(DropKind::Television, (20.0, 17.3), 2)?;
    draft.drop_ft(DropKind::CeilingAccessPoint, (19.0, 12.0), 1)?;
    draft.drop_ft(DropKind::Data, (27.7, 33.0), 1)?;
    for corner in [(-0.8, -0.8), (36.8, -0.8), (36.8, 36.8), (-0.8, 36.8)] {
        draft.drop_ft(DropKind::Camera, corner, 1)?;
    }
    draft.drop_ft(DropKind::Doorbell, (20.2, 36.7), 1)?;
    Ok(())
}

fn upper(draft: &mut Draft) -> Outcome<()> {
    next_level(draft, "Upper", 8.0)?;
    let [north, east, south, west] = draft.box_ft((0.0, 0.0), (SIDE, SIDE), OUTSIDE)?;
    let centre = draft.wall_ft((0.0, CENTRE), (SIDE, CENTRE), BEARING)?;
    let bath = draft.wall_ft((13.0, 0.0), (13.0, CENTRE), PARTITION)?;
    let bedroom = draft.wall_ft((21.0, 0.0), (21.0, CENTRE), PARTITION)?;
    let hall = draft.wall_ft((0.0, 22.0), (18.0, 22.0), PARTITION)?;
    let suite = draft.wall_ft((18.0, 22.0), (18.0, SIDE), PARTITION)?;
    let laundry = draft.wall_ft((27.0, CENTRE), (27.0, SIDE), PARTITION)?;
    for (offset, width) in [(4.0, 5.0), (15.5, 3.0), (26.0, 5.0)] {
        draft.window_ft(north, offset, width, 914)?;
    }
    draft.window_ft(east, 7.0, 4.0, 914)?;
    draft.window_ft(east, 26.0, 3.0, 1219)?;
    draft.window_ft(south, 11.0, 4.0, 914)?;
    draft.window_ft(south, 24.0, 6.0, 762)?;
    draft.window_ft(west, 4.0, 5.0, 762)?;
    draft.window_ft(west, 25.0, 4.0, 914)?;
    for (wall, offset) in [
        (centre, 9.0),
        (centre, 16.0),
        (centre, 23.0),
        (hall, 13.0),
        (laundry, 6.0),
    ] {
        draft.door_ft(wall, offset, 2.667)?;
    }
    draft.door_ft(bath, 12.0, 2.333)?;
    draft.cased_ft(suite, 10.0, 3.0)?;
    draft.door_ft(bedroom, 1.0, 2.0)?;
    stairs(draft)?;
    for (name, at) in [
        ("Bedroom 2", (6.0, 8.0)),
        ("Bath", (17.0, 8.0)),
        ("Bedroom 3", (29.0, 8.0)),
        ("Hall", (9.0, 20.0)),
        ("Owner suite", (8.0, 29.0)),
        ("Landing", (25.5, 33.0)),
        ("Laundry", (31.5, 28.0)),
    ] {
        draft.room_ft(name, at)?;
    }
    draft.outlets_ft(&[
        (0.7, 15.0),
        (12.3, 4.0),
        (21.7, 9.0),
        (35.3, 15.0),
        (35.3, 3.0),
    ])?;
    draft.outlets_ft(&[(0.7, 24.0), (0.7, 33.0), (17.3, 25.0), (19.0, 35.3)])?;
    for mark in [(2.0, 17.3), (30.0, 17.3), (6.0, 22.7)] {
        draft.drop_ft(DropKind::Television, mark, 2)?;
    }
    draft.drop_ft(DropKind::Data, (27.7, 24.0), 1)?;
    draft.drop_ft(DropKind::CeilingAccessPoint, (12.0, 20.0), 1)?;
    draft.drop_ft(DropKind::WallAccessPoint, (19.0, 18.7), 1)?;
    Ok(())
}
