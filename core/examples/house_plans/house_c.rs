//! House C, invented: two storeys of 40 by 30 ft on a slab, floor of open-web trusses, 46 drops in
//! the house, and a detached garage 60 ft to the east drawn as walls of its own on the ground
//! level. The garage has no drops yet: the conduit between the buildings is not part of a plan
//! so far.

use borewright_core::plan::edit::Edit;
use borewright_core::plan::{
    Above, Below, CableKindId, DropKind, Entry, Floor, JoistKind, Lumber, Plan, Role,
};
use borewright_core::shape::Direction;
use borewright_core::units::Size;

use crate::Outcome;
use crate::draft::{Draft, OUTSIDE, PARTITION, feet};

const SIZE: (f64, f64) = (40.0, 30.0);
/// The bearing wall's line, feet from the north wall.
const CENTRE: f64 = 16.0;
const BEARING: (Lumber, Role) = (Lumber::TwoBySix, Role::Bearing);

pub fn plan() -> Outcome<Plan> {
    let mut draft = Draft::new("House C, two storeys and a garage apart")?;
    ground(&mut draft)?;
    garage(&mut draft)?;
    upper(&mut draft)?;
    Ok(draft.plan)
}

/// The stairs, which close the floor over them.
fn stairs(draft: &mut Draft) -> Outcome<()> {
    draft.stairs_ft((12.0, 17.0), (15.5, 28.0), 3400)
}

fn ground(draft: &mut Draft) -> Outcome<()> {
    draft.set_level("Ground", 9.0)?;
    draft.make(Edit::SetBelow(draft.level, Below::Slab))?;
    let [north, east, south, west] = draft.box_ft((0.0, 0.0), SIZE, OUTSIDE)?;
    let centre = draft.wall_ft((0.0, CENTRE), (40.0, CENTRE), BEARING)?;
    let pantry = draft.wall_ft((32.0, 0.0), (32.0, CENTRE), PARTITION)?;
    draft.wall_ft((32.0, 8.0), (40.0, 8.0), PARTITION)?;
    let office = draft.wall_ft((11.0, CENTRE), (11.0, 30.0), PARTITION)?;
    let media = draft.wall_ft((19.0, CENTRE), (19.0, 30.0), PARTITION)?;
    let closet = draft.wall_ft((32.0, CENTRE), (32.0, 30.0), PARTITION)?;
    draft.wall_ft((32.0, 22.0), (40.0, 22.0), PARTITION)?;
    for (offset, width) in [(3.0, 6.0), (12.0, 6.0), (24.0, 4.0)] {
        draft.window_ft(north, offset, width, 762)?;
    }
    draft.window_ft(east, 10.0, 3.0, 1219)?;
    draft.window_ft(south, 10.0, 8.0, 914)?;
    draft.door_ft(south, 23.5, 3.0)?;
    draft.window_ft(south, 31.0, 5.0, 762)?;
    draft.window_ft(west, 4.0, 5.0, 762)?;
    draft.window_ft(west, 19.0, 5.0, 610)?;
    for (offset, width) in [(4.0, 5.0), (14.0, 4.0), (23.0, 6.0)] {
        draft.cased_ft(centre, offset, width)?;
    }
    for (wall, offset) in [
        (pantry, 4.0),
        (pantry, 11.0),
        (office, 9.0),
        (media, 9.0),
        (closet, 1.5),
        (closet, 9.0),
    ] {
        draft.door_ft(wall, offset, 2.667)?;
    }
    stairs(draft)?;
    ground_rooms(draft)?;
    ground_drops(draft)
}

fn ground_rooms(draft: &mut Draft) -> Outcome<()> {
    for (name, at) in [
        ("Great room", (9.0, 8.0)),
        ("Kitchen", (26.0, 8.0)),
        ("Pantry", (36.0, 4.0)),
        ("Laundry", (36.0, 12.0)),
        ("Office", (5.0, 23.0)),
        ("Entry", (17.3, 26.0)),
        ("Media room", (25.5, 23.0)),
        ("Closet", (36.0, 19.0)),
        ("Powder", (36.0, 26.0)),
    ] {
        draft.room_ft(name, at)?;
    }
    Ok(())
}

fn ground_drops(draft: &mut Draft) -> Outcome<()> {
    draft.closet(feet((37.5, 17.0)), Entry::Above)?;
    draft.outlets_ft(&[
        (0.7, 2.0),
        (0.7, 13.0),
        (10.5, 0.7),
        (19.5, 0.7),
        (31.3, 10.0),
        (33.0, 15.3),
    ])?;
    draft.outlets_ft(&[(0.7, 18.0), (10.3, 18.0), (5.0, 29.3), (0.7, 27.0)])?;
    draft.outlets_ft(&[(19.7, 18.0), (19.7, 28.5), (31.3, 21.0)])?;
    draft.outlets_ft(&[(29.5, 0.7), (20.5, 15.3)])?;
    draft.drop_ft(DropKind::Television, (11.5, 15.3), 2)?;
    // The media wall: a television point with four more cables.
    draft.drop_ft(DropKind::Television, (31.3, 28.5), 6)?;
    draft.drop_ft(DropKind::CeilingAccessPoint, (17.0, 10.0), 1)?;
    draft.drop_ft(DropKind::CeilingAccessPoint, (25.0, 24.0), 1)?;
    for corner in [(-0.8, -0.8), (40.8, -0.8), (40.8, 30.8), (-0.8, 30.8)] {
        draft.drop_ft(DropKind::Camera, corner, 1)?;
    }
    draft.drop_ft(DropKind::Doorbell, (17.2, 30.7), 1)?;
    // The gate's call point is wired from the front corner, in outdoor cable.
    let gate = draft.drop_ft(DropKind::Doorbell, (38.0, 30.7), 1)?;
    let cable = draft.plan.drop(gate).and_then(|drop| drop.cables.first());
    let cable = cable.ok_or("the gate has a cable")?.id;
    draft.make(Edit::SetCable(cable, CableKindId::CAT6_OUTDOOR))
}

/// 22 by 22 ft, its near wall 60 ft east of the house.
fn garage(draft: &mut Draft) -> Outcome<()> {
    let outside = (Lumber::TwoByFour, Role::Exterior);
    let [_, _, south, west] = draft.box_ft((100.0, 4.0), (22.0, 22.0), outside)?;
    draft.door_ft(south, 3.0, 16.0)?;
    draft.door_ft(west, 4.0, 3.0)?;
    draft.room_ft("Garage", (111.0, 15.0))
}

fn upper(draft: &mut Draft) -> Outcome<()> {
    draft.level_over(
        "Upper",
        Floor {
            kind: JoistKind::OpenWeb,
            depth: Size::inches(16.0),
            spacing: Size::inches(24.0),
            ..Floor::sawn(Direction::ALONG_Y)
        },
    )?;
    draft.set_level("Upper", 8.0)?;
    let attic = Above::attic_over_trusses(Direction::ALONG_Y);
    draft.make(Edit::SetAbove(draft.level, attic))?;
    let [north, east, south, west] = draft.box_ft((0.0, 0.0), SIZE, OUTSIDE)?;
    let centre = draft.wall_ft((0.0, CENTRE), (40.0, CENTRE), BEARING)?;
    let bath = draft.wall_ft((12.0, 0.0), (12.0, CENTRE), PARTITION)?;
    draft.wall_ft((18.0, 0.0), (18.0, CENTRE), PARTITION)?;
    draft.wall_ft((29.0, 0.0), (29.0, CENTRE), PARTITION)?;
    let hall = draft.wall_ft((19.0, 20.0), (40.0, 20.0), PARTITION)?;
    let suite = draft.wall_ft((19.0, 20.0), (19.0, 30.0), PARTITION)?;
    let loft = draft.wall_ft((11.0, CENTRE), (11.0, 30.0), PARTITION)?;
    let owner_bath = draft.wall_ft((32.0, 20.0), (32.0, 30.0), PARTITION)?;
    for (offset, width) in [(4.0, 5.0), (14.0, 2.5), (21.0, 5.0), (32.0, 5.0)] {
        draft.window_ft(north, offset, width, 914)?;
    }
    draft.window_ft(east, 6.0, 4.0, 914)?;
    draft.window_ft(east, 24.0, 3.0, 1219)?;
    draft.window_ft(south, 11.0, 5.0, 914)?;
    draft.window_ft(south, 32.0, 5.0, 762)?;
    draft.window_ft(west, 4.0, 4.0, 914)?;
    for (wall, offset) in [
        (centre, 8.0),
        (centre, 13.5),
        (centre, 20.0),
        (centre, 30.5),
        (hall, 2.0),
        (owner_bath, 5.0),
    ] {
        draft.door_ft(wall, offset, 2.667)?;
    }
    draft.cased_ft(loft, 1.0, 2.667)?;
    draft.window_ft(suite, 3.0, 2.0, 1219)?;
    draft.door_ft(bath, 12.0, 2.333)?;
    stairs(draft)?;
    upper_rooms(draft)?;
    upper_drops(draft)
}

fn upper_rooms(draft: &mut Draft) -> Outcome<()> {
    for (name, at) in [
        ("Bedroom 2", (6.0, 8.0)),
        ("Bath", (15.0, 8.0)),
        ("Bedroom 3", (23.5, 8.0)),
        ("Bedroom 4", (34.5, 8.0)),
        ("Loft", (5.0, 23.0)),
        ("Hall", (28.0, 18.0)),
        ("Owner suite", (25.5, 26.0)),
        ("Owner bath", (36.0, 26.0)),
    ] {
        draft.room_ft(name, at)?;
    }
    Ok(())
}

fn upper_drops(draft: &mut Draft) -> Outcome<()> {
    draft.outlets_ft(&[
        (0.7, 2.0),
        (11.3, 8.0),
        (18.7, 4.0),
        (28.3, 12.0),
        (29.7, 4.0),
        (39.3, 13.0),
    ])?;
    draft.outlets_ft(&[(0.7, 18.0), (10.3, 22.0), (3.0, 29.3)])?;
    draft.outlets_ft(&[(19.7, 28.0), (31.3, 22.0), (29.0, 29.3)])?;
    for mark in [
        (5.0, 15.3),
        (26.0, 15.3),
        (37.0, 15.3),
        (0.7, 25.0),
        (26.0, 20.7),
    ] {
        draft.drop_ft(DropKind::Television, mark, 2)?;
    }
    draft.drop_ft(DropKind::CeilingAccessPoint, (21.0, 18.0), 1)?;
    draft.drop_ft(DropKind::WallAccessPoint, (8.0, 16.7), 1)?;
    draft.drop_ft(DropKind::Data, (33.0, 19.3), 1)?;
    draft.drop_ft(DropKind::Camera, (14.0, 30.8), 1)?;
    Ok(())
}
