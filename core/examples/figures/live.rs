//! The live answer beside what then settles: after single edits of a settled plan, and of a fresh one.

use borewright_core::design::Design;
use borewright_core::framing::Framing;
use borewright_core::plan::Plan;
use borewright_core::route::Routing;
use borewright_core::route::network::Effort;

use crate::edits::{near, single_edits};
use crate::figure;
use crate::network::over;
use crate::saved::{plans, two_storeys};

/// Of each house so many drops are taken out, moved and placed.
const EACH: usize = 3;

/// Prints the section.
pub fn print() {
    let (mut near_settled, mut near_from_nothing, mut edits) = (0, 0, 0);
    for (name, plan) in plans().into_iter().chain([two_storeys()]) {
        let before = settled(&plan);
        let fresh = over(Design::of(&plan).ways.cost, before.ways.cost);
        let name = format!("first answer of {name} over what settles");
        figure::print(&name, fresh, "%", "3", "the cost of the ways");
        for (_, after) in single_edits(&plan, EACH) {
            let then = settled(&after);
            near_settled += u32::from(near(&Design::after(&before, &plan, &after), &then));
            near_from_nothing += u32::from(near(&Design::of(&after), &then));
            edits += 1;
        }
    }
    let how = format!(
        "{edits} single edits of A, B, C and both demos: cable within 1 % and bores within one of \
         what then settles"
    );
    let share = |count: u32| f64::from(count) / f64::from(edits) * 100.0;
    figure::print("live against settled", share(near_settled), "%", "95", &how);
    let name = "live against settled, ways sought from nothing";
    figure::print(name, share(near_from_nothing), "%", "-", &how);
}

/// What the long search settles at; the bound changes no way and is left out.
fn settled(plan: &Plan) -> Design {
    let framing = Framing::of(plan);
    let answer = Routing::of(plan, &framing).answer(Effort::LONG);
    Design::taking(plan, answer.as_ref()).unwrap()
}
