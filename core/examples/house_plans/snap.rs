//! Where a mark on a drawing comes to hang: the nearest clear place on the face of a wall. A mark
//! in front of a door, or of a window at the height of the glass, moves along the wall until it
//! clears the studs beside the opening.

use borewright_core::plan::{Level, Role, Side, Wall, WallId};
use borewright_core::shape::{Point, Pos, Segment};
use borewright_core::units::Mm;

/// A place on a face of a wall.
pub struct Face {
    pub wall: WallId,
    pub offset: Mm,
    pub side: Side,
}

/// Room for king stud, jack stud and half a box beside an opening, millimetres.
const BESIDE: f64 = 150.0;
/// Room for a corner's studs and half a box at the end of a wall, millimetres.
const CORNER: f64 = 200.0;

/// The clear place on a face nearest to a mark; `outside` looks at exterior walls alone.
pub fn nearest_face(level: &Level, mark: Point, outside: bool, height: Mm) -> Option<Face> {
    let walls = level
        .walls
        .iter()
        .filter(|wall| !outside || wall.role == Role::Exterior);
    let faces = walls.filter_map(|wall| on_wall(level, wall, mark.pos(), height));
    let nearest = faces.min_by(|a, b| a.0.total_cmp(&b.0));
    nearest.map(|(_, face)| face)
}

fn on_wall(level: &Level, wall: &Wall, mark: Pos, height: Mm) -> Option<(f64, Face)> {
    let line = wall.line()?;
    let offset = clear_offset(level, wall, &line, line.offset_of(mark), height)?;
    let side = Side::of(line.aside_of(mark));
    let face = line.at(offset, side.sign() * wall.width().0 / 2.0);
    let place = Face {
        wall: wall.id,
        offset: Mm::rounded(offset),
        side,
    };
    Some((face.distance(mark), place))
}

/// The offset nearest to `wanted` that is clear of the wall's ends and openings.
fn clear_offset(
    level: &Level,
    wall: &Wall,
    line: &Segment,
    wanted: f64,
    height: Mm,
) -> Option<f64> {
    let (low, high) = (
        CORNER.min(line.length / 2.0),
        (line.length - CORNER).max(line.length / 2.0),
    );
    let openings = level.openings_of(wall.id);
    let in_way = openings
        .iter()
        .filter(|o| (o.sill..=o.head).contains(&height));
    let taken: Vec<(f64, f64)> = in_way
        .map(|o| (o.offset.f64() - BESIDE, (o.offset + o.width).f64() + BESIDE))
        .collect();
    let edges = taken.iter().flat_map(|(from, to)| [*from, *to]);
    let clear = |at: &f64| {
        (low..=high).contains(at) && taken.iter().all(|(from, to)| *at <= *from || *to <= *at)
    };
    edges
        .chain([wanted.clamp(low, high)])
        .filter(clear)
        .min_by(|a, b| (a - wanted).abs().total_cmp(&(b - wanted).abs()))
}
