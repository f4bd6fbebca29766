//! What the member of a crossing allows once it is known which others are bored, and by which rules a
//! bore was sized.

use std::collections::BTreeSet;

use super::Bore;
use crate::framing::{Framing, WallFraming};
use crate::plan::Plan;
use crate::route::{Crossing, Limit, Member, Ways, Work};
use crate::rules::RuleId;

/// What decides the bores of a crossing, given which others are bored: doubled studs count as such only
/// where not more of them are bored in a row than the rule lets.
pub(super) fn work(plan: &Plan, framing: &Framing, ways: &Ways, crossing: &Crossing) -> Work {
    let doubled = counts_as_doubled(plan, framing, ways, crossing);
    Work::of(plan, framing, crossing, doubled)
}

/// The limit of the member a crossing goes through.
pub fn limit(plan: &Plan, framing: &Framing, ways: &Ways, crossing: &Crossing) -> Limit {
    let doubled = counts_as_doubled(plan, framing, ways, crossing);
    crossing.limit(plan, framing, doubled)
}

/// Whether a crossing goes through a doubled stud that may be bored as such: not more of them one
/// after the other than the rule set lets. A bore that would be small enough for a single stud counts
/// too: that a row may grow later is not for a bore to know.
fn counts_as_doubled(plan: &Plan, framing: &Framing, ways: &Ways, crossing: &Crossing) -> bool {
    let Member::Studs(studs) = &crossing.member else {
        return false;
    };
    let wall = crossing.wall.and_then(|id| plan.wall(id));
    let Some((_, wall)) = wall.filter(|(_, wall)| wall.doubled) else {
        return false;
    };
    let pairs = framing
        .wall(wall.id)
        .map_or_else(Vec::new, WallFraming::doubled);
    let bored = bored(ways, crossing);
    let through = |pair: &(usize, usize)| bored.contains(&pair.0) || bored.contains(&pair.1);
    let here = |(a, b): &(usize, usize)| studs.contains(a) || studs.contains(b);
    let mut rows = pairs.chunk_by(|a, b| through(a) == through(b));
    let row = rows.find(|row| row.iter().any(here));
    let most = plan.rules.value(RuleId::StudDoubledRow);
    let is_double = |stud: &usize| pairs.iter().any(|(a, b)| a == stud || b == stud);
    studs.iter().all(is_double) && row.is_some_and(|row| row.len() as f64 <= most)
}

/// Every stud of a crossing's wall that is bored.
fn bored(ways: &Ways, crossing: &Crossing) -> BTreeSet<usize> {
    let in_wall = ways
        .crossings
        .iter()
        .filter(|other| other.wall == crossing.wall);
    let studs = |other: &Crossing| match &other.member {
        Member::Studs(studs) => studs.clone(),
        _ => Vec::new(),
    };
    in_wall.chain([crossing]).flat_map(studs).collect()
}

/// The rules a bore was sized and protected by: of its member, its fill, its steel.
pub fn rules_of(plan: &Plan, framing: &Framing, ways: &Ways, bore: &Bore) -> Vec<RuleId> {
    let Some(crossing) = ways.crossings.get(bore.crossing) else {
        return Vec::new();
    };
    let limit = limit(plan, framing, ways, crossing);
    let member = limit.largest.map(|_| limit.rule);
    let plates = matches!(
        crossing.member,
        Member::Studs(_) | Member::Corner { .. } | Member::TopPlates(_) | Member::BottomPlates(_)
    );
    let rules = [
        member,
        Some(plan.rules.fill_rule(bore.cables.len())),
        plates.then_some(RuleId::SetBack),
        bore.tie.then_some(RuleId::PlateTie),
    ];
    rules.into_iter().flatten().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::Edit;
    use crate::plan::{LevelId, Lumber, Role, Wall, WallId};
    use crate::shape::{Point, Pos};

    /// IRC R602.6: a bearing 2x4 is bored to 40 %, 1.4 in; doubled to 60 %, 2.1 in, if not more than
    /// two doubled studs in a row are bored. One, two and three in a row.
    #[test]
    fn doubled_studs_may_be_bored_wider_two_in_a_row() {
        let (from, to) = (Point::new(0, 0), Point::new(4000, 0));
        let draw = Edit::AddWall {
            level: LevelId(1),
            from,
            to,
            lumber: Lumber::TwoByFour,
            role: Role::Bearing,
        };
        let plan = Plan::new().apply(&draw).unwrap();
        let wall = *plan.wall(WallId(1)).unwrap().1;
        let doubled = plan
            .apply(&Edit::SetWall(Wall {
                doubled: true,
                ..wall
            }))
            .unwrap();
        let found = |plan: &Plan, row: usize| {
            let framing = Framing::of(plan);
            let studs = framing.wall(WallId(1)).unwrap().neighbours(610.0);
            let crossing = |place: usize| Crossing {
                member: Member::Studs(studs[place].2.clone()),
                wall: Some(WallId(1)),
                level: LevelId(1),
                offset: 0.0,
                height: 610.0,
                at: Pos::new(0.0, 0.0),
                cables: vec![crate::plan::CableId(1)],
            };
            let crossings: Vec<Crossing> = (1..=row).map(crossing).collect();
            let ways = Ways {
                crossings,
                ..Ways::default()
            };
            let limit = limit(plan, &framing, &ways, &ways.crossings[0]);
            (limit.largest.unwrap().micrometres(), limit.rule)
        };
        let (forty, sixty) = (35_560, 53_340);
        assert_eq!(found(&plan, 1), (forty, RuleId::StudBearingBore));
        assert_eq!(found(&doubled, 1), (sixty, RuleId::StudDoubledBore));
        assert_eq!(found(&doubled, 2), (sixty, RuleId::StudDoubledBore));
        assert_eq!(found(&doubled, 3), (forty, RuleId::StudBearingBore));
    }
}
