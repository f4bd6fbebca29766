//! Which walls of a level belong to one building.

use crate::design::Design;
use crate::picture::Shape;
use crate::plan::{Level, Wall};
use crate::shape::Pos;

/// Walls nearer than this belong to one building, millimetres.
const TOGETHER: f64 = 600.0;
/// What is drawn around a building: drops and what hangs outside, millimetres.
const AROUND: f64 = 900.0;

/// What has to fit for the whole level: its walls and its outline; a room's size where nothing is
/// drawn yet.
pub(super) fn whole(design: &Design, level: &Level) -> (Pos, Pos) {
    let outline = design.framing.level(level.id);
    let outline = outline
        .into_iter()
        .flat_map(|level| level.outline.loops.iter().flatten().copied());
    let corners: Vec<Pos> = level.walls.iter().flat_map(ends).chain(outline).collect();
    let around = Shape::Area(corners).bounds(1.0);
    around.unwrap_or((Pos::default(), Pos::new(10_000.0, 7_000.0)))
}

/// Corners around each building of a level, the largest first.
pub(super) fn apart(level: &Level) -> Vec<(Pos, Pos)> {
    let mut left: Vec<&Wall> = level.walls.iter().collect();
    let mut buildings: Vec<(Pos, Pos)> = Vec::new();
    while !left.is_empty() {
        let mut building = vec![left.remove(0)];
        let mut place = 0;
        while place < building.len() {
            let wall = building[place];
            let (near, far): (Vec<&Wall>, Vec<&Wall>) =
                left.iter().partition(|other| touch(wall, other));
            building.extend(near);
            left = far;
            place += 1;
        }
        let corners: Vec<Pos> = building.into_iter().flat_map(ends).collect();
        buildings.extend(Shape::Area(corners).bounds(1.0));
    }
    let size = |(low, high): &(Pos, Pos)| (high.x - low.x) * (high.y - low.y);
    buildings.sort_by(|a, b| size(b).total_cmp(&size(a)));
    buildings
}

/// The corners of a building with what hangs outside it.
pub(super) fn around((low, high): (Pos, Pos)) -> (Pos, Pos) {
    let more = Pos::new(AROUND, AROUND);
    (low - more, high + more)
}

fn ends(wall: &Wall) -> [Pos; 2] {
    [wall.from.pos(), wall.to.pos()]
}

fn touch(one: &Wall, other: &Wall) -> bool {
    let (Some(a), Some(b)) = (one.line(), other.line()) else {
        return false;
    };
    let cross = a.crossing(&b).is_some_and(|(on_a, on_b)| {
        (0.0..=a.length).contains(&on_a) && (0.0..=b.length).contains(&on_b)
    });
    let near = |line: &crate::shape::Segment, wall: &Wall| {
        ends(wall)
            .iter()
            .any(|end| line.distance_to(*end) < TOGETHER)
    };
    cross || near(&a, other) || near(&b, one)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{LevelId, Lumber, Role, WallId};
    use crate::shape::Point;

    fn square(level: &mut Level, x: i32, side: i32) {
        let corners = [(x, 0), (x + side, 0), (x + side, side), (x, side)];
        for place in 0..4 {
            let (from, to) = (corners[place], corners[(place + 1) % 4]);
            let id = WallId(level.walls.len() as u32 + 1);
            let (from, to) = (Point::new(from.0, from.1), Point::new(to.0, to.1));
            level
                .walls
                .push(Wall::new(id, from, to, Lumber::TwoBySix, Role::Exterior));
        }
    }

    #[test]
    fn a_garage_that_stands_apart_is_a_building_of_its_own() {
        let mut level = Level::new(LevelId(1), "Ground");
        square(&mut level, 20_000, 6_000);
        square(&mut level, 0, 9_000);
        let found = apart(&level);
        assert_eq!(found.len(), 2);
        assert_eq!(found[0].1, Pos::new(9_000.0, 9_000.0));
        square(&mut level, 9_200, 3_000);
        assert_eq!(apart(&level).len(), 2);
    }
}
