//! Which room a place is in.

use crate::plan::{Level, Room, Wall};
use crate::shape::{Pos, Segment};

/// The room a place belongs to: the nearest name that is in sight of it, doors and walls both
/// closing the view; where none is in sight, the nearest name. `None` on a level without rooms.
pub fn room_at(level: &Level, place: Pos) -> Option<&Room> {
    let rooms = level.rooms.iter();
    let apart = rooms.map(|room| (room.at.pos().distance(place), room));
    let order = |a: &(f64, &Room), b: &(f64, &Room)| a.0.total_cmp(&b.0).then(a.1.id.cmp(&b.1.id));
    let seen = |(_, room): &(f64, &Room)| in_sight(level, place, room.at.pos());
    let nearest = apart.clone().min_by(order)?;
    // The nearest is in sight nearly always: the others are put in order only where it is not.
    if seen(&nearest) {
        return Some(nearest.1);
    }
    let mut rooms: Vec<(f64, &Room)> = apart.collect();
    rooms.sort_by(order);
    // Where one name is out of sight so are all others at its place.
    rooms.dedup_by(|a, b| a.1.at == b.1.at);
    let found = rooms.into_iter().find(seen).unwrap_or(nearest);
    Some(found.1)
}

fn in_sight(level: &Level, from: Pos, to: Pos) -> bool {
    let Some(view) = Segment::between(from, to) else {
        return true;
    };
    let crosses = |wall: Segment| {
        view.crossing(&wall).is_some_and(|(along, on)| {
            (0.0..=view.length).contains(&along) && (0.0..=wall.length).contains(&on)
        })
    };
    // Most walls are nowhere near, which takes less to see than where they would cross.
    let is_near = |wall: &&Wall| {
        let (a, b) = (wall.from.pos(), wall.to.pos());
        spans_meet((a.x, b.x), (from.x, to.x)) && spans_meet((a.y, b.y), (from.y, to.y))
    };
    let near = level.walls.iter().filter(is_near);
    !near.filter_map(Wall::line).any(crosses)
}

/// Whether two spans share a value, or nearly do.
fn spans_meet(one: (f64, f64), other: (f64, f64)) -> bool {
    let low = one.0.min(one.1).max(other.0.min(other.1));
    let high = one.0.max(one.1).min(other.0.max(other.1));
    low <= high + 1.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{LevelId, Lumber, Role, RoomId, WallId};
    use crate::shape::Point;

    #[test]
    fn a_place_belongs_to_the_room_it_sees() {
        let mut level = Level::new(LevelId(1), "Ground");
        let (from, to) = (Point::new(2000, 0), Point::new(2000, 4000));
        level.walls.push(Wall::new(
            WallId(1),
            from,
            to,
            Lumber::TwoByFour,
            Role::Partition,
        ));
        let room = |id, name: &str, x| Room {
            id: RoomId(id),
            name: name.into(),
            at: Point::new(x, 500),
        };
        level.rooms = vec![room(1, "Den", 1900), room(2, "Bath", 3900)];
        assert_eq!(
            room_at(&level, Pos::new(2100.0, 500.0)).map(|r| r.name.as_str()),
            Some("Bath")
        );
        assert_eq!(
            room_at(&level, Pos::new(100.0, 3000.0)).map(|r| r.name.as_str()),
            Some("Den")
        );
        level.rooms.clear();
        assert_eq!(room_at(&level, Pos::new(0.0, 0.0)), None);
    }
}
