//! A small picture of a job: the walls of its fullest level, as a path of straight strokes.

use std::fmt::Write;

use crate::plan::Plan;

/// Across and down, in units of the picture.
const WIDE: i64 = 240;
const HIGH: i64 = 160;

/// More walls than can be told apart at that size.
const MOST: usize = 300;

/// The longest path that is taken for one of ours.
const LONGEST: usize = 20 * MOST;

/// The path, for a picture of 240 by 160 units; empty for a plan without walls. One `M` and one `L` a
/// wall, in whole units.
pub fn sketch(plan: &Plan) -> String {
    let fullest = plan.levels.iter().max_by_key(|level| level.walls.len());
    let walls = fullest.map_or(&[][..], |level| level.walls.as_slice());
    let walls = &walls[..walls.len().min(MOST)];
    let ends = || walls.iter().flat_map(|wall| [wall.from, wall.to]);
    let bounds = |of: fn(&crate::shape::Point) -> i32| {
        let all = || ends().map(|end| i64::from(of(&end)));
        Some((all().min()?, all().max()?))
    };
    let Some(((left, right), (top, foot))) = bounds(|p| p.x).zip(bounds(|p| p.y)) else {
        return String::new();
    };
    let (across, down) = ((right - left).max(1), (foot - top).max(1));
    // The same scale both ways, the larger side touching the edge.
    let (most, of) = match across * HIGH > down * WIDE {
        true => (WIDE, across),
        false => (HIGH, down),
    };
    let x = |x: i32| (i64::from(x) - left) * most / of + (WIDE - across * most / of) / 2;
    let y = |y: i32| (i64::from(y) - top) * most / of + (HIGH - down * most / of) / 2;
    let mut path = String::new();
    for wall in walls {
        let (from, to) = (wall.from, wall.to);
        // Writing into a text cannot fail.
        let _ = write!(path, "M{} {}L{} {}", x(from.x), y(from.y), x(to.x), y(to.y));
    }
    path
}

/// Whether a text is a path such as these.
pub(super) fn is_sketch(text: &str) -> bool {
    let ours = |sign: char| matches!(sign, 'M' | 'L' | ' ' | '0'..='9');
    text.len() <= LONGEST && text.chars().all(ours)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::sample;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn every_plan_has_a_picture_within_its_frame(seed: u64, edits in 0_usize..200) {
            let plan = sample::plan(seed, edits);
            let path = sketch(&plan);
            prop_assert!(is_sketch(&path), "{}", path);
            let walls = plan.levels.iter().map(|level| level.walls.len()).max();
            prop_assert_eq!(path.matches('M').count(), walls.unwrap_or(0).min(MOST));
            for stroke in path.split(['M', 'L']).filter(|end| !end.is_empty()) {
                let (x, y) = stroke.split_once(' ').unwrap();
                prop_assert!(x.parse::<i64>().unwrap() <= WIDE, "{}", path);
                prop_assert!(y.parse::<i64>().unwrap() <= HIGH, "{}", path);
            }
        }
    }
}
