//! What the member of a crossing allows, and by which rule.

use crate::framing::Framing;
use crate::plan::{Plan, Wall, WallId};
use crate::route::{Crossing, Member};
use crate::rules::RuleId;
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
            stud_rule(wall),
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
            Limit {
                largest: Some(largest),
                rule: RuleId::JoistBore,
            }
        }
        Member::TopPlates(_) | Member::BottomPlates(_) => Limit {
            largest: None,
            rule: RuleId::PlateTie,
        },
        Member::Web { .. } | Member::Sheathing => Limit {
            largest: None,
            rule: RuleId::SetBack,
        },
    }
}

fn stud_rule(wall: &Wall) -> RuleId {
    match wall.role.is_bearing() {
        true => RuleId::StudBearingBore,
        false => RuleId::StudOtherBore,
    }
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
