//! The second demo: an invented house of two storeys over a crawl space, 2,000 sq ft, 30 drops, a
//! hand-drawn sheet under each level. Cable goes up and down through stacked and unstacked walls and
//! a floor of I-joists.

use borewright_core::plan::edit::Edit;
use borewright_core::plan::{
    Above, Below, DropKind, Entry, Floor, JoistKind, Lumber, Placing, Plan, Role,
};
use borewright_core::shape::Direction;
use borewright_core::units::Size;

use crate::Outcome;
use crate::draft::{Draft, OUTSIDE, PARTITION, feet};
use crate::drawing::{self, Dimension, Sheet, Turn};

const SIZE: (f64, f64) = (36.0, 28.0);
const BEARING: (Lumber, Role) = (Lumber::TwoBySix, Role::Bearing);

/// How the two sheets were laid on the scanner: 11 mm of the house to a pixel, each a little turned.
const GROUND: Placing = Placing {
    origin: (-2100.0, -1900.0),
    scale: 11.0,
    turn: (0.999_961_9, 0.008_727),
    scaled: true,
};
const UPPER: Placing = Placing {
    origin: (-1900.0, -2050.0),
    scale: 11.0,
    turn: (0.999_986_3, -0.005_236),
    scaled: true,
};

const GROUND_DIMENSIONS: [Dimension; 4] = [
    ((0.0, -3.4), (36.0, -3.4), "36'-0\"", Turn::Level),
    ((0.0, -1.6), (16.0, -1.6), "16'-0\"", Turn::Level),
    ((-3.4, 0.0), (-3.4, 28.0), "28'-0\"", Turn::Upright),
    ((37.8, 14.0), (37.8, 28.0), "14'-0\"", Turn::Upright),
];
const UPPER_DIMENSIONS: [Dimension; 4] = [
    ((0.0, -3.4), (36.0, -3.4), "36'-0\"", Turn::Level),
    ((19.0, -1.6), (36.0, -1.6), "17'-0\"", Turn::Level),
    ((-3.4, 0.0), (-3.4, 28.0), "28'-0\"", Turn::Upright),
    ((37.8, 20.0), (37.8, 28.0), "8'-0\"", Turn::Upright),
];

/// The house with a drawing under each level.
pub fn plan() -> Outcome<Plan> {
    let mut draft = Draft::new("Larch House, plot 4")?;
    draft.make(Edit::SetNote(String::from(
        "An invented house of two storeys to try things on. Start a new plan for your own.",
    )))?;
    ground(&mut draft)?;
    lay(
        &mut draft,
        GROUND,
        &GROUND_DIMENSIONS,
        "Ground floor, 9 ft ceilings",
    )?;
    ground_drops(&mut draft)?;
    upper(&mut draft)?;
    lay(
        &mut draft,
        UPPER,
        &UPPER_DIMENSIONS,
        "Upper floor, 8 ft ceilings",
    )?;
    upper_drops(&mut draft)?;
    draft.hang()?;
    Ok(draft.plan)
}

fn lay(
    draft: &mut Draft,
    placing: Placing,
    dimensions: &[Dimension],
    subtitle: &str,
) -> Outcome<()> {
    let level = draft.plan.level(draft.level).ok_or("the level is gone")?;
    let sheet = Sheet {
        size: (1450, 1180),
        placing,
        dimensions,
        title_at: (18.0, 31.4),
        subtitle,
        north_at: (38.4, 10.0),
    };
    let picture = drawing::draw(&draft.plan, level, &sheet)?;
    let known = [
        ((0.0, -3.4), (36.0, -3.4), (0.3, -0.4), (-0.4, 0.2)),
        ((-3.4, 0.0), (-3.4, 28.0), (0.1, 0.4), (0.3, -0.4)),
    ];
    draft.lay(picture, &placing, &known)
}

/// The stairs, which close the floor over them.
fn stairs(draft: &mut Draft) -> Outcome<()> {
    draft.stairs_ft((17.0, 16.0), (20.5, 26.5), 3400)
}

fn ground(draft: &mut Draft) -> Outcome<()> {
    draft.set_level("Ground", 9.0)?;
    draft.make(Edit::SetBelow(
        draft.level,
        Below::Crawl(Floor::sawn(Direction::ALONG_Y)),
    ))?;
    let [north, east, south, west] = draft.box_ft((0.0, 0.0), SIZE, OUTSIDE)?;
    let spine = draft.wall_ft((0.0, 14.0), (36.0, 14.0), BEARING)?;
    let dining = draft.wall_ft((24.0, 0.0), (24.0, 14.0), PARTITION)?;
    let closet = draft.wall_ft((24.0, 8.0), (36.0, 8.0), PARTITION)?;
    let living = draft.wall_ft((16.0, 14.0), (16.0, 28.0), PARTITION)?;
    let study = draft.wall_ft((22.0, 14.0), (22.0, 28.0), PARTITION)?;
    for (wall, offset, width, sill) in [
        (north, 4.0, 6.0, 1067),
        (north, 15.0, 4.0, 762),
        (east, 18.0, 5.0, 762),
        (south, 4.0, 5.0, 762),
        (south, 24.0, 6.0, 610),
        (west, 4.0, 5.0, 610),
        (west, 18.0, 4.0, 1067),
    ] {
        draft.window_ft(wall, offset, width, sill)?;
    }
    draft.door_ft(south, 15.5, 3.0)?;
    draft.door_ft(east, 2.5, 2.667)?;
    draft.cased_ft(spine, 4.0, 6.0)?;
    draft.door_ft(spine, 17.0, 2.667)?;
    for (wall, offset) in [(dining, 4.0), (dining, 9.5), (closet, 7.5), (study, 1.5)] {
        draft.door_ft(wall, offset, 2.667)?;
    }
    draft.cased_ft(living, 9.0, 4.0)?;
    stairs(draft)?;
    for (name, at) in [
        ("Kitchen", (8.0, 7.0)),
        ("Dining", (20.0, 7.0)),
        ("Utility", (30.0, 4.0)),
        ("Closet", (30.0, 11.0)),
        ("Living", (8.0, 21.0)),
        ("Hall", (19.0, 15.3)),
        ("Study", (29.0, 21.0)),
    ] {
        draft.room_ft(name, at)?;
    }
    Ok(())
}

fn ground_drops(draft: &mut Draft) -> Outcome<()> {
    draft.closet(feet((27.0, 8.7)), Entry::Either)?;
    for (mark, cables) in [
        ((0.7, 11.5), 1),
        ((11.5, 0.7), 1),
        ((23.3, 7.8), 2),
        ((35.3, 5.0), 1),
        ((0.7, 16.0), 2),
        ((15.3, 26.0), 2),
        ((35.3, 16.0), 2),
        ((22.7, 20.0), 2),
    ] {
        draft.drop_ft(DropKind::Data, mark, cables)?;
    }
    draft.drop_ft(DropKind::Television, (15.3, 19.0), 2)?;
    draft.drop_ft(DropKind::CeilingAccessPoint, (12.0, 16.5), 1)?;
    for corner in [(-0.8, -0.8), (36.8, -0.8), (36.8, 28.8), (-0.8, 28.8)] {
        draft.drop_ft(DropKind::Camera, corner, 1)?;
    }
    draft.drop_ft(DropKind::Doorbell, (21.4, 28.7), 1)?;
    Ok(())
}

fn upper(draft: &mut Draft) -> Outcome<()> {
    draft.level_over(
        "Upper",
        Floor {
            kind: JoistKind::IJoist,
            depth: Size::inches(11.875),
            spacing: Size::inches(16.0),
            ..Floor::sawn(Direction::ALONG_Y)
        },
    )?;
    draft.set_level("Upper", 8.0)?;
    let attic = Above::attic_over_trusses(Direction::ALONG_Y);
    draft.make(Edit::SetAbove(draft.level, attic))?;
    let [north, east, south, west] = draft.box_ft((0.0, 0.0), SIZE, OUTSIDE)?;
    let spine = draft.wall_ft((0.0, 14.0), (36.0, 14.0), BEARING)?;
    draft.wall_ft((12.0, 0.0), (12.0, 14.0), PARTITION)?;
    draft.wall_ft((19.0, 0.0), (19.0, 14.0), PARTITION)?;
    let suite = draft.wall_ft((14.0, 14.0), (14.0, 28.0), PARTITION)?;
    let landing = draft.wall_ft((22.0, 14.0), (22.0, 28.0), PARTITION)?;
    let play = draft.wall_ft((22.0, 20.0), (36.0, 20.0), PARTITION)?;
    for (wall, offset, width, sill) in [
        (north, 3.5, 5.0, 914),
        (north, 14.5, 2.0, 1219),
        (north, 25.0, 5.0, 914),
        (east, 15.5, 3.0, 914),
        (south, 4.0, 5.0, 914),
        (south, 25.0, 6.0, 762),
        (west, 4.5, 4.0, 914),
    ] {
        draft.window_ft(wall, offset, width, sill)?;
    }
    for (wall, offset) in [(spine, 8.5), (spine, 15.0), (spine, 26.0), (play, 3.0)] {
        draft.door_ft(wall, offset, 2.333)?;
    }
    draft.door_ft(suite, 3.0, 2.667)?;
    draft.cased_ft(landing, 1.0, 4.0)?;
    stairs(draft)?;
    for (name, at) in [
        ("Bedroom 1", (6.0, 7.0)),
        ("Bath", (15.5, 7.0)),
        ("Bedroom 2", (27.5, 7.0)),
        ("Bedroom 3", (7.0, 21.0)),
        ("Play", (29.0, 17.0)),
        ("Owner suite", (29.0, 24.0)),
        ("Landing", (18.0, 15.3)),
    ] {
        draft.room_ft(name, at)?;
    }
    Ok(())
}

fn upper_drops(draft: &mut Draft) -> Outcome<()> {
    draft.outlets_ft(&[(0.7, 11.0), (19.7, 9.0), (35.3, 4.0)])?;
    draft.outlets_ft(&[(0.7, 24.0), (35.3, 26.0), (22.7, 22.0)])?;
    for mark in [(11.3, 6.0), (29.0, 13.3), (10.0, 27.3), (29.0, 20.7)] {
        draft.drop_ft(DropKind::Television, mark, 2)?;
    }
    draft.drop_ft(DropKind::Data, (34.0, 19.3), 1)?;
    draft.drop_ft(DropKind::CeilingAccessPoint, (25.0, 17.0), 1)?;
    draft.drop_ft(DropKind::WallAccessPoint, (13.3, 18.5), 1)?;
    Ok(())
}
