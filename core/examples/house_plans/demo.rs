//! The demo: an invented house of one storey on a slab with a wing, 1,700 sq ft, 22 drops, lying
//! on a sheet drawn by our own hand.

use borewright_core::plan::edit::Edit;
use borewright_core::plan::{Above, Below, DropKind, Entry, Lumber, Placing, Plan, Role, Scan};
use borewright_core::shape::Direction;
use borewright_core::units::Mm;

use crate::Outcome;
use crate::draft::{BEARING, Draft, OUTSIDE, PARTITION, feet};
use crate::drawing::{self, Dimension, Sheet, Turn};

/// How the sheet was laid on the scanner: 10.6 mm of the house to a pixel, turned by 0.7 degrees.
const SCANNED: Placing = Placing {
    origin: (-3300.0, -1800.0),
    scale: 10.6,
    turn: (0.999_925_37, 0.012_217),
    scaled: true,
};

/// The dimensions the owner took.
const DIMENSIONS: [Dimension; 6] = [
    ((0.0, -3.6), (48.0, -3.6), "48'-0\"", Turn::Level),
    ((0.0, -1.7), (12.0, -1.7), "12'-0\"", Turn::Level),
    ((19.0, -1.7), (30.0, -1.7), "11'-0\"", Turn::Level),
    ((-3.6, 0.0), (-3.6, 46.0), "46'-0\"", Turn::Upright),
    ((50.6, 0.0), (50.6, 28.0), "28'-0\"", Turn::Upright),
    ((0.0, 48.3), (20.0, 48.3), "20'-0\"", Turn::Level),
];

/// The house with its drawing under it.
pub fn plan() -> Outcome<Plan> {
    let mut draft = house()?;
    let level = draft.plan.levels.first().ok_or("a plan has a level")?;
    let sheet = Sheet {
        size: (2000, 1600),
        placing: SCANNED,
        dimensions: &DIMENSIONS,
        title_at: (37.5, 38.0),
        subtitle: "Ground floor, slab, 9 ft ceilings",
        north_at: (52.5, 42.0),
    };
    let picture = drawing::draw(&draft.plan, level, &sheet)?;
    lay(&mut draft, picture)?;
    drops(&mut draft)?;
    draft.hang()?;
    Ok(draft.plan)
}

fn house() -> Outcome<Draft> {
    let mut draft = Draft::new("Quince House, plot 9")?;
    draft.make(Edit::SetNote(String::from(
        "An invented house to try things on. Start a new plan for your own.",
    )))?;
    draft.make(Edit::SetLevel {
        level: draft.level,
        name: String::from("Ground"),
        ceiling: Mm::feet(9.0),
    })?;
    draft.make(Edit::SetBelow(draft.level, Below::Slab))?;
    let attic = Above::attic_over_trusses(Direction::ALONG_Y);
    draft.make(Edit::SetAbove(draft.level, attic))?;
    outside(&mut draft)?;
    inside(&mut draft)?;
    rooms(&mut draft)?;
    Ok(draft)
}

fn outside(draft: &mut Draft) -> Outcome<()> {
    let north = draft.wall_ft((0.0, 0.0), (48.0, 0.0), OUTSIDE)?;
    let east = draft.wall_ft((48.0, 0.0), (48.0, 28.0), OUTSIDE)?;
    let south = draft.wall_ft((48.0, 28.0), (20.0, 28.0), OUTSIDE)?;
    let wing_east = draft.wall_ft((20.0, 28.0), (20.0, 46.0), OUTSIDE)?;
    let wing_south = draft.wall_ft((20.0, 46.0), (0.0, 46.0), OUTSIDE)?;
    let west = draft.wall_ft((0.0, 46.0), (0.0, 0.0), OUTSIDE)?;
    for (offset, width, sill) in [
        (4.0, 4.0, 762),
        (14.5, 2.0, 1219),
        (22.5, 5.0, 762),
        (36.0, 5.0, 1067),
    ] {
        draft.window_ft(north, offset, width, sill)?;
    }
    draft.window_ft(east, 4.0, 3.0, 762)?;
    draft.window_ft(east, 17.0, 6.0, 457)?;
    draft.window_ft(south, 6.0, 8.0, 610)?;
    draft.door_ft(south, 18.0, 3.0)?;
    draft.door_ft(wing_east, 3.0, 2.667)?;
    draft.door_ft(wing_south, 5.5, 9.0)?;
    draft.window_ft(west, 21.0, 6.0, 762)?;
    draft.window_ft(west, 38.0, 4.0, 762)
}

fn inside(draft: &mut Draft) -> Outcome<()> {
    let spine = draft.wall_ft((0.0, 12.0), (48.0, 12.0), BEARING)?;
    let garage = draft.wall_ft((0.0, 28.0), (20.0, 28.0), (Lumber::TwoBySix, Role::Bearing))?;
    draft.garage_side(garage)?;
    draft.wall_ft((12.0, 0.0), (12.0, 12.0), PARTITION)?;
    draft.wall_ft((19.0, 0.0), (19.0, 12.0), PARTITION)?;
    draft.wall_ft((30.0, 0.0), (30.0, 12.0), PARTITION)?;
    let hall = draft.wall_ft((0.0, 16.0), (26.0, 16.0), PARTITION)?;
    let living = draft.wall_ft((20.0, 16.0), (20.0, 28.0), PARTITION)?;
    draft.wall_ft((26.0, 16.0), (26.0, 20.0), PARTITION)?;
    draft.wall_ft((20.0, 20.0), (26.0, 20.0), PARTITION)?;
    draft.wall_ft((14.0, 20.0), (20.0, 20.0), PARTITION)?;
    draft.wall_ft((14.0, 20.0), (14.0, 28.0), PARTITION)?;
    draft.door_ft(spine, 9.0, 2.667)?;
    draft.door_ft(spine, 15.0, 2.333)?;
    draft.door_ft(spine, 26.5, 2.667)?;
    draft.cased_ft(spine, 33.0, 7.0)?;
    draft.door_ft(hall, 15.0, 2.667)?;
    draft.door_ft(hall, 22.5, 2.333)?;
    draft.door_ft(living, 6.0, 2.667)?;
    draft.door_ft(garage, 15.5, 2.667)
}

fn rooms(draft: &mut Draft) -> Outcome<()> {
    for (name, at) in [
        ("Bedroom 1", (6.0, 6.0)),
        ("Bath", (15.5, 6.0)),
        ("Bedroom 2", (24.5, 6.0)),
        ("Kitchen", (39.0, 6.0)),
        ("Hall", (10.0, 14.0)),
        ("Closet", (23.0, 18.4)),
        ("Owner suite", (7.0, 22.0)),
        ("Laundry", (17.0, 22.8)),
        ("Living", (35.0, 20.5)),
        ("Garage", (10.0, 37.0)),
    ] {
        draft.room_ft(name, at)?;
    }
    Ok(())
}

/// Puts the drawing under the level, scaled by two of its dimensions.
fn lay(draft: &mut Draft, picture: Scan) -> Outcome<()> {
    let known = [
        ((0.0, -3.6), (48.0, -3.6), (0.4, -0.3), (-0.5, 0.4)),
        ((-3.6, 0.0), (-3.6, 46.0), (0.2, 0.5), (0.4, -0.3)),
    ];
    draft.lay(picture, &SCANNED, &known)
}

fn drops(draft: &mut Draft) -> Outcome<()> {
    draft.closet(feet((20.8, 18.0)), Entry::Either)?;
    let outlets = [
        ((0.7, 10.0), 2),
        ((11.3, 3.0), 1),
        ((19.7, 9.0), 2),
        ((30.7, 5.0), 1),
        ((47.3, 9.5), 2),
        ((0.7, 26.5), 2),
        ((13.3, 26.5), 1),
        ((47.3, 15.0), 2),
        ((33.0, 27.3), 2),
        ((14.7, 26.0), 1),
        ((19.3, 42.0), 1),
    ];
    for (mark, cables) in outlets {
        draft.drop_ft(DropKind::Data, mark, cables)?;
    }
    for mark in [(29.3, 4.0), (8.0, 16.7), (44.0, 12.7)] {
        draft.drop_ft(DropKind::Television, mark, 2)?;
    }
    draft.drop_ft(DropKind::CeilingAccessPoint, (13.0, 14.0), 1)?;
    draft.drop_ft(DropKind::CeilingAccessPoint, (37.0, 17.0), 1)?;
    draft.drop_ft(DropKind::WallAccessPoint, (0.7, 34.0), 1)?;
    for corner in [(-0.8, -0.8), (48.8, -0.8), (48.8, 28.8), (-0.8, 46.8)] {
        draft.drop_ft(DropKind::Camera, corner, 1)?;
    }
    draft.drop_ft(DropKind::Doorbell, (26.2, 28.7), 1)?;
    Ok(())
}
