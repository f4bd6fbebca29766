//! The usual cautions. Never says that anything passes.

use crate::plan::Plan;

/// What stands at the foot of every page.
pub(super) fn short(plan: &Plan) -> String {
    format!(
        "Within the rule set you chose ({}). Wear eye protection. Look for power, gas and water \
         behind every bore. Ask before boring what bears, trusses, beams or engineered wood. Local \
         code, builder and licensed trades decide.",
        plan.rules.name()
    )
}

/// The cautions one by one, for the cover.
pub(super) fn all(plan: &Plan) -> Vec<String> {
    let mut cautions = vec![format!(
        "Everything here is within the rule set you chose ({}) or named in the findings. The local \
         code, the builder and the licensed trades decide.",
        plan.rules.name()
    )];
    let rest = [
        "Wear eye protection. Look and feel for power, gas and water behind every bore before drilling.",
        "Bearing members: ask the builder before drilling.",
        "No holes in trusses, beams or engineered wood without the maker's word.",
        "Ladders and attics: three points of contact, and step on framing only.",
        "Power cable is for the electrician. Keep clear of it, and never open a live box.",
    ];
    cautions.extend(rest.map(String::from));
    cautions
}
