//! The usual cautions. Never says that anything passes.

use crate::plan::Plan;

/// What stands at the foot of every page.
pub(super) fn short(plan: &Plan) -> String {
    format!(
        "Within the rule set you chose ({}). Wear eye protection. Look for power, gas and water \
         behind every bore. Bearing members: ask the builder. No holes in trusses, beams or \
         engineered wood without their maker. Local code, builder and licensed trades decide.",
        plan.rules.book.name()
    )
}
