//! A first arrangement: each circle in turn goes to the free corner nearest the middle.
//!
//! Always without overlap, never the last word.

use super::chance::Chance;
use super::energy::{Point, between, length};

/// Places the circles in the given order and returns their centres by index.
pub(super) fn corner_by_corner(radii: &[f64], order: &[usize]) -> Vec<Point> {
    let mut placed: Vec<(Point, f64)> = Vec::with_capacity(radii.len());
    let mut centres = vec![[0.0; 2]; radii.len()];
    for &index in order {
        let radius = radii[index];
        let centre = best_corner(&placed, radius);
        placed.push((centre, radius));
        centres[index] = centre;
    }
    centres
}

/// The order largest first, loosened: each circle may be called up to `loose` places late.
pub(super) fn loose_order(count: usize, loose: usize, chance: &mut Chance) -> Vec<usize> {
    let mut waiting: Vec<usize> = (0..count).collect();
    let mut order = Vec::with_capacity(count);
    while !waiting.is_empty() {
        let pick = chance.below(waiting.len().min(loose + 1));
        order.push(waiting.remove(pick));
    }
    order
}

fn best_corner(placed: &[(Point, f64)], radius: f64) -> Point {
    match placed {
        [] => [0.0, 0.0],
        [(_, only)] => [only + radius, 0.0],
        _ => corners(placed, radius),
    }
}

/// The free spot nearest the middle that touches two circles already placed.
fn corners(placed: &[(Point, f64)], radius: f64) -> Point {
    let middle = middle_of(placed);
    let mut best = beside_all(placed, radius);
    let mut least = length(between(middle, best));
    for (index, first) in placed.iter().enumerate() {
        for second in placed.iter().take(index) {
            if !can_touch_both(*first, *second, radius) {
                continue;
            }
            for spot in touching(*first, *second, radius) {
                let far = length(between(middle, spot));
                if far < least && is_free(placed, spot, radius) {
                    (best, least) = (spot, far);
                }
            }
        }
    }
    best
}

/// Middle of the placed circles, each counted by its area.
fn middle_of(placed: &[(Point, f64)]) -> Point {
    let mut sum = [0.0; 3];
    for ([x, y], radius) in placed {
        let area = radius * radius;
        sum = [sum[0] + x * area, sum[1] + y * area, sum[2] + area];
    }
    [sum[0] / sum[2], sum[1] / sum[2]]
}

/// A spot outside all of them: there is always one.
fn beside_all(placed: &[(Point, f64)], radius: f64) -> Point {
    let edge = placed
        .iter()
        .map(|(centre, r)| centre[0] + r)
        .fold(0.0, f64::max);
    [edge + radius, 0.0]
}

fn can_touch_both(first: (Point, f64), second: (Point, f64), radius: f64) -> bool {
    let [dx, dy] = between(first.0, second.0);
    let reach = first.1 + second.1 + 2.0 * radius;
    dx * dx + dy * dy <= reach * reach
}

/// The two spots where a circle of given radius touches both circles; none if there are none.
fn touching(first: (Point, f64), second: (Point, f64), radius: f64) -> impl Iterator<Item = Point> {
    let [dx, dy] = between(first.0, second.0);
    let apart = (dx * dx + dy * dy).sqrt();
    let (near, far) = (first.1 + radius, second.1 + radius);
    let along = (apart * apart + near * near - far * far) / (2.0 * apart);
    let squared = near * near - along * along;
    let across = squared.max(0.0).sqrt();
    let (ux, uy) = (dx / apart, dy / apart);
    let foot = [first.0[0] + ux * along, first.0[1] + uy * along];
    let spots = [
        [foot[0] - uy * across, foot[1] + ux * across],
        [foot[0] + uy * across, foot[1] - ux * across],
    ];
    spots
        .into_iter()
        .filter(move |_| squared >= 0.0 && apart > 0.0)
}

fn is_free(placed: &[(Point, f64)], spot: Point, radius: f64) -> bool {
    placed.iter().all(|(centre, other)| {
        let [dx, dy] = between(*centre, spot);
        let reach = (radius + other) * (1.0 - 1e-9);
        dx * dx + dy * dy >= reach * reach
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn seven_equal_circles_start_as_a_flower() {
        let centres = corner_by_corner(&[1.0; 7], &[0, 1, 2, 3, 4, 5, 6]);
        let middle = middle_of(
            &centres
                .iter()
                .map(|centre| (*centre, 1.0))
                .collect::<Vec<_>>(),
        );
        let farthest = centres
            .iter()
            .map(|centre| length(between(middle, *centre)));
        assert!(farthest.fold(0.0, f64::max) < 2.5);
    }

    #[test]
    fn a_loose_order_names_everyone_once() {
        let mut order = loose_order(12, 4, &mut Chance::new(3));
        assert_ne!(order, (0..12).collect::<Vec<_>>());
        order.sort_unstable();
        assert_eq!(order, (0..12).collect::<Vec<_>>());
    }

    #[test]
    fn a_corner_touches_both() {
        let spots: Vec<_> = touching(([0.0, 0.0], 2.0), ([3.0, 0.0], 1.0), 1.0).collect();
        for spot in spots {
            assert!((length(spot) - 3.0).abs() < 1e-12);
            assert!((length(between([3.0, 0.0], spot)) - 2.0).abs() < 1e-12);
        }
    }
}
