//! What a member allows, and by which rule: one rule for the router, for bores and for findings. Chooses
//! no bit.

use super::{Crossing, Member};
use crate::framing::Framing;
use crate::plan::{Plan, Wall, WallId};
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

impl Crossing {
    /// The limit of the member, whose studs count as doubled or not.
    ///
    /// Studs and corners: by width and role of the wall, the tighter of two walls at a corner. Joists: by
    /// depth. Plates, sheathing and webs have no largest bore here: a plate gets a tie, a web is bored by
    /// its maker's chart only, which a finding asks for.
    pub fn limit(&self, plan: &Plan, framing: &Framing, doubled: bool) -> Limit {
        let stud = |id: WallId| {
            let wall = plan.wall(id).map(|(_, wall)| wall)?;
            Some(stud_limit(&plan.rules, wall, doubled))
        };
        let without = |rule| Limit {
            largest: None,
            rule,
        };
        match &self.member {
            Member::Studs(_) => self
                .wall
                .and_then(stud)
                .unwrap_or(without(RuleId::StudOtherBore)),
            Member::Corner { to, .. } => {
                let both = [self.wall.and_then(stud), stud(*to)].into_iter().flatten();
                let width = |limit: &Limit| limit.largest.unwrap_or_default().0;
                let tighter = both.min_by(|a, b| width(a).total_cmp(&width(b)));
                tighter.unwrap_or(without(RuleId::StudOtherBore))
            }
            Member::Joist { space } => {
                let depth = framing.spaces.get(*space).map_or(0.0, |space| space.depth);
                joist_limit(&plan.rules, depth)
            }
            Member::TopPlates(_) | Member::BottomPlates(_) => without(RuleId::PlateTie),
            Member::Web { .. } | Member::Sheathing | Member::Soffit => without(RuleId::SetBack),
        }
    }
}

/// A stud's limit: its share, or the wood left at the edges where that is tighter.
fn stud_limit(rules: &RuleSet, wall: &Wall, doubled: bool) -> Limit {
    let bearing = wall.role.is_bearing();
    let share = match (bearing, doubled) {
        (true, true) => RuleId::StudDoubledBore,
        (true, false) => RuleId::StudBearingBore,
        (false, _) => RuleId::StudOtherBore,
    };
    let largest = rules.stud_limit(wall.width(), bearing, doubled);
    let by_edge = largest.0 < wall.width().0 * rules.share(share);
    Limit {
        largest: Some(largest),
        rule: if by_edge { RuleId::StudEdge } else { share },
    }
}

fn joist_limit(rules: &RuleSet, depth: f64) -> Limit {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::Edit;
    use crate::plan::{LevelId, Lumber, Role};
    use crate::shape::Point;

    fn wall(from: Point, to: Point, lumber: Lumber, role: Role) -> Edit {
        Edit::AddWall {
            level: LevelId(1),
            from,
            to,
            lumber,
            role,
        }
    }

    /// A partition stud 2-1/2 in wide: 60 % would be 1-1/2 in, 5/8 in at both edges leave 1-1/4 in
    /// (IRC R602.6 item 2). The rule named is the one that governs.
    #[test]
    fn the_tighter_rule_is_the_one_that_is_named() {
        let found = |lumber| {
            let ends = (Point::new(0, 0), Point::new(4000, 0));
            let draw = wall(ends.0, ends.1, lumber, Role::Partition);
            let plan = Plan::new().apply(&draw).unwrap();
            let crossing = Crossing {
                wall: Some(WallId(1)),
                ..Crossing::through(Member::Studs(vec![2]))
            };
            crossing.limit(&plan, &Framing::of(&plan), false)
        };
        let narrow = found(Lumber::Width(Size::inches(2.5)));
        assert_eq!(narrow.rule, RuleId::StudEdge);
        assert!(Size::inches(1.25).within(narrow.largest.unwrap()));
        assert_eq!(found(Lumber::TwoByFour).rule, RuleId::StudOtherBore);
    }

    /// A bearing 2x6 is bored to 40 % of 5-1/2 in, 2.2 in; a bearing 2x4 to 1.4 in; a 2x4 partition to
    /// 60 %, 2.1 in.
    #[test]
    fn a_corner_is_as_tight_as_the_tighter_of_its_walls() {
        let corner = |lumber, role| {
            let (a, b, c) = (Point::new(0, 0), Point::new(4000, 0), Point::new(0, 4000));
            let wide = wall(a, b, Lumber::TwoBySix, Role::Bearing);
            let plan = Plan::new().apply(&wide);
            let plan = plan.and_then(|plan| plan.apply(&wall(a, c, lumber, role)));
            let plan = plan.unwrap();
            let between = |from: u32, to: u32| {
                let to = WallId(to);
                let crossing = Crossing {
                    wall: Some(WallId(from)),
                    ..Crossing::through(Member::Corner { count: 3, to })
                };
                let limit = crossing.limit(&plan, &Framing::of(&plan), false);
                limit.largest.unwrap().micrometres()
            };
            [between(1, 2), between(2, 1)]
        };
        assert_eq!(corner(Lumber::TwoByFour, Role::Bearing), [35_560; 2]);
        assert_eq!(corner(Lumber::TwoByFour, Role::Partition), [53_340; 2]);
    }
}
