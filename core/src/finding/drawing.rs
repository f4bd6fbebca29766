//! Findings about the drawing: scale, known dimensions, outside walls that do not close.

use super::{Finding, Severity, Subject};
use crate::framing::Framing;
use crate::plan::{Level, Plan, Role};
use crate::scan::residuals;
use crate::units::Mm;

pub(super) fn check(plan: &Plan, framing: &Framing) -> Vec<Finding> {
    let mut found = Vec::new();
    for level in &plan.levels {
        found.extend(scale(level));
        found.extend(dimensions(plan, level));
        let closed = framing
            .level(level.id)
            .is_none_or(|framed| framed.outline.closed);
        found.extend(outline(level, closed));
    }
    found
}

fn scale(level: &Level) -> Option<Finding> {
    let unscaled = level.sheet.scan.is_some() && !level.sheet.placing.scaled;
    unscaled.then(|| {
        Finding::new(
            format!("no-scale:{}", level.id.0),
            Severity::Stop,
            Subject::Level(level.id),
        )
        .says(
            format!(
                "The drawing of {} has no scale, so no length is true.",
                level.name
            ),
            "Draw a line along something whose length is known, and type the length.",
        )
        .by("geometry")
    })
}

fn dimensions(plan: &Plan, level: &Level) -> Vec<Finding> {
    let residuals = residuals(&level.sheet.placing, &level.sheet.known);
    let known = level.sheet.known.iter().zip(residuals).enumerate();
    let suspicious = known.filter(|(_, (_, residual))| residual.suspicious);
    suspicious
        .map(|(place, (dimension, residual))| {
            let key = format!("residual:{}:{place}", level.id.0);
            let off = plan.units.position(Mm::rounded(residual.off.abs()));
            let middle = |a: f64, b: f64| (a + b) / 2.0;
            let pixel = (
                middle(dimension.from.0, dimension.to.0),
                middle(dimension.from.1, dimension.to.1),
            );
            Finding::new(key, Severity::Warn, Subject::Level(level.id))
                .at(level.id, level.sheet.placing.to_plan(pixel))
                .says(
                    format!(
                        "The dimension of {} is {off} off from what the others say.",
                        plan.units.position(dimension.length)
                    ),
                    "Check what is written there, or draw along it again.",
                )
                .by("least squares over all known dimensions")
        })
        .collect()
}

fn outline(level: &Level, closed: bool) -> Option<Finding> {
    let outside = level
        .walls
        .iter()
        .filter(|wall| wall.role == Role::Exterior)
        .count();
    if closed || (outside == 0 && level.walls.len() < 3) {
        return None;
    }
    let (what, todo) = match outside {
        0 => (
            "has no outside walls",
            "Mark the walls around the house as exterior.",
        ),
        _ => (
            "has outside walls that do not close",
            "Join their ends, so that the house is closed all round.",
        ),
    };
    let finding = Finding::new(
        format!("outline:{}", level.id.0),
        Severity::Warn,
        Subject::Level(level.id),
    );
    Some(
        finding
            .says(format!("{} {what}.", level.name), todo)
            .by("geometry"),
    )
}
