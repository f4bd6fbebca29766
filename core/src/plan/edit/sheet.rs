//! Edits of the drawing under a level.

use std::sync::Arc;

use super::{Done, Refusal, level_mut};
use crate::plan::{KnownDimension, LevelId, Placing, Plan, Scan};
use crate::scan::fit_placing;
use crate::units::Mm;

pub(super) fn put(
    plan: &mut Plan,
    id: LevelId,
    scan: &Arc<Scan>,
    placing: Placing,
    known: &[KnownDimension],
) -> Done {
    sound(placing)?;
    if scan.width == 0 || scan.height == 0 {
        return Err(Refusal::because("That picture is empty. Open another one."));
    }
    let sheet = &mut level_mut(plan, id)?.sheet;
    sheet.scan = Some(Arc::clone(scan));
    sheet.placing = placing;
    sheet.known.clear();
    known
        .iter()
        .try_for_each(|known| add_known(plan, id, *known))
}

pub(super) fn remove(plan: &mut Plan, id: LevelId) -> Done {
    let sheet = &mut level_mut(plan, id)?.sheet;
    sheet.scan = None;
    sheet.known.clear();
    Ok(())
}

pub(super) fn place(plan: &mut Plan, id: LevelId, placing: Placing) -> Done {
    sound(placing)?;
    level_mut(plan, id)?.sheet.placing = placing;
    Ok(())
}

pub(super) fn add_known(plan: &mut Plan, id: LevelId, known: KnownDimension) -> Done {
    if known.length <= Mm(0) {
        return Err(Refusal::because(
            "The length is zero. Type how long it really is.",
        ));
    }
    let (dx, dy) = (known.to.0 - known.from.0, known.to.1 - known.from.1);
    let apart = (dx * dx + dy * dy).sqrt();
    if !(apart.is_finite() && apart >= 2.0) {
        return Err(Refusal::because(
            "Both ends are at the same place. Draw along something longer.",
        ));
    }
    let sheet = &mut level_mut(plan, id)?.sheet;
    let mut all = sheet.known.clone();
    all.push(known);
    let placing = fit_placing(&sheet.placing, &all);
    sound(placing)?;
    sheet.known = all;
    sheet.placing = placing;
    Ok(())
}

pub(super) fn remove_known(plan: &mut Plan, id: LevelId, index: usize) -> Done {
    let sheet = &mut level_mut(plan, id)?.sheet;
    if index >= sheet.known.len() {
        return Err(Refusal::because(
            "That dimension is no longer on the drawing.",
        ));
    }
    sheet.known.remove(index);
    sheet.placing = fit_placing(&sheet.placing, &sheet.known);
    Ok(())
}

fn sound(placing: Placing) -> Done {
    let (cos, sin) = placing.turn;
    let upright = (cos * cos + sin * sin - 1.0).abs() < 1e-6;
    let near = placing.origin.0.abs() < 1e6 && placing.origin.1.abs() < 1e6;
    if upright && near && (0.05..=1000.0).contains(&placing.scale) {
        return Ok(());
    }
    Err(Refusal::because(
        "With that length the drawing would not be a house. Check length and unit.",
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::Edit;

    fn known(from: (f64, f64), to: (f64, f64), length: i32) -> KnownDimension {
        KnownDimension {
            from,
            to,
            length: Mm(length),
        }
    }

    #[test]
    fn one_known_dimension_sets_the_scale() {
        let plan = Plan::new();
        let id = plan.levels[0].id;
        let edit = Edit::AddKnown(id, known((100.0, 0.0), (1100.0, 0.0), 8600));
        let plan = plan.apply(&edit).unwrap();
        let placing = plan.levels[0].sheet.placing;
        assert!(placing.scaled);
        assert!((placing.scale - 8.6).abs() < 1e-9);
        let plan = plan.apply(&Edit::RemoveKnown(id, 0)).unwrap();
        assert!(!plan.levels[0].sheet.placing.scaled);
    }

    #[test]
    fn impossible_dimensions_leave_the_plan_as_it_was() {
        let plan = Plan::new();
        let id = plan.levels[0].id;
        for bad in [
            known((5.0, 5.0), (5.0, 5.0), 1000),
            known((0.0, 0.0), (100.0, 0.0), 0),
            known((0.0, 0.0), (f64::NAN, 0.0), 10),
            known((0.0, 0.0), (3000.0, 0.0), 1),
        ] {
            assert!(plan.apply(&Edit::AddKnown(id, bad)).is_err(), "{bad:?}");
        }
        assert!(plan.apply(&Edit::RemoveKnown(id, 0)).is_err());
    }
}
