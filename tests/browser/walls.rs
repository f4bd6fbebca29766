//! Story: the code beside an elevation opens the same wall on a device that has the job, and says what to do on
//! one that has not.

use borewright_core::file::link::{self, Spot};
use borewright_core::plan::Plan;
use borewright_tests::{Page, Size};

use crate::keeping::change;
use crate::links::{copied_link, tally};

/// What the code beside a wall's elevation holds, on paper of this plan.
fn code_of(address: &str, plan: &Plan, place: usize) -> (String, String) {
    let version = link::version(plan).code().unwrap();
    let wall = plan.levels.iter().flat_map(|level| &level.walls).nth(place);
    let wall = wall.unwrap();
    let spot = Spot::of(&version, wall.id);
    (format!("{address}#{}", spot.spelled()), wall.label())
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_code_on_paper_opens_its_wall() {
    let page = Page::open("walls", Size::Desk);
    page.button("22 drops");
    // From the first change on it is a job of this device.
    change(&page);
    tally(&page);
    let copied = copied_link(&page);
    let (address, fragment) = copied.split_once('#').unwrap();
    let plan = link::read(&link::decode_text(fragment).unwrap())
        .unwrap()
        .plan;
    // On the page that is open, and on one that is opened by the code.
    for place in [3, 5] {
        let (code, label) = code_of(address, &plan, place);
        page.go_to(&code);
        page.see(&format!("Wall {label}"));
        page.labelled(&format!("{label} from its face, to scale"));
        page.button("23 drops");
    }
    let page = page.reopen();
    let (code, label) = code_of(address, &plan, 4);
    page.go_to(&code);
    page.see(&format!("Wall {label}"));
    // A device without the job is told so, and by what it gets it.
    let visitor = page.visitor(Size::Phone, "");
    visitor.go_to(&code);
    visitor.see("is not on this device: open its plan by the large code on the sheets");
    visitor.picture();
}
