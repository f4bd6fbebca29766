//! How everything that can be agreed to stands, worked out once for a plan and its design.

use std::rc::Rc;

use borewright_core::agreement::{Matter, Standing, standings};
use yew::prelude::*;

use super::use_desk;

/// Every item of the plan on the table and how it stands.
#[hook]
pub fn use_standings() -> Rc<Vec<(Matter, Standing)>> {
    let desk = use_desk();
    let (plan, design) = (&desk.session.plan, &desk.session.design);
    use_memo((Rc::as_ptr(plan), Rc::as_ptr(design)), |_| {
        // What people agree to follows from the plan.
        match design.is_sought() {
            true => standings(plan, design),
            false => Vec::new(),
        }
    })
}
