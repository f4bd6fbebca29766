//! What holds of every snap: it follows the drawing, not the order or the place it was drawn in.

use proptest::prelude::*;

use super::wall::Aim;
use crate::desk::trial::Trial;
use crate::desk::{Reach, Tool};
use crate::plan::{Level, LevelId, Lumber, Role, Wall, WallId};
use crate::shape::Point;
use crate::units::{Mm, Units};

/// Walls and pointers well within positive coordinates.
fn any_point() -> impl Strategy<Value = Point> {
    (2000..12_000i32, 2000..12_000i32).prop_map(|(x, y)| Point::new(x, y))
}

fn any_walls() -> impl Strategy<Value = Vec<Wall>> {
    let wall = (any_point(), -3000..3000i32, any::<bool>(), -400..400i32);
    prop::collection::vec(wall, 1..6).prop_map(|walls| {
        let made = (1..)
            .zip(walls)
            .map(|(number, (from, by, upright, slant))| {
                let to = match upright {
                    true => Point::new(from.x + slant / 8 * 8, from.y + by),
                    false => Point::new(from.x + by, from.y + slant / 300 * 300),
                };
                Wall::new(WallId(number), from, to, Lumber::TwoByFour, Role::Partition)
            });
        made.filter(|wall| wall.from != wall.to).collect()
    })
}

fn level(walls: &[Wall]) -> Level {
    let mut level = Level::new(LevelId(1), "Ground");
    level.walls = walls.to_vec();
    level
}

fn snapped(level: &Level, chain: &[Point], at: Point, around: i32) -> (Point, String) {
    let aim = Aim {
        level,
        chain,
        length: None,
        moving: None,
        reach: Reach {
            around: Mm(around),
            free: false,
        },
        units: Units::Metric,
    };
    let snap = aim.snap(at);
    let words = snap.as_ref().map(|snap| snap.words()).unwrap_or_default();
    (snap.map_or(at, |snap| snap.at), words)
}

fn shifted(at: Point, by: Point) -> Point {
    Point::new(at.x + by.x, at.y + by.y)
}

proptest! {
    /// A rectangle tapped with an unsteady hand comes out square, and closes.
    #[test]
    fn an_unsteady_hand_draws_square(
        wide in 1500..9000i32, high in 1500..9000i32,
        off in prop::collection::vec((-45..45i32, -45..45i32), 5),
    ) {
        let corners = [(0, 0), (wide, 0), (wide, high), (0, high), (0, 0)];
        let trial = corners.iter().zip(&off).fold(
            Trial::new().take(Tool::Wall),
            |trial, ((x, y), (dx, dy))| trial.tap(x + dx, y + dy),
        );
        let walls = trial.walls();
        prop_assert_eq!(walls.len(), 4);
        prop_assert!(walls.iter().all(|[x, y, to_x, to_y]| x == to_x || y == to_y));
        prop_assert_eq!(walls[3][2..].to_vec(), walls[0][..2].to_vec());
        prop_assert!(trial.session.draft.is_none());
        prop_assert!(trial.session.design.framing.levels[0].outline.closed);
    }

    /// The order walls were drawn in decides nothing.
    #[test]
    fn the_order_of_walls_decides_nothing(
        walls in any_walls(), start in any_point(), at in any_point(), around in 20..400i32,
    ) {
        let mut turned = walls.clone();
        turned.reverse();
        for chain in [&[][..], &[start]] {
            prop_assert_eq!(
                snapped(&level(&walls), chain, at, around),
                snapped(&level(&turned), chain, at, around)
            );
        }
    }

    /// Moved by whole steps, everything is held on to as before.
    #[test]
    fn the_place_of_the_drawing_decides_nothing(
        walls in any_walls(), start in any_point(), at in any_point(), around in 20..400i32,
        across in 0..200i32, down in 0..200i32,
    ) {
        let by = Point::new(across * 25, down * 25);
        let moved: Vec<Wall> = walls
            .iter()
            .map(|wall| Wall { from: shifted(wall.from, by), to: shifted(wall.to, by), ..*wall })
            .collect();
        let here = snapped(&level(&walls), &[start], at, around);
        let there = snapped(&level(&moved), &[shifted(start, by)], shifted(at, by), around);
        prop_assert_eq!(there, (shifted(here.0, by), here.1));
    }

    /// A pointer is never led far astray: at most by its reach where something is near, by the
    /// share of the distance that counts as a direction, or by half a step.
    #[test]
    fn a_snap_stays_near_the_pointer(
        walls in any_walls(), start in any_point(), at in any_point(), around in 20..400i32,
    ) {
        let (to, words) = snapped(&level(&walls), &[start], at, around);
        let led = to.pos().distance(at.pos());
        let aim = 0.07 * start.pos().distance(at.pos());
        prop_assert!(led <= 3.0 * (f64::from(around).max(70.0) + aim), "{} {}", led, words);
    }
}
