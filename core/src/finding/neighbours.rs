//! Findings about bores beside each other: too little wood between two of ours, and bores in plates
//! that meet a stud, its nails or an electrician's hole.

use std::collections::BTreeSet;

use super::{Finding, Severity, Subject, closet};
use crate::bore::{Bore, Close, in_the_way, near_cuts, too_close};
use crate::framing::Framing;
use crate::plan::Plan;
use crate::route::{Crossing, Ways};
use crate::rules::RuleId;
use crate::rules::trade::PRACTICE;
use crate::units::Size;

pub(super) fn check(plan: &Plan, framing: &Framing, ways: &Ways, bores: &[Bore]) -> Vec<Finding> {
    let mut said = BTreeSet::new();
    let mut close = too_close(plan, framing, ways, bores);
    close.sort_by(|a, b| a.wood.total_cmp(&b.wood));
    let told = closet::told(plan, framing, ways, bores);
    let is_told = |close: &Close| {
        let on = [close.bores.0, close.bores.1].map(|bore| Some(bores[bore].crossing));
        told.is_some() && on == [told, told]
    };
    let close = close.into_iter().filter(|close| !is_told(close));
    let close = close.filter_map(|close| spacing(plan, ways, bores, &close, &mut said));
    let met = in_the_way(plan, framing, ways, bores).into_iter();
    let met = met.filter_map(|place| meets(plan, ways, bores.get(place)?));
    // A row shares its number and says it once.
    let mut rows = BTreeSet::new();
    let cut = near_cuts(plan, framing, ways, bores).into_iter();
    let cut = cut.filter_map(|place| bores.get(place));
    let cut = cut.filter(|bore| rows.insert(bore.number));
    let cut = cut.filter_map(|bore| beside_cut(plan, ways, bore));
    close.chain(met).chain(cut).collect()
}

/// A place that does not change with the bores' numbers.
fn spot(crossing: &Crossing) -> String {
    let wall = crossing.wall.map_or(0, |wall| wall.0);
    format!("{}:W{wall}:{:.0}", crossing.level.0, crossing.offset)
}

/// Two rows say it once, and so do all bores of one bundle, by the closest two.
fn spacing(
    plan: &Plan,
    ways: &Ways,
    bores: &[Bore],
    close: &Close,
    said: &mut BTreeSet<(u32, u32)>,
) -> Option<Finding> {
    let (one, other) = (bores.get(close.bores.0)?, bores.get(close.bores.1)?);
    let numbers = (one.number.min(other.number), one.number.max(other.number));
    let crossings = (one.crossing, other.crossing);
    let fresh = match one.crossing == other.crossing {
        true => said.insert((0, one.crossing as u32)),
        false => said.insert(numbers),
    };
    if !fresh {
        return None;
    }
    let (here, there) = (
        ways.crossings.get(crossings.0)?,
        ways.crossings.get(crossings.1)?,
    );
    let rule = plan.rules.rule(close.rule);
    let wanted = plan.units.size(Size(rule.value));
    let left = match close.wood > 0.0 {
        true => format!(
            "leave {} of wood between them in one member",
            plan.units.limit(Size(close.wood))
        ),
        false => String::from("meet in one member"),
    };
    let finding = Finding::new(
        format!("spacing:{}:{}", spot(here), spot(there)),
        Severity::Warn,
        Subject::Bore(one.number),
    );
    Some(
        finding
            .at(here.level, here.at)
            .says(
                format!(
                    "Bores {} and {} {left}; {wanted} is wanted.",
                    numbers.0, numbers.1
                ),
                match crossings.0 == crossings.1 {
                    true => "Lead some of the cables through the next bay, or use larger bits.",
                    false => {
                        "Pin one wall's lane at another height, or send some cables another way."
                    }
                },
            )
            .by(rule.source.words()),
    )
}

fn meets(plan: &Plan, ways: &Ways, bore: &Bore) -> Option<Finding> {
    let (finding, label) = about("plate-nails", plan, ways, bore)?;
    let what = format!(
        "Bore {} meets a stud, its nails or an electrician's hole in the plates of {label}.",
        bore.number
    );
    let todo = "Shift it along within its bay, or send some cables another way.";
    Some(finding.says(what, todo).by(PRACTICE))
}

fn beside_cut(plan: &Plan, ways: &Ways, bore: &Bore) -> Option<Finding> {
    let (finding, label) = about("beside-cut", plan, ways, bore)?;
    let rule = plan.rules.rule(RuleId::BoreSpacing);
    let wanted = plan.units.size(Size(rule.value));
    let what = format!(
        "Bore {} leaves less than {wanted} of wood to a notch or a bore by others in {label}.",
        bore.number
    );
    let todo = "Pin the lane at another height, or send its cables another way.";
    Some(finding.says(what, todo).by(rule.source.words()))
}

/// A warning of this kind about a bore in a wall, where the bore is, and what the wall is called.
fn about(kind: &str, plan: &Plan, ways: &Ways, bore: &Bore) -> Option<(Finding, String)> {
    let crossing = ways.crossings.get(bore.crossing)?;
    let (_, wall) = plan.wall(crossing.wall?)?;
    let finding = Finding::new(
        format!("{kind}:{}:{}", spot(crossing), bore.part),
        Severity::Warn,
        Subject::Bore(bore.number),
    );
    Some((finding.at(crossing.level, crossing.at), wall.label()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::Edit;
    use crate::plan::{
        KeepOut, KeepOutId, KeepOutReason, KeepOutShape, LevelId, Lumber, Role, WallId,
    };
    use crate::route::Member;
    use crate::shape::Point;
    use crate::units::Mm;

    /// Three studs of one row beside a plumber's bores: said once.
    #[test]
    fn a_row_beside_what_others_bored_is_told_once() {
        let (level, wall) = (LevelId(1), WallId(1));
        let draw = Edit::AddWall {
            level,
            from: Point::new(0, 0),
            to: Point::new(4000, 0),
            lumber: Lumber::TwoByFour,
            role: Role::Partition,
        };
        let cut = KeepOut {
            id: KeepOutId(0),
            shape: KeepOutShape::Stretch {
                wall,
                from: Mm(0),
                to: Mm(4000),
            },
            bottom: Mm(640),
            top: Mm(680),
            reason: KeepOutReason::BoreByOthers,
        };
        let plan = Plan::new().apply(&draw).unwrap();
        let plan = plan.apply(&Edit::AddKeepOut(level, cut)).unwrap();
        let crossing = |stud: usize| Crossing {
            wall: Some(wall),
            offset: 406.4 * stud as f64,
            height: 610.0,
            ..Crossing::through(Member::Studs(vec![stud]))
        };
        let ways = Ways {
            crossings: (1..4).map(crossing).collect(),
            ..Ways::default()
        };
        let bore = |crossing: usize| Bore {
            number: 7,
            offset: ways.crossings[crossing].offset,
            height: 610.0,
            ..Bore::of(crossing, Size::inches(1.0))
        };
        let bores: Vec<Bore> = (0..3).map(bore).collect();
        let framing = Framing::of(&plan);
        let found = check(&plan, &framing, &ways, &bores);
        let told = found.iter().filter(|f| f.key.starts_with("beside-cut"));
        assert_eq!(told.count(), 1);
    }
}
