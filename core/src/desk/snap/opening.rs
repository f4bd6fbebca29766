//! Where a door or window lands in its wall.

use super::step;
use crate::plan::{Level, OpeningId, Wall};
use crate::units::{Mm, Units};

/// Room for a king and a jack stud beside an opening, millimetres, kept where there is any.
const BESIDE: f64 = 76.2;

/// The offset at which an opening of this width is nearest to being centred on `centre`, in whole
/// steps, clear of the wall's ends and of its other openings. `None` where no gap is wide enough.
pub(crate) fn fit_opening(
    level: &Level,
    wall: &Wall,
    without: Option<OpeningId>,
    centre: f64,
    width: Mm,
    units: Option<Units>,
) -> Option<Mm> {
    let wanted = centre - width.f64() / 2.0;
    let wanted = units.map_or(wanted, |units| step(wanted, units));
    let gaps = gaps(level, wall, without);
    let fitted = [BESIDE, 0.0].into_iter().find_map(|beside| {
        let ranges = gaps.iter().filter_map(|(from, to)| {
            let (from, to) = (from + beside, to - beside - width.f64());
            (from <= to).then(|| wanted.clamp(from, to))
        });
        ranges.min_by(|a, b| (a - wanted).abs().total_cmp(&(b - wanted).abs()))
    })?;
    // Rounding to whole millimetres must not push it over an edge.
    let length = wall.from.distance(wall.to);
    Some(Mm::rounded(fitted).min(length - width).max(Mm(0)))
}

/// Stretches of the wall without an opening, as offsets.
fn gaps(level: &Level, wall: &Wall, without: Option<OpeningId>) -> Vec<(f64, f64)> {
    let length = wall.from.distance(wall.to).f64();
    let mut gaps = Vec::new();
    let mut free_from = 0.0_f64;
    let openings = level.openings_of(wall.id).into_iter();
    for opening in openings.filter(|opening| Some(opening.id) != without) {
        gaps.push((free_from, opening.offset.f64()));
        free_from = free_from.max((opening.offset + opening.width).f64());
    }
    gaps.push((free_from, length));
    gaps
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{LevelId, Lumber, Opening, OpeningKind, Role, WallId};
    use crate::shape::Point;

    fn level(openings: &[(i32, i32)]) -> Level {
        let mut level = Level::new(LevelId(1), "Ground");
        let (from, to) = (Point::new(0, 0), Point::new(4000, 0));
        let wall = Wall::new(WallId(1), from, to, Lumber::TwoByFour, Role::Partition);
        level.walls.push(wall);
        for (number, (offset, width)) in (1..).zip(openings) {
            level.openings.push(Opening {
                id: OpeningId(number),
                wall: WallId(1),
                offset: Mm(*offset),
                width: Mm(*width),
                sill: Mm(0),
                head: Mm(2032),
                kind: OpeningKind::Door,
            });
        }
        level
    }

    fn fitted(level: &Level, centre: f64, width: i32) -> Option<Mm> {
        fit_opening(level, &level.walls[0], None, centre, Mm(width), None)
    }

    #[test]
    fn it_is_centred_where_there_is_room_and_pushed_clear_where_not() {
        let level = level(&[(1000, 900)]);
        assert_eq!(fitted(&level, 3000.0, 800), Some(Mm(2600)));
        assert_eq!(fitted(&level, 2000.0, 800), Some(Mm(1976)));
        assert_eq!(fitted(&level, 4000.0, 800), Some(Mm(3124)));
        assert_eq!(fitted(&level, 300.0, 800), Some(Mm(76)));
        assert_eq!(fitted(&level, 300.0, 950), Some(Mm(1976)));
    }

    #[test]
    fn a_tight_gap_is_used_to_the_last_and_a_narrow_one_not_at_all() {
        let level = level(&[(1000, 2000)]);
        assert_eq!(fitted(&level, 500.0, 1000), Some(Mm(0)));
        assert_eq!(fitted(&level, 500.0, 1001), None);
    }

    #[test]
    fn an_opening_does_not_stand_in_its_own_way() {
        let level = level(&[(1000, 900)]);
        let own = fit_opening(
            &level,
            &level.walls[0],
            Some(OpeningId(1)),
            1500.0,
            Mm(900),
            None,
        );
        assert_eq!(own, Some(Mm(1050)));
    }
}
