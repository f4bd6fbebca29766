//! Story: walls by typed lengths, openings, rooms, what carries the ceiling; and what stands in a
//! cable's way is said, set aside with a reason, and taken up again.

use crate::sketch::take;
use borewright_tests::{Page, Point, Size};

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_room_is_framed_by_typed_lengths() {
    let page = Page::open("framing", Size::Desk);
    page.labelled("Job: Quince House, plot 9").tap();
    page.button("New job").tap();
    page.button("Trace without a drawing").tap();
    let sheet = page.labelled("Sheet");
    let start = sheet.at(0.3, 0.25);
    page.tap_at(start);
    page.move_to(start.by(300.0, 0.0));
    page.keys("20'\n");
    let (right, _) = far_corner(&page);
    page.move_to(start.by(right - start.x, 200.0));
    page.keys("14-6\n");
    let (right, bottom) = far_corner(&page);
    page.move_to(start.by(right - start.x - 200.0, bottom - start.y));
    page.keys("240\"\n");
    page.tap_at(start);
    page.see("The outline is closed.");
    page.see("4 walls, all joined");
    page.press("Escape");
    page.button("Show all of it").tap();
    open(&page);
    name_and_carry(&page);
    page.picture();
    for _ in 0..9 {
        page.press("Control+z");
    }
    page.see("no walls yet");
}

/// Where the walls drawn so far end to the right and below, as a person sees it, less half a wall.
fn far_corner(page: &Page) -> (f64, f64) {
    page.see("Undo: drew W");
    let script = "const all = [...document.querySelectorAll('[data-ink=wall-exterior]')]
        .map((e) => e.getBoundingClientRect());
        return [Math.max(...all.map((b) => b.right)), Math.max(...all.map((b) => b.bottom))]";
    let found = page.run(script);
    (
        found[0].as_f64().unwrap() - 3.0,
        found[1].as_f64().unwrap() - 3.0,
    )
}

/// Where the name of a wall stands.
fn named(page: &Page, name: &str) -> Point {
    page.text_of(name).at(0.5, 0.5)
}

/// How far a wall is from its name where it is level, pixels.
const ASIDE: f64 = 22.0;

fn open(page: &Page) {
    take(page, "Door");
    page.field("Width").fill("2'8\n");
    page.tap_at(named(page, "W3").by(-80.0, ASIDE));
    page.button("Undo: put a door in W3");
    page.see("in W3");
    page.press("Escape");
    take(page, "Window");
    page.field("Sill").fill("30\n");
    page.tap_at(named(page, "W1").by(80.0, ASIDE));
    page.button("Undo: put a window in W1");
}

fn name_and_carry(page: &Page) {
    page.press("Escape");
    page.button("Show all of it").tap();
    take(page, "Room name");
    let middle = page.labelled("Sheet").at(0.5, 0.5);
    page.tap_at(middle);
    page.field("Room name").fill("Den\n");
    page.button("Undo: named Den");
    page.press("Escape");
    take(page, "Joist direction");
    page.drag(middle.by(-80.0, 40.0), middle.by(80.0, 40.0));
    page.button("Undo: stated what is over Ground");
    page.see("Trusses span");
    page.role("combobox", "Under it").choose("Crawl space");
    page.button("Undo: stated what is under Ground");
    page.see("Joists run");
}

#[test]
#[ignore = "needs the served page: cargo verify"]
fn a_way_that_is_stopped_says_by_what_and_can_be_set_aside() {
    let page = Page::open("findings", Size::Desk);
    page.button("Ways").tap();
    take(&page, "Never drill");
    // The wall that outlet D11 stands in, between its box and the door.
    let box_of = page.labelled("D11 outlet, Garage").at(0.5, 0.5);
    page.tap_at(box_of.by(0.0, -40.0));
    page.see("Undo: closed W");
    page.button("Findings").tap();
    page.see("D11: No way to the closet: W4 is marked never to be drilled.");
    page.see("Move it, open a wall for drilling, or change what is above or below.");
    page.picture();
    // What stops the job stands first.
    let set_aside = page.all("button");
    let first = set_aside.iter().find(|(name, _)| name == "Set aside");
    first.unwrap().1.tap();
    page.field("Reason").fill("The builder opens it on Monday.");
    page.button("Set aside with this reason").tap();
    page.button("Undo: set a finding aside");
    page.see("The builder opens it on Monday.");
    page.button("Sheets").tap();
    page.see("The builder opens it on Monday.");
    page.button("Take it up again").tap();
    page.button("Undo: took a finding up again");
}
