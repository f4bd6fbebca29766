//! Settled ways from one opening of a plan to the next: what this device keeps of them.

use borewright_core::design::{Design, Load, kept};
use borewright_core::plan::Plan;
use borewright_core::route::network::Answer;

use crate::browser::{program, ways};

/// What this device keeps of a plan as this program settled it. Of a plan that is too much for the page
/// nothing is kept: already the name of it would take too long.
pub async fn known(plan: &Plan) -> Option<Design> {
    if !Load::of(plan).is_light() {
        return None;
    }
    let name = kept::name(plan, &program::name())?;
    let bytes = ways::read(&name).await?;
    kept::read(plan, &bytes)
}

/// Keeps what was settled for a plan.
pub async fn keep(plan: &Plan, answer: &Answer) {
    if let Some(name) = kept::name(plan, &program::name()) {
        ways::write(&name, &kept::write(answer)).await;
    }
}
