//! What the member of a crossing allows, and by which rule.

use std::collections::BTreeSet;

use super::Bore;
use crate::framing::{Framing, WallFraming};
use crate::plan::{Plan, Wall, WallId};
use crate::route::{Crossing, Member, Ways};
use crate::rules::{RuleId, RuleSet};
use crate::units::Size;

/// The largest bore a member allows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// The largest bore; `None` where no rule limits it.
    pub largest: Option<Size>,
    /// The rule that says so.
    pub rule: RuleId,
}

/// The limit of the member a crossing goes through.
///
/// Studs and corners: by width and role of the wall, the tighter of two walls at a corner; doubled
/// studs as such only where not more of them are bored in a row than the rule lets. Joists:
/// by depth. Plates, sheathing and webs have no largest bore here: a plate gets a tie, a web is
/// bored by its maker's chart only, which a finding asks for.
pub fn limit(plan: &Plan, framing: &Framing, ways: &Ways, crossing: &Crossing) -> Limit {
    let rules = &plan.rules;
    let doubled = counts_as_doubled(plan, framing, ways, crossing);
    let stud = |id: WallId| {
        let wall = plan.wall(id).map(|(_, wall)| wall)?;
        Some((
            rules.stud_limit(wall.width(), wall.role.is_bearing(), doubled),
            stud_rule(rules, wall, doubled),
        ))
    };
    match &crossing.member {
        Member::Studs(_) => found(crossing.wall.and_then(stud)),
        Member::Corner { to, .. } => {
            let both = [crossing.wall.and_then(stud), stud(*to)];
            found(
                both.into_iter()
                    .flatten()
                    .min_by(|a, b| a.0.0.total_cmp(&b.0.0)),
            )
        }
        Member::Joist { space } => {
            let depth = framing.spaces.get(*space).map_or(0.0, |space| space.depth);
            let largest = rules.joist_limit(Size(depth));
            let by_edge = largest.0 < depth * rules.share(RuleId::JoistBore);
            Limit {
                largest: Some(largest),
                rule: match by_edge {
                    true => RuleId::JoistEdge,
                    false => RuleId::JoistBore,
                },
            }
        }
        Member::TopPlates(_) | Member::BottomPlates(_) => Limit {
            largest: None,
            rule: RuleId::PlateTie,
        },
        Member::Web { .. } | Member::Sheathing | Member::Soffit => Limit {
            largest: None,
            rule: RuleId::SetBack,
        },
    }
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

/// The rule that governs a stud: its share, or the wood left at the edges where that is tighter.
fn stud_rule(rules: &RuleSet, wall: &Wall, doubled: bool) -> RuleId {
    let bearing = wall.role.is_bearing();
    let share = match (bearing, doubled) {
        (true, true) => RuleId::StudDoubledBore,
        (true, false) => RuleId::StudBearingBore,
        (false, _) => RuleId::StudOtherBore,
    };
    let largest = rules.stud_limit(wall.width(), bearing, doubled);
    match largest.0 < wall.width().0 * rules.share(share) {
        true => RuleId::StudEdge,
        false => share,
    }
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

fn found(stud: Option<(Size, RuleId)>) -> Limit {
    match stud {
        Some((largest, rule)) => Limit {
            largest: Some(largest),
            rule,
        },
        None => Limit {
            largest: None,
            rule: RuleId::StudOtherBore,
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::Edit;
    use crate::plan::{LevelId, Lumber, Role};
    use crate::shape::{Point, Pos};

    /// A partition stud 2-1/2 in wide: 60 % would be 1-1/2 in, 5/8 in at both edges leave 1-1/4 in
    /// (IRC R602.6 item 2). The rule named is the one that governs.
    #[test]
    fn the_tighter_rule_is_the_one_that_is_named() {
        let plan = |lumber| {
            let (from, to) = (Point::new(0, 0), Point::new(4000, 0));
            let (level, role) = (LevelId(1), Role::Partition);
            Plan::new()
                .apply(&Edit::AddWall {
                    level,
                    from,
                    to,
                    lumber,
                    role,
                })
                .unwrap()
        };
        let crossing = Crossing {
            wall: Some(WallId(1)),
            offset: 1000.0,
            height: 610.0,
            at: Pos::new(1000.0, 0.0),
            ..Crossing::through(Member::Studs(vec![2]))
        };
        let found = |lumber| {
            let plan = plan(lumber);
            limit(&plan, &Framing::of(&plan), &Ways::default(), &crossing)
        };
        let narrow = found(Lumber::Width(Size::inches(2.5)));
        assert_eq!(narrow.rule, RuleId::StudEdge);
        assert!(Size::inches(1.25).within(narrow.largest.unwrap()));
        assert_eq!(found(Lumber::TwoByFour).rule, RuleId::StudOtherBore);
    }

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
