//! What other trades took out of the wood where it is drawn: notches and their bores, as holes our own
//! bores keep clear of. Moves nothing.

use super::place::{Axis, Taken};
use crate::framing::Framing;
use crate::plan::{KeepOut, KeepOutShape, Plan};
use crate::route::Crossing;
use crate::rules::RuleId;

/// An upright reaches this far to both sides of where a crossing is counted, millimetres: half of two
/// boards.
const UPRIGHT: f64 = 38.1;

/// Cuts in the member of a crossing, along the axis its bores are shifted on.
pub(super) fn cuts(plan: &Plan, framing: &Framing, crossing: &Crossing, axis: Axis) -> Vec<Taken> {
    let level = plan.level(crossing.level);
    let drawn = level.into_iter().flat_map(|level| &level.keep_outs);
    let drawn = drawn.filter(|keep_out| keep_out.reason.is_cut());
    drawn
        .filter_map(|cut| taken(plan, framing, crossing, axis, cut))
        .collect()
}

fn taken(
    plan: &Plan,
    framing: &Framing,
    crossing: &Crossing,
    axis: Axis,
    cut: &KeepOut,
) -> Option<Taken> {
    let KeepOutShape::Stretch { wall, from, to } = cut.shape else {
        return None;
    };
    let frame = framing.wall(wall)?;
    let (low, high) = match axis {
        _ if crossing.wall != Some(wall) => return None,
        Axis::Height { .. } if here(crossing.offset, from.f64(), to.f64()) => {
            (cut.bottom.f64(), cut.top.f64())
        }
        Axis::Plate { top: true, .. } if cut.top.f64() > frame.top => (from.f64(), to.f64()),
        Axis::Plate { top: false, .. } if cut.bottom.f64() < frame.bottom => (from.f64(), to.f64()),
        _ => return None,
    };
    Some(Taken {
        at: (low + high) / 2.0,
        radius: (high - low) / 2.0,
        wood: plan.rules.value(RuleId::BoreSpacing),
    })
}

fn here(offset: f64, from: f64, to: f64) -> bool {
    from - UPRIGHT < offset && offset < to + UPRIGHT
}
