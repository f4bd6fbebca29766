//! Findings about power that a person drew beside boxes and the closet. Beside cable it is told with the
//! ways.

use super::{Finding, Severity, Subject};
use crate::plan::{ClosetPlace, Drop, Level, Place, Plan, PowerPlace, PowerRun};
use crate::rules::trade::{PANEL, WORKING, WORKING_SOURCE};
use crate::shape::Pos;
use crate::units::{Mm, Size};

pub(super) fn check(plan: &Plan) -> Vec<Finding> {
    let boxes = plan.drops.iter().filter_map(|drop| beside(plan, drop));
    boxes.chain(closet(plan)).collect()
}

/// A box that power cable runs through, or past nearer than is warned of.
fn beside(plan: &Plan, drop: &Drop) -> Option<Finding> {
    let (level, rules) = (plan.level(drop.level)?, &plan.rules);
    let runs = level.power_runs.iter();
    let apart = runs.filter_map(|run| {
        let apart = apart(drop, run)?;
        (apart < rules.power_distance(run.circuits).0).then_some((apart, run.panel))
    });
    let (apart, panel) = apart.min_by(|a, b| a.0.total_cmp(&b.0))?;
    let (label, what) = (
        drop.label(),
        if panel {
            "The service panel"
        } else {
            "Power cable"
        },
    );
    let words = match apart > 0.0 {
        true => format!(
            "{what} is {} from the box of {label}.",
            plan.units.size(Size(apart))
        ),
        false => format!("{what} lies where the box of {label} is."),
    };
    let todo =
        "Hang the box on another stud or at another height, or ask the electrician to go round it.";
    let finding = Finding::new(
        format!("power-box:{label}"),
        Severity::Warn,
        Subject::Drop(drop.id),
    );
    let source = rules.rule(rules.power_rule()).source.words();
    let finding = finding.says(words, todo).by(source);
    Some(finding.at_drop(plan, drop))
}

/// How far power in a wall is from the outline of a box in the same wall, millimetres; 0 in it.
fn apart(drop: &Drop, run: &PowerRun) -> Option<f64> {
    let Place::Wall {
        wall,
        offset,
        height,
        ..
    } = drop.place
    else {
        return None;
    };
    let PowerPlace::Wall {
        wall: on,
        from,
        to,
        height: at,
    } = run.place
    else {
        return None;
    };
    let (wide, tall) = drop.outline();
    let (offset, height, at) = (offset.f64(), height.f64(), at.f64());
    let aside = (from.f64() - offset).max(offset - to.f64()).max(wide / 2.0) - wide / 2.0;
    // A riser goes all the way up; it has no height of its own.
    let reach = if run.panel { PANEL } else { 0.0 };
    let over = match from == to && !run.panel {
        true => 0.0,
        false => ((at - height).abs() - reach).max(tall / 2.0) - tall / 2.0,
    };
    (on == wall).then(|| (aside * aside + over * over).sqrt())
}

/// A closet beside a service panel.
fn closet(plan: &Plan) -> Option<Finding> {
    let closet = plan.closet?;
    let level = plan.level(closet.level)?;
    let here = closet.in_front(plan, 0.0)?;
    let panels = level.power_runs.iter().filter(|run| run.panel);
    let away = panels.filter_map(|run| away(level, closet.place, here, run));
    let away = away.min_by(f64::total_cmp).filter(|away| *away < WORKING)?;
    let wanted = plan.units.size(Size(WORKING));
    let what = match away > 0.0 {
        true => format!(
            "The closet is {} from the service panel; {wanted} on both sides of it stay free.",
            plan.units.position(Mm::rounded(away))
        ),
        false => String::from("The closet is where the service panel hangs."),
    };
    let todo = "Move the closet along, or to another wall.";
    let finding = Finding::new(
        String::from("power-closet"),
        Severity::Warn,
        Subject::Closet,
    );
    Some(
        finding
            .at(closet.level, here)
            .says(what, todo)
            .by(WORKING_SOURCE),
    )
}

/// How far a closet is from a service panel: along the wall both hang on, else on the plan.
fn away(level: &Level, closet: ClosetPlace, here: Pos, run: &PowerRun) -> Option<f64> {
    let PowerPlace::Wall { wall, from, to, .. } = run.place else {
        return None;
    };
    if let ClosetPlace::Wall {
        wall: on, offset, ..
    } = closet
        && on == wall
    {
        return Some((from - offset).f64().max((offset - to).f64()).max(0.0));
    }
    let line = level.wall(wall)?.line()?;
    let nearest = line.offset_of(here).clamp(from.f64(), to.f64());
    Some(line.at(nearest, 0.0).distance(here))
}
