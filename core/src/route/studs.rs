//! Whether the router may count on boring studs as doubled ones, before it is known which of them are
//! bored. Chooses no bit.

use crate::framing::WallFraming;
use crate::plan::Wall;
use crate::rules::{RuleId, RuleSet};

/// Whether uprights of a wall, as indices of its studs, count as doubled.
///
/// Doubled studs may be bored wider where not too many of them are bored one after the other (IRC
/// R602.6). How many are is known only once every way is, so the router counts on it where there are
/// not more in the whole wall: then it holds whatever is bored.
pub(super) fn count_as_doubled(
    rules: &RuleSet,
    wall: &Wall,
    framing: &WallFraming,
    studs: &[usize],
) -> bool {
    wall.doubled && always_doubled(rules, framing, studs)
}

fn always_doubled(rules: &RuleSet, framing: &WallFraming, studs: &[usize]) -> bool {
    let pairs = framing.doubled();
    let is_double = |stud: &usize| pairs.iter().any(|(a, b)| a == stud || b == stud);
    pairs.len() as f64 <= rules.value(RuleId::StudDoubledRow) && studs.iter().all(is_double)
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

    /// For each crossing along the wall whether it counts as doubled.
    fn counts(length: i32) -> Vec<bool> {
        let (wall, framing) = doubled(length);
        let framing = framing.wall(WallId(1)).unwrap();
        let crossed = framing.neighbours(610.0);
        let rules = RuleSet::default();
        let counts = |studs: &[usize]| count_as_doubled(&rules, &wall, framing, studs);
        crossed.iter().map(|(_, _, studs)| counts(studs)).collect()
    }

    /// By hand: 4 ft of wall have studs on layout at 16 and 32 in, two doubled ones, bored to 60 % of
    /// 3-1/2 in, whatever is bored (IRC R602.6). 6 ft have four, 16 in apart: all might be, so
    /// the router counts on single ones.
    #[test]
    fn doubled_studs_are_counted_on_where_they_cannot_be_too_many_in_a_row() {
        assert_eq!(counts(1219), [true; 2]);
        assert_eq!(counts(1829), [false; 4]);
    }

    /// An upright that is single keeps the limit of a single one.
    #[test]
    fn a_single_stud_between_doubled_ones_stays_single() {
        let (wall, framing) = doubled(1219);
        let framing = framing.wall(WallId(1)).unwrap();
        assert!(!count_as_doubled(&RuleSet::default(), &wall, framing, &[0]));
    }
}
