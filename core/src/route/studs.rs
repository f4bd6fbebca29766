//! How wide the router may count on boring studs, before it is known which of them are bored. Chooses no bit.

use crate::framing::WallFraming;
use crate::plan::Wall;
use crate::rules::{RuleId, RuleSet};
use crate::units::Size;

/// The largest bore the router may count on in uprights of a wall, as indices of its studs.
///
/// Doubled studs may be bored wider where not too many of them are bored one after the other (IRC
/// R602.6). How many are is known only once every way is, so the router counts on it where there are
/// not more in the whole wall: then it holds whatever is bored.
pub(super) fn limit(rules: &RuleSet, wall: &Wall, framing: &WallFraming, studs: &[usize]) -> Size {
    let doubled = wall.doubled && always_doubled(rules, framing, studs);
    rules.stud_limit(wall.width(), wall.role.is_bearing(), doubled)
}

fn always_doubled(rules: &RuleSet, framing: &WallFraming, studs: &[usize]) -> bool {
    let pairs = framing.doubled();
    let is_double = |stud: &usize| pairs.iter().any(|(a, b)| a == stud || b == stud);
    pairs.len() as f64 <= rules.value(RuleId::StudDoubledRow) && studs.iter().all(is_double)
}

/// The largest bore in a corner: the tighter of its two walls'.
pub(super) fn corner_limit(rules: &RuleSet, one: &Wall, other: &Wall) -> Size {
    let limit = |wall: &Wall| rules.stud_limit(wall.width(), wall.role.is_bearing(), false);
    Size(limit(one).0.min(limit(other).0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::framing::Framing;
    use crate::plan::edit::Edit;
    use crate::plan::{LevelId, Lumber, Plan, Role, WallId};
    use crate::shape::Point;

    /// A bearing 2x4 wall this long whose studs are doubled.
    fn doubled(length: i32) -> (Wall, Framing) {
        let draw = Edit::AddWall {
            level: LevelId(1),
            from: Point::new(0, 0),
            to: Point::new(length, 0),
            lumber: Lumber::TwoByFour,
            role: Role::Bearing,
        };
        let plan = Plan::new().apply(&draw).unwrap();
        let wall = Wall {
            doubled: true,
            ..plan.levels[0].walls[0]
        };
        let plan = plan.apply(&Edit::SetWall(wall)).unwrap();
        (wall, Framing::of(&plan))
    }

    /// The limit of each crossing along the wall, micrometres.
    fn limits(length: i32) -> Vec<i64> {
        let (wall, framing) = doubled(length);
        let framing = framing.wall(WallId(1)).unwrap();
        let crossed = framing.neighbours(610.0);
        let limit = |studs: &[usize]| limit(&RuleSet::default(), &wall, framing, studs);
        crossed
            .iter()
            .map(|(_, _, studs)| limit(studs).micrometres())
            .collect()
    }

    /// By hand: 4 ft of wall have studs on layout at 16 and 32 in, two doubled ones, bored to 60 % of
    /// 3-1/2 in, 2.1 in, whatever is bored (IRC R602.6). 6 ft have four, 16 in apart: all might be, so
    /// the router counts on 40 %, 1.4 in.
    #[test]
    fn doubled_studs_are_counted_on_where_they_cannot_be_too_many_in_a_row() {
        assert_eq!(limits(1219), [53_340; 2]);
        assert_eq!(limits(1829), [35_560; 4]);
    }

    /// An upright that is single keeps the limit of a single one.
    #[test]
    fn a_single_stud_between_doubled_ones_stays_single() {
        let (wall, framing) = doubled(1219);
        let framing = framing.wall(WallId(1)).unwrap();
        let found = limit(&RuleSet::default(), &wall, framing, &[0]);
        assert_eq!(found.micrometres(), 35_560);
    }

    /// A bearing 2x6 is bored to 40 % of 5-1/2 in, 2.2 in; a bearing 2x4 to 1.4 in; a 2x4 partition to
    /// 60 %, 2.1 in.
    #[test]
    fn a_corner_is_as_tight_as_the_tighter_of_its_walls() {
        let wall = |lumber, role| {
            let ends = (Point::new(0, 0), Point::new(4000, 0));
            Wall::new(WallId(1), ends.0, ends.1, lumber, role)
        };
        let wide = wall(Lumber::TwoBySix, Role::Bearing);
        let corner = |other: Wall| {
            let rules = RuleSet::default();
            let both = [
                corner_limit(&rules, &wide, &other),
                corner_limit(&rules, &other, &wide),
            ];
            both.map(Size::micrometres)
        };
        assert_eq!(corner(wall(Lumber::TwoByFour, Role::Bearing)), [35_560; 2]);
        assert_eq!(
            corner(wall(Lumber::TwoByFour, Role::Partition)),
            [53_340; 2]
        );
    }
}
