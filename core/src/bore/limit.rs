//! What the member of a crossing allows, and by which rule.

use super::Bore;
use crate::framing::Framing;
use crate::plan::{Plan, Wall, WallId};
use crate::route::{Crossing, Member};
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
/// Studs and corners: by width and role of the wall, the tighter of two walls at a corner. Joists:
/// by depth. Plates, sheathing and webs have no largest bore here: a plate gets a tie, a web is
/// bored by its maker's chart only, which a finding asks for.
pub fn limit(plan: &Plan, framing: &Framing, crossing: &Crossing) -> Limit {
    let rules = &plan.rules;
    let stud = |id: WallId| {
        let wall = plan.wall(id).map(|(_, wall)| wall)?;
        Some((
            rules.stud_limit(wall.width(), wall.role.is_bearing(), false),
            stud_rule(rules, wall),
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

/// The rule that governs a stud: its share, or the wood left at the edges where that is tighter.
fn stud_rule(rules: &RuleSet, wall: &Wall) -> RuleId {
    let bearing = wall.role.is_bearing();
    let share = match bearing {
        true => RuleId::StudBearingBore,
        false => RuleId::StudOtherBore,
    };
    let largest = rules.stud_limit(wall.width(), bearing, false);
    match largest.0 < wall.width().0 * rules.share(share) {
        true => RuleId::StudEdge,
        false => share,
    }
}

/// The rules a bore was sized and protected by: of its member, its fill, its steel.
pub fn rules_of(plan: &Plan, framing: &Framing, crossing: &Crossing, bore: &Bore) -> Vec<RuleId> {
    let limit = limit(plan, framing, crossing);
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
            member: Member::Studs(vec![2]),
            wall: Some(WallId(1)),
            level: LevelId(1),
            offset: 1000.0,
            height: 610.0,
            at: Pos::new(1000.0, 0.0),
            cables: Vec::new(),
        };
        let found = |lumber| {
            let plan = plan(lumber);
            limit(&plan, &Framing::of(&plan), &crossing)
        };
        let narrow = found(Lumber::Width(Size::inches(2.5)));
        assert_eq!(narrow.rule, RuleId::StudEdge);
        assert!(Size::inches(1.25).within(narrow.largest.unwrap()));
        assert_eq!(found(Lumber::TwoByFour).rule, RuleId::StudOtherBore);
    }
}
